import type { Concept } from '../catalogue/markets.ts';
import { type LimitedLoad, type LimitKey, limitedLoads } from '../rules/limited-loads.ts';
import { sumOf } from '../rules/states.ts';
import { tyreRatingOf } from '../rules/tyre-rating.ts';
import type { AxleGroup, RigModel, UnitModel } from '../semantics/model.ts';
import type { StateResult } from '../semantics/state.ts';
import { type DisplaySystem, formatMass } from '../units/display.ts';
import { axleWords, formatComputed } from './figures.ts';
import { couplingConcept, wordFor } from './markets.ts';
import type { Row } from './tables.ts';

/** What a load is held against. */
export interface Rating {
  /** In the language: `GTM`, `rating`, `tyres`. */
  readonly name: string;
  /** What it is where markets have a word of their own for it. */
  readonly concept?: Concept;
  /** kg */
  readonly value: number;
}

/** A figure of a rig with the ratings that apply to it. */
export interface RatedFigure {
  /** Names of the computed quantities it is the sum of; mostly one. */
  readonly quantities: readonly string[];
  /** Name of the unit; undefined for a figure of the whole rig. */
  readonly unit: string | undefined;
  /** Without the name of the unit, in the language's words. */
  readonly label: string;
  /** What the label speaks of where markets have a word of their own for it. */
  readonly concept?: Concept;
  readonly ratings: readonly Rating[];
}

/** The figures of a rig that plates speak of, from the front, with their ratings. */
export function ratedFigures(rig: RigModel): readonly RatedFigure[] {
  const limited = limitedLoads(rig);
  const figures = [...rig.units.flatMap((unit) => figuresOf(rig, unit, limited))];
  if (rig.units.length > 1) figures.push(figure('rig.mass', undefined, 'all units', limited));
  // What is limited together and is not a line of its own: the trailers that a vehicle tows.
  for (const load of limited) {
    if (load.names.length > 1 && (load.key === 'over-towing' || load.key === 'over-towing-unbraked')) {
      figures.push({ quantities: load.names, unit: undefined, label: load.subject, ratings: [ratingOf(load)] });
    }
  }
  return figures;
}

function figuresOf(rig: RigModel, unit: UnitModel, limited: readonly LimitedLoad[]): readonly RatedFigure[] {
  const row = (name: string, label: string): RatedFigure => figure(`${unit.name}.${name}`, unit.name, label, limited);
  const all = row('axles_total', 'all axles');
  const [only] = unit.kind === 'trailer' && unit.groups.length === 1 ? unit.groups : [];
  const groups = unit.groups.map((group) => {
    const { ratings, ...rest } = row(`${group.name}.load`, axleWords(group));
    // What holds for all axles of a trailer holds for its only group.
    return { ...rest, ratings: [...ratings, ...tyreRating(rig, unit, group), ...(group === only ? all.ratings : [])] };
  });
  const total = only === undefined ? [all] : [];
  if (unit.kind === 'vehicle') return [...groups, ...total];
  return [
    { ...row('coupling.load', 'coupling'), concept: couplingConcept(unit) },
    row('coupling.share', 'coupling share'),
    ...groups,
    ...total,
    row('mass', 'mass'),
  ];
}

/** One computed quantity with the limits on it alone. */
function figure(
  quantity: string,
  unit: string | undefined,
  label: string,
  limited: readonly LimitedLoad[],
): RatedFigure {
  const ratings = limited.filter(({ names }) => names.length === 1 && names[0] === quantity).map(ratingOf);
  return { quantities: [quantity], unit, label, ratings };
}

/** What is on board of a unit beyond its tare, with its limit. */
export function payloadFigure(rig: RigModel, unit: UnitModel): RatedFigure {
  const quantity = `${unit.name}.payload`;
  const limit = limitedLoads(rig).find(({ key, names }) => key === 'over-payload' && names[0] === quantity);
  const quantities = limit?.names ?? [quantity];
  const label = quantities.length > 1 ? 'payload with coupling load' : 'payload';
  return { quantities, unit: unit.name, label, ratings: limit ? [ratingOf(limit)] : [] };
}

