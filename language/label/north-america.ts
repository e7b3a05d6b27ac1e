import type { MarketName } from '../catalogue/markets.ts';
import { CANADA } from '../diagnostics/markets/canada.ts';
import { UNITED_STATES } from '../diagnostics/markets/united-states.ts';
import { grossToWrite, typeToWrite } from '../rules/limits/to-write.ts';
import { mostUnlabelled } from '../rules/markets/added-weight.ts';
import {
  addedWeight,
  cargoCapacity,
  grossRating,
  isRecreational,
  OCCUPANT,
  unloadedWeight,
} from '../rules/markets/certified-weights.ts';
import { fullFreshWater } from '../rules/markets/gross-rating-for-water.ts';
import { leastGrossRating } from '../rules/markets/gross-rating-sum.ts';
import type { UnitModel } from '../semantics/model.ts';
import {
  axleRows,
  type Figure,
  type LabelRow,
  type LabelSource,
  massRow,
  PLATE,
  stated,
  textRow,
  weighed,
} from './label-row.ts';

const CERTIFICATION: LabelSource = {
  source: '49 CFR 567.4 (from memory): GVWR and GAWR as the maker certifies them, stated in the file',
  authority: 'plate',
};
const TYRE_PLACARD: LabelSource = {
  source: '49 CFR 571.110 S4.3 (from memory): tyres and pressures as stated in the file',
  authority: 'regulation',
};
const UNLOADED: LabelSource = { source: '49 CFR 571.3(b), 571.110 S4.3.5', authority: 'regulation' };
const CAPACITY = sourceOf(UNITED_STATES['cargo-capacity-overstated']);
const RELABEL = sourceOf(UNITED_STATES['added-weight-unlabelled']);
const CANADIAN = sourceOf(CANADA['GVWR-below-water-and-cargo']);

function sourceOf({ source, authority }: { readonly source?: string; readonly authority?: LabelSource['authority'] }) {
  return { source: source ?? PLATE.source, authority: authority ?? PLATE.authority } satisfies LabelSource;
}

/** Label rows of the United States. */
export function rowsOfUnitedStates(unit: UnitModel): readonly LabelRow[] {
  const gross = grossRating(unit);
  return [
    ...certified(unit, 'US'),
    massRow('unloaded vehicle weight, with full propane', unloaded(unit), UNLOADED),
    ...cargoRows(unit),
    ...(isRecreational(unit)
      ? [
          massRow(
            'weight that may be added before the first sale without a corrected label',
            gross === undefined ? { missing: grossToWrite(unit) } : mostUnlabelled(gross.value),
            RELABEL,
          ),
        ]
      : []),
  ];
}

/** Label rows of Canada: the gross rating covers the occupants and full fresh and hot water as well. */
export function rowsOfCanada(unit: UnitModel): readonly LabelRow[] {
  return [
    ...certified(unit, 'CA'),
    massRow('unloaded vehicle weight, with full propane', unloaded(unit), CANADIAN),
    massRow('fresh and hot water, full', fullFreshWater(unit), CANADIAN),
    massRow(
      'cargo carrying capacity, beside occupants and full water',
      withGross(unit, (gross) =>
        cargoCapacity(
          gross,
          leastGrossRating({
            unloaded: unloadedWeight(unit),
            cargo: 0,
            seats: unit.seats.length,
            water: fullFreshWater(unit),
          }),
          added(unit),
        ),
      ),
      CANADIAN,
    ),
  ];
}

function certified(unit: UnitModel, market: MarketName): LabelRow[] {
  const type = unit.vehicleType?.replaceAll('_', ' ');
  return [
    textRow('type of vehicle', type, typeToWrite(unit), CERTIFICATION),
    massRow('GVWR (gross vehicle weight rating)', stated(grossRating(unit), grossToWrite(unit)), CERTIFICATION),
    ...axleRows(unit, { market, term: 'GAWR', rating: CERTIFICATION, tyres: TYRE_PLACARD }),
  ];
}

/** A recreation vehicle trailer or motor home has its capacity on a label of its own; of others the occupants count too. */
function cargoRows(unit: UnitModel): LabelRow[] {
  const { kind, vehicleType, seats } = unit;
  const term = kind === 'vehicle' ? 'occupant and cargo carrying capacity (OCCC)' : 'cargo carrying capacity (CCC)';
  const capacity = withGross(unit, (gross) => cargoCapacity(gross, unloadedWeight(unit), added(unit)));
  if (vehicleType === undefined) return [massRow(term, { missing: typeToWrite(unit) }, CAPACITY)];
  if (isRecreational(unit)) return [massRow(term, capacity, CAPACITY)];
  const occupants =
    kind === 'vehicle'
      ? [massRow(`occupants, ${seats.length} of ${OCCUPANT} kg`, OCCUPANT * seats.length, UNLOADED)]
      : [];
  return [massRow('occupants and cargo, at most', capacity, UNLOADED), ...occupants];
}

/** kg that the unit weighs more than its label says and that come off its capacity. */
const added = (unit: UnitModel): number => Math.max(0, addedWeight(unit) ?? 0);

const unloaded = (unit: UnitModel): Figure =>
  unit.limits.UVW === undefined ? weighed(unit, () => unloadedWeight(unit)) : unloadedWeight(unit);

function withGross(unit: UnitModel, capacity: (gross: number) => number): Figure {
  const gross = grossRating(unit);
  if (gross === undefined) return { missing: grossToWrite(unit) };
  const weight = unloaded(unit);
  return typeof weight === 'number' ? capacity(gross.value) : weight;
}
