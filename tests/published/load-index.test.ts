import { describe, expect, test } from 'vitest';
import { FIRST_LOAD_INDEX, LAST_LOAD_INDEX, loadIndexCapacity } from '../../language/catalogue/tyres.ts';

/**
 * Load index and kg as published. Source: UN Regulation No. 54, Annex IV (also No. 30, Annex 4); figures from stored
 * copies of the table that agree with each other.
 */
const PUBLISHED = `
  52:200 53:206 54:212 55:218 56:224 57:230 58:236 59:243 60:250 61:257 62:265 63:272
  64:280 65:290 66:300 67:307 68:315 69:325 70:335 71:345 72:355 73:365 74:375 75:387
  76:400 77:412 78:425 79:437 80:450 81:462 82:475 83:487 84:500 85:515 86:530 87:545
  88:560 89:580 90:600 91:615 92:630 93:650 94:670 95:690 96:710 97:730 98:750 99:775
  100:800 101:825 102:850 103:875 104:900 105:925 106:950 107:975 108:1000 109:1030 110:1060 111:1090
  112:1120 113:1150 114:1180 115:1215 116:1250 117:1285 118:1320 119:1360 120:1400 121:1450 122:1500 123:1550
  124:1600 125:1650 126:1700 127:1750 128:1800 129:1850 130:1900 131:1950 132:2000 133:2060 134:2120 135:2180
  136:2240 137:2300 138:2360 139:2430 140:2500 141:2575 142:2650 143:2725 144:2800 145:2900 146:3000 147:3075
  148:3150 149:3250 150:3350 151:3450 152:3550 153:3650 154:3750 155:3875 156:4000 157:4125 158:4250 159:4375
  160:4500
`
  .trim()
  .split(/\s+/)
  .map((entry) => entry.split(':').map(Number));

describe('load index', () => {
  test('every published figure, and no others', () => {
    const indexes = Array.from({ length: LAST_LOAD_INDEX - FIRST_LOAD_INDEX + 1 }, (_, i) => FIRST_LOAD_INDEX + i);
    expect(indexes.map((li) => [li, loadIndexCapacity(li)])).toEqual(PUBLISHED);
  });

  // The table is built on the R 80 preferred numbers (ISO 3): eighty steps to a factor of ten.
  test('eighty steps are a factor of ten', () => {
    for (const li of [60, 64, 70, 76, 80]) {
      expect(loadIndexCapacity(li + 80), `${li}`).toBe(10 * (loadIndexCapacity(li) ?? Number.NaN));
    }
  });

  test('each figure lies within 1.75 % of 45·10^(LI/80), and rises', () => {
    for (let li = FIRST_LOAD_INDEX; li <= LAST_LOAD_INDEX; li++) {
      const kg = loadIndexCapacity(li) ?? Number.NaN;
      expect(Math.abs(kg / (45 * 10 ** (li / 80)) - 1), `${li}`).toBeLessThanOrEqual(0.0175);
      if (li > FIRST_LOAD_INDEX) expect(kg, `${li}`).toBeGreaterThan(loadIndexCapacity(li - 1) ?? Number.NaN);
    }
  });
});
