import type { MarketName } from '../catalogue/markets.ts';
import { AUSTRALIA } from '../diagnostics/markets/australia.ts';
import { limitToWrite } from '../rules/limits/to-write.ts';
import type { UnitModel } from '../semantics/model.ts';
import { tareOf } from '../semantics/running-order.ts';
import {
  axleRows,
  type Figure,
  type LabelRow,
  type LabelSource,
  massRow,
  PLATE,
  stated,
  weighed,
} from './label-row.ts';

const { source = PLATE.source } = AUSTRALIA['coupling-below-plates'];
const DIFFERENCE: LabelSource = { source, authority: 'regulation' };
const TARE: LabelSource = {
  source: 'mass of the empty unit as stated or rolled up in the file',
  authority: 'common practice',
};

/** Plate rows of Australia and New Zealand. */
export function rowsOfAustralasia(unit: UnitModel, market: MarketName): readonly LabelRow[] {
  const { limits, kind } = unit;
  const axles = axleRows(unit, { market, term: 'axle load rating', rating: PLATE, tyres: PLATE });
  const tare = massRow(
    'tare',
    weighed(unit, () => tareOf(unit)),
    TARE,
  );
  if (kind === 'vehicle') {
    return [
      massRow('GVM (gross vehicle mass)', stated(limits.GVM, limitToWrite(unit, 'GVM')), PLATE),
      massRow('GCM (gross combination mass)', stated(limits.GCM, limitToWrite(unit, 'GCM')), PLATE),
      ...axles,
      tare,
    ];
  }
  return [
    massRow('ATM (aggregate trailer mass)', stated(limits.ATM, limitToWrite(unit, 'ATM')), PLATE),
    massRow('GTM (gross trailer mass)', stated(limits.GTM, limitToWrite(unit, 'GTM')), PLATE),
    ...axles,
    tare,
    massRow('coupling load at ATM and GTM', couplingLoad(unit), DIFFERENCE),
    massRow('coupling limit', stated(limits.coupling ?? unit.coupling?.rating, limitToWrite(unit, 'coupling')), PLATE),
  ];
}

/** kg that a trailer at its ATM puts on its coupling with its axles at the GTM. */
export function couplingLoad(unit: UnitModel): Figure {
  const { ATM, GTM } = unit.limits;
  if (ATM === undefined) return { missing: limitToWrite(unit, 'ATM') };
  if (GTM === undefined) return { missing: limitToWrite(unit, 'GTM') };
  return ATM.value - GTM.value;
}
