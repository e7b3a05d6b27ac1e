import type { Concept } from '../../language/catalogue/markets.ts';
import { ROUNDING, sumOf } from '../../language/rules/states.ts';
import type { UnitModel } from '../../language/semantics/model.ts';
import type { StateResult } from '../../language/semantics/state.ts';
import { payloadFigure, type RatedFigure, type Rating, ratedFigures } from '../../language/services/ratings.ts';
import { MASS, sameDimension } from '../../language/units/dimension.ts';

/** One line of a load table: a computed load and what it is held against. Pure data in SI. */
export interface LoadRow {
  /** The unit that the row speaks of; undefined for the whole rig. */
  readonly unit?: string;
  /** Stable dotted name of the computed quantity; several joined by ` + ` where their sum is held against a rating. */
  readonly name: string;
  /** What it is, in the words of the trade. */
  readonly label: string;
  /** What the label speaks of where markets have a word of their own for it. */
  readonly concept?: Concept;
  /** kg */
  readonly load: number;
  /** What the load is held against, where something is. */
  readonly rating?: Rating;
  /** Of a coupling load: its share of the trailer's mass. */
  readonly share?: number;
}

/** Room left under the rating, kg; negative when the load is over it. Undefined without a rating. */
export function marginOf({ load, rating }: LoadRow): number | undefined {
  return rating === undefined ? undefined : rating.value - load;
}

/** Whether the load is over its rating by more than rounding. */
export function isOver(row: LoadRow): boolean {
  return (marginOf(row) ?? 0) < -ROUNDING;
}

/** The rows of a state, unit by unit from the front, then the whole rig: one for each rating, or one without. */
export function loadRows(state: StateResult): LoadRow[] {
  return figuresOf(state).flatMap((figure) => rowsOf(state, figure));
}

/** The figures that plates speak of, each unit's payload where it is limited, and the axles of independent groups. */
function figuresOf({ rig }: StateResult): RatedFigure[] {
  const figures = ratedFigures(rig);
  const units = rig.units.flatMap((unit) => [
    ...figures.filter((figure) => figure.unit === unit.name).flatMap((figure) => [figure, ...axlesOf(unit, figure)]),
    ...[payloadFigure(rig, unit)].filter(({ ratings }) => ratings.length > 0),
  ]);
  const whole = figures.filter(({ unit }) => unit === undefined);
  return [
    ...units,
    ...whole.map((figure) => (figure.quantities.length > 1 ? { ...figure, label: 'trailers' } : figure)),
  ];
}

/** The single axles behind the figure of a group whose springs do not equalise them. */
function axlesOf(unit: UnitModel, { quantities }: RatedFigure): RatedFigure[] {
  const group = unit.groups.find(({ name }) => quantities[0] === `${unit.name}.${name}.load`);
  if (group === undefined || group.suspension !== 'independent' || group.axles.length < 2) return [];
  return group.axles.map((_, index) => ({
    quantities: [`${unit.name}.${group.name}.axle${index + 1}.load`],
    unit: unit.name,
    label: `  axle ${index + 1}`,
    ratings: [],
  }));
}

function rowsOf(state: StateResult, { quantities, unit, label, concept, ratings }: RatedFigure): LoadRow[] {
  const load = sumOf(state, quantities);
  if (load === undefined || !quantities.every((name) => isMass(state, name))) return [];
  const name = quantities.join(' + ');
  const share = shareOf(state, name);
  const row = {
    name,
    label,
    load,
    ...(unit === undefined ? {} : { unit }),
    ...(concept === undefined ? {} : { concept }),
    ...(share === undefined ? {} : { share }),
  };
  return ratings.length === 0 ? [row] : ratings.map((rating) => ({ ...row, rating }));
}

/** Shares and ratios have no place in a table of masses; `shareOf` puts them beside the load they belong to. */
function isMass(state: StateResult, name: string): boolean {
  const computed = state.quantities.get(name);
  return computed !== undefined && sameDimension(computed.dimension, MASS);
}

function shareOf(state: StateResult, name: string): number | undefined {
  return name.endsWith('.coupling.load') ? state.quantities.get(name.replace(/\.load$/, '.share'))?.value : undefined;
}

/** The loads that grade and braking change: of couplings, axle groups and axles; each once. */
export function movingRows(state: StateResult): LoadRow[] {
  const rows = new Map(loadRows(state).map((row) => [row.name, row]));
  return [...rows.values()].filter(({ name }) => name.endsWith('.load'));
}