/** The limits on one computed quantity of a rig. */
export function ratingsOn(rig: RigModel, quantity: string): readonly Rating[] {
  return figure(quantity, undefined, '', limitedLoads(rig)).ratings;
}

const ratingOf = ({ key, limitName, limit }: LimitedLoad): Rating => ({
  name: limitName.replace(/^(?:its|the) | of \S+$/g, ''),
  ...conceptOf(key),
  value: limit.value,
});

/** What the limits are that markets have words of their own for. */
const CONCEPTS: Readonly<Partial<Record<LimitKey, Concept>>> = {
  'over-axle-rating': 'axle rating',
  'over-group-rating': 'axle rating',
  'over-GVM': 'GVM',
  'over-GCM': 'GCM',
  'over-ATM': 'ATM',
  'over-GTM': 'GTM',
  'over-payload': 'payload',
};

export function conceptOf(key: LimitKey): Pick<Rating, 'concept'> {
  const concept = CONCEPTS[key];
  return concept === undefined ? {} : { concept };
}

/** The label of a figure in the words of the rig's markets. */
export function labelWords({ label, concept }: Pick<RatedFigure, 'label' | 'concept'>, rig: RigModel): string {
  return wordFor({ name: label, ...(concept ? { concept } : {}) }, rig);
}

/** What the tyres of a group carry together where the rig is used. */
export function tyreRating(rig: RigModel, unit: UnitModel, { tyres }: AxleGroup): readonly Rating[] {
  const rating = tyres && tyreRatingOf(rig, unit, tyres);
  if (tyres === undefined || rating === undefined) return [];
  return [{ name: 'tyres', value: tyres.count * rating.capacity }];
}

/** The rating that leaves least room. */
export function tightest(ratings: readonly Rating[]): Rating | undefined {
  return ratings.reduce<Rating | undefined>(
    (least, next) => (least === undefined || next.value < least.value ? next : least),
    undefined,
  );
}

/** `66 kg left`, `**84 kg over**`. */
export function marginWords(margin: number, system: DisplaySystem): string {
  const text = formatMass(Math.abs(margin), system);
  return margin < 0 ? `**${text} over**` : `${text} left`;
}

/** The state in which the sum of some quantities is greatest, with that sum. */
export function greatest(
  states: readonly StateResult[],
  quantities: readonly string[],
): { readonly state: StateResult; readonly value: number } | undefined {
  let best: { readonly state: StateResult; readonly value: number } | undefined;
  for (const state of states) {
    const value = sumOf(state, quantities);
    if (value !== undefined && (best === undefined || value > best.value)) best = { state, value };
  }
  return best;
}

/** Heads of the columns that {@link ratedRow} puts behind the cases. */
export const RATING_HEADS: readonly string[] = ['limit', 'margin'];

/** A table line for a figure in the words of the rig's markets, with its tightest rating and the margin in the worst of the states. */
export function ratedRow(figure: RatedFigure, states: readonly StateResult[], system: DisplaySystem): Row {
  const limit = tightest(figure.ratings);
  const worst = greatest(states, figure.quantities);
  const rig = states[0]?.rig;
  const tail =
    limit === undefined || worst === undefined
      ? []
      : [
          `${formatMass(limit.value, system)} ${rig === undefined ? limit.name : wordFor(limit, rig)}`,
          marginWords(limit.value - worst.value, system),
        ];
  const label = rig === undefined ? figure.label : labelWords(figure, rig);
  return { ...sumRow(figure.quantities, label, system), tail };
}

/** A table line for a computed quantity. */
export function quantityRow(quantity: string, label: string, system: DisplaySystem): Row {
  return sumRow([quantity], label, system);
}

function sumRow(quantities: readonly string[], label: string, system: DisplaySystem): Row {
  const [first = ''] = quantities;
  return {
    label,
    quantities,
    value: (state) => sumOf(state, quantities),
    format: (value, state) => {
      const computed = state.quantities.get(first);
      return computed === undefined ? '' : formatComputed({ ...computed, value }, system);
    },
  };
}
