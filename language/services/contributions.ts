import { influenceAt, type LoadTerm } from '../mechanics/influence.ts';
import type { Position } from '../mechanics/vector.ts';
import type { RigResult, Source, StateResult } from '../semantics/state.ts';
import type { DisplaySystem } from '../units/display.ts';
import { axleWords, formatContribution, formatPerKilogram } from './figures.ts';
import { table } from './markdown.ts';
import { couplingConcept, wordFor } from './markets.ts';
import { caseTable, type Row } from './tables.ts';

/** A load that a support of the rig carries, as readers know it. */
export interface SupportLoad {
  /** Name of the computed quantity. */
  readonly quantity: string;
  readonly label: string;
}

/** What a set of sources contributes to a load. */
export interface Contribution {
  /** kg of the sources. */
  readonly mass: number;
  /** kg of load. */
  readonly load: number;
  /** kg of load per kg of the sources. */
  readonly perKilogram: number;
  /** kg of load per kg of the sources and metre they are moved ahead. */
  readonly aheadPerKilogram: number;
}

export type SourceTest = (source: Source) => boolean;

/** Couplings and axle groups of a rig in the words of its markets, from the front; the names of units are left out where there is only one. */
export function supportLoads(result: RigResult): readonly SupportLoad[] {
  const [state] = result.states;
  if (state === undefined) return [];
  const { units } = result.rig;
  const loads = units.flatMap((unit) => {
    const prefix = units.length > 1 ? `${unit.name} ` : '';
    return [
      {
        quantity: `${unit.name}.coupling.load`,
        label: prefix + wordFor({ name: 'coupling', concept: couplingConcept(unit) }, result.rig),
      },
      ...unit.groups.map((group) => ({
        quantity: `${unit.name}.${group.name}.load`,
        label: `${prefix}${axleWords(group)}`,
      })),
    ];
  });
  return loads.filter(({ quantity }) => state.quantities.has(quantity));
}

/** What the sources that pass the test contribute to a load; undefined where it is no load or none passes. */
function contributionTo(state: StateResult, quantity: string, test: SourceTest): Contribution | undefined {
  const terms = state.load(quantity)?.terms.filter(({ source }) => test(source.id)) ?? [];
  const [first] = terms;
  if (first === undefined) return undefined;
  const mass = sum(terms, ({ source }) => source.mass);
  const load = sum(terms, (term) => term.load);
  const ahead = sum(terms, ({ slope }) => slope.x);
  if (mass > 0) return { mass, load, perKilogram: load / mass, aheadPerKilogram: ahead / mass };
  // Nothing is in it yet: what the first kilogram would do. Influences are linear along the unit.
  const { unit, centre } = first.source;
  const influence = state.quantities.get(quantity)?.influence;
  const aheadPerKilogram = influence
    ? influenceAt(influence, unit, { ...centre, x: centre.x + 1 }) - influenceAt(influence, unit, centre)
    : 0;
  return { mass, load, perKilogram: first.influence, aheadPerKilogram };
}

function sum<T>(values: readonly T[], of: (value: T) => number): number {
  return values.reduce((total, value) => total + of(value), 0);
}

/** Mass (kg) of the sources that pass the test in a state. */
export function massOf(state: StateResult, test: SourceTest): number {
  return sum(
    state.sources.filter(({ id }) => test(id)),
    ({ mass }) => mass,
  );
}

/** The terms of a load that weigh most, whichever way they act. */
export function biggestTerms(state: StateResult, quantity: string, most: number): readonly LoadTerm<Source>[] {
  const terms = state.load(quantity)?.terms ?? [];
  return [...terms]
    .filter(({ load }) => load !== 0)
    .sort((a, b) => Math.abs(b.load) - Math.abs(a.load))
    .slice(0, most);
}

/** Distance (m) that the effect of moving a thing is shown for, and how the columns are headed. */
const SHOWN_MOVES: Readonly<
  Record<DisplaySystem, { readonly distance: number; readonly per: string; readonly move: string }>
> = {
  metric: { distance: 0.1, per: 'per kg', move: '100 mm ahead' },
  US: { distance: 0.1016, per: 'per lb', move: '4 in ahead' },
};

/**
 * What the sources that pass the test contribute to each coupling and axle load: per case, by each kilogram, and how
 * that changes when they are moved ahead. Loads they do not reach are left out; empty where none of them is on board.
 * For a thing whose mass varies `full` is its greatest mass (kg): the move is shown for that, and its contribution too
 * unless a case has it.
 */
export function contributionTable(
  result: RigResult,
  states: readonly StateResult[],
  test: SourceTest,
  system: DisplaySystem,
  rows: readonly Row[] = [],
  full?: number,
): string {
  // Figures per kilogram and per metre hold in every case; a case in which there is something is clearest.
  const first = states.find((state) => massOf(state, test) > 0) ?? states[0];
  if (first === undefined) return '';
  const { distance, per, move } = SHOWN_MOVES[system];
  const showFull = full !== undefined && !states.some((state) => massOf(state, test) >= full * (1 - 1e-9));
  const loads = supportLoads(result).flatMap(({ quantity, label }): Row[] => {
    const contribution = contributionTo(first, quantity, test);
    if (contribution === undefined || isNothing(contribution)) return [];
    const { perKilogram, aheadPerKilogram, mass } = contribution;
    const tail = [
      ...(showFull ? [formatContribution(perKilogram * full, system)] : []),
      formatPerKilogram(perKilogram),
      formatContribution(aheadPerKilogram * distance * (full ?? mass), system),
    ];
    const value = (state: StateResult): number => contributionTo(state, quantity, test)?.load ?? 0;
    return [{ label, value, format: (load) => formatContribution(load, system), tail }];
  });
  if (loads.length === 0) return '';
  const heads = [...(showFull ? ['when full'] : []), per, full === undefined ? move : `full, ${move}`];
  return `${caseTable(states, [...rows, ...loads], heads)}\n\nMoved back, not ahead, the last column turns its sign.`;
}

/** Influences smaller than this are rounding. */
const NO_INFLUENCE = 1e-9;

function isNothing({ perKilogram, aheadPerKilogram }: Contribution): boolean {
  return Math.abs(perKilogram) < NO_INFLUENCE && Math.abs(aheadPerKilogram) < NO_INFLUENCE;
}

/** A table of what a mass (kg) put at a place of a unit would add to each coupling and axle load. */
export function effectTable(
  result: RigResult,
  unit: number,
  centre: Position,
  mass: number,
  head: string,
  system: DisplaySystem,
): string {
  const [state] = result.states;
  const rows = supportLoads(result).flatMap(({ quantity, label }) => {
    const influence = state?.quantities.get(quantity)?.influence;
    const perKilogram = influence && influenceAt(influence, unit, centre);
    if (perKilogram === undefined || Math.abs(perKilogram) < NO_INFLUENCE) return [];
    return [[label, formatContribution(mass * perKilogram, system)]];
  });
  return table(
    [
      { head: ' ', align: 'left' },
      { head, align: 'right' },
    ],
    rows,
  );
}
