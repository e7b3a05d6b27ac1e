import { describe, expect, test } from 'vitest';
import { hover } from '../../../language/services/index.ts';
import { analyseMarked, URI } from './markers.ts';

function hoverOn(source: string): string {
  const { analysis, offset } = analyseMarked(source);
  return (hover(analysis, URI, offset)?.markdown ?? '').replaceAll('\u202f', ' ');
}

/** 270 + 50·bow + 120·stern kg on the axle: lever rule about the ball, 3000 mm to the axle. */
const cart = (rating: string, reachable = '', rules = '') => `vehicle Truck {
  wheelbase 3000 mm, track 1600 mm
  tare 1200 kg on front, 800 kg on rear, 600 mm up
  hitch ball at 1000 mm behind rear, 440 mm up
}
trailer Cart {
  coupling ball 50 mm, 440 mm up
  axles single at 3000 mm back, track 1500 mm${rating}
  tare 300 kg at 2700 mm back, 500 mm up
  tank bow 100 L of water at 1500 mm back, 500 mm up
  tank stern 100 L of water at 3600 mm back, 500 mm up
}
rig Errand { tow Truck
  haul Cart ${rules}
  case out { bow 100 %  ste|rn 0 % }
  ${reachable}
}
`;

describe('the hover of a tank in a rig', () => {
  // 270 + 50 + 120·stern ≤ 345 with bow full.
  test('tells the levels at which every limit holds whatever else is on board', () => {
    const text = hoverOn(cart(', rating 345 kg'));
    expect(text).toContain('stern can be at 0 % to 20 % (20 L, 20 kg): every limit holds, whatever else is on board.');
    expect(text).toContain('On level ground; limits that are no loads are not looked at.');
  });

  // With bow at 40 % at most, 270 + 20 + 120·stern ≤ 345.
  test('heeds what is reachable, also in that block', () => {
    const source = cart(', rating 345 kg', 'reachable { bow 0 % to 40 %  stern 0 % to 90 % }');
    expect(hoverOn(source)).toContain('stern can be at 0 % to 45 % (45 L, 45 kg): every limit holds');
    const inBlock = source.replace('ste|rn', 'stern').replace('stern 0 % to 90 %', 'ste|rn 0 % to 90 %');
    expect(hoverOn(inBlock)).toContain('stern can be at 0 % to 45 % (45 L, 45 kg): every limit holds');
  });

  // All of it reachable: 270 + 20 + 96 ≤ 600. A tolerance of 10 kg on 300 kg at 2700 mm puts 9 kg on the axle.
  test('says that only reachable levels were looked at, and counts tolerances', () => {
    const reached = hoverOn(cart(', rating 600 kg', 'reachable { stern 0 % to 80 % }'));
    expect(reached).toContain('stern can be at any reachable level, 0 % to 80 % (80 L, 80 kg): every limit holds');
    const source = cart(', rating 345 kg').replace('2700 mm back, 500 mm up', '$&, tolerance 10 kg');
    expect(hoverOn(source)).toContain('stern can be at 0 % to 13 % (13 L, 13 kg): every limit holds');
    expect(hoverOn(source)).toContain('On level ground, stated tolerances at their worst;');
  });

  test('says that any level will do, and which limit fails at all of them', () => {
    expect(hoverOn(cart(', rating 600 kg'))).toContain(
      'stern can be at any level, 0 % to 100 % (100 L, 100 kg): every limit holds, whatever else is on board.',
    );
    expect(hoverOn(cart(', rating 300 kg'))).toContain(
      'At no level of stern does every limit hold, whatever else is on board: RW501 Axle of Cart, the load: at most 300 kg (its rating); even when stern is empty it can be 20 kg over.',
    );
  });

  test('says nothing without limits, where they are turned off, or of a unit alone', () => {
    expect(hoverOn(cart(''))).not.toContain('every limit');
    expect(hoverOn(cart(', rating 300 kg', '', '\n  rule RW501 off "bench test"'))).not.toContain('every limit');
    const alone = cart(', rating 345 kg').replace('ste|rn', 'stern').replace('tank stern', 'tank ste|rn');
    expect(hoverOn(alone)).toContain('tank of Cart');
    expect(hoverOn(alone)).not.toContain('every limit');
  });
});
