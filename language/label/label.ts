import type { MarketName } from '../catalogue/markets.ts';
import type { UnitModel } from '../semantics/model.ts';
import { rowsOfAustralasia } from './australia.ts';
import { rowsOfEurope } from './europe.ts';
import type { LabelRow } from './label-row.ts';
import { rowsOfCanada, rowsOfUnitedStates } from './north-america.ts';

export type { LabelRow } from './label-row.ts';

/** What stands over every draft. */
export const LABEL_HEADING = 'DRAFT — not a certification label';

export const LABEL_CAUTION =
  'A draft from what the files say: it certifies nothing. Weigh the finished unit, use the figures that its makers certify, ' +
  'and the form and wording of the text in force; the maker’s plate and local law prevail.';

const ROWS: Readonly<Record<MarketName, (unit: UnitModel, market: MarketName) => readonly LabelRow[]>> = {
  US: rowsOfUnitedStates,
  CA: rowsOfCanada,
  AU: rowsOfAustralasia,
  NZ: rowsOfAustralasia,
  EU: rowsOfEurope,
  UK: rowsOfEurope,
  DE: rowsOfEurope,
};

/**
 * The figures that a plate or label of a unit needs in a market, in its words and in the order of its label. Masses in kg,
 * pressures in Pa. What the file does not say is told by the line that is missing. Pure; never throws.
 */
export function labelOf(unit: UnitModel, market: MarketName): readonly LabelRow[] {
  return ROWS[market](unit, market);
}
