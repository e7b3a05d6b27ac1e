import { type Reaches, reachesOf } from '../../language/rules/reach/check-reach.ts';
import { type ReachMargin, reachMargins } from '../../language/rules/reach/margins.ts';
import { derivedFigures, figureOf } from '../../language/semantics/envelope/figures.ts';
import { rangeOf } from '../../language/semantics/envelope/ranges.ts';
import type { Reach } from '../../language/semantics/envelope/reach.ts';
import { type ToldRange, tellRange } from '../../language/semantics/envelope/told-range.ts';
import { type QuantityTolerance, tolerancesIn } from '../../language/semantics/envelope/tolerances.ts';
import type { Witness } from '../../language/semantics/envelope/witness.ts';
import { stowedIn } from '../../language/semantics/sources.ts';
import type { MotionLoads, RigResult, StateResult } from '../../language/semantics/state.ts';
import type { FoundRig } from './rigs.ts';

/** A rig with between what its quantities lie. */
export interface FoundEnvelope {
  readonly found: FoundRig;
  /** Everything reachable, then the cases that state ranges; or the cases asked for. None where there are no loads. */
  readonly reaches: readonly FoundReach[];
  /** Of each case in which something with a tolerance is on board. */
  readonly tolerances: readonly FoundTolerances[];
}

/** What the quantities of a rig are in one case, or in everything reachable. */
export interface FoundReach {
  readonly reach: Reach;
  /** The named states that it is told by. */
  readonly bases: readonly StateResult[];
  readonly ranges: readonly ToldRange[];
  /** Names of ratios that have no bounds: the load that divides can be nothing. */
  readonly unbounded: readonly string[];
  readonly margins: readonly ReachMargin[];
  /** The states that take the ends and are nearest to the limits, each once. */
  readonly states: readonly Witness[];
  /** Index of such a state. */
  readonly indexOf: (witness: Witness) => number;
}

export interface FoundTolerances {
  readonly state: StateResult;
  /** Of the quantities that a tolerance changes at all. */
  readonly quantities: readonly QuantityTolerance[];
  /** Names of ratios that have no bounds within the tolerances: the load that divides can be nothing. */
  readonly unbounded: readonly string[];
}

/** The envelope of a rig: in the cases so called, or where none is named in everything. */
export function findEnvelope(found: FoundRig, cases: readonly string[]): FoundEnvelope {
  const reaches = reachesOf(found.result);
  if (reaches === undefined) return { found, reaches: [], tolerances: [] };
  const named = reaches.cases.filter(({ state }) => cases.length === 0 || cases.includes(state.case.name));
  const whole = cases.length === 0 ? [{ reach: reaches.whole, bases: reaches.bases }] : [];
  const own = named
    .filter(({ reach }) => cases.length > 0 || reach.varies)
    .map(({ reach, state }) => ({ reach, bases: [state] }));
  return {
    found,
    reaches: [...whole, ...own].map(({ reach, bases }) => findReach(found.result, reaches, reach, bases)),
    tolerances: named.flatMap(({ state }) => findTolerances(found.result, state, reaches.loads) ?? []),
  };
}

function namesOf({ rig }: RigResult, loads: MotionLoads): readonly string[] {
  return [...loads.influences.keys(), ...derivedFigures(rig)].filter(
    (name) => figureOf(rig, loads, name) !== undefined,
  );
}

function findReach(result: RigResult, reaches: Reaches, reach: Reach, bases: readonly StateResult[]): FoundReach {
  const { loads } = reaches;
  const names = namesOf(result, loads);
  const ranges = names.flatMap((name) => {
    const range = rangeOf(reach, loads, name);
    return range === undefined ? [] : [tellRange(reach, range, bases, loads)];
  });
  const bounded = new Set(ranges.map(({ range }) => range.name));
  const margins = reachMargins(result, reaches, reach);
  const states = new Map<string, { readonly witness: Witness; readonly index: number }>();
  // Ends of ranges are told by the case that they differ least from.
  const told = [...ranges.flatMap(({ least, most }) => [least, most]), ...margins.map(({ worst }) => worst.witness)];
  for (const witness of told) {
    const key = witness && keyOf(witness);
    if (witness === undefined || key === undefined || states.has(key)) continue;
    states.set(key, { witness, index: states.size });
  }
  return {
    reach,
    bases,
    ranges,
    unbounded: names.filter((name) => !bounded.has(name)),
    margins,
    states: [...states.values()].map(({ witness }) => witness),
    indexOf: (witness) => states.get(keyOf(witness))?.index ?? -1,
  };
}

/** Equal for equal states, whichever case they are told by. */
function keyOf({ state: { rig, case: own } }: Witness): string {
  const levels = [...own.levels].map(([name, { value }]) => [name, value.toFixed(9)]);
  const stowed = stowedIn(rig, own).map(({ item, count, unit, centre }) => [item.name, count, unit, centre]);
  const all = [levels, own.occupants ?? rig.occupants, stowed];
  return all.map((part) => part.map((each) => JSON.stringify(each)).sort()).join(' ');
}

function findTolerances(result: RigResult, state: StateResult, loads: MotionLoads): FoundTolerances | undefined {
  const tolerances = tolerancesIn(result, state.case, loads);
  if (tolerances === undefined) return undefined;
  const found = namesOf(result, loads).map((name) => ({ name, tolerance: tolerances.of(name) }));
  return {
    state,
    quantities: found.flatMap(({ tolerance }) =>
      tolerance !== undefined && tolerance.effects.length > 0 ? [tolerance] : [],
    ),
    unbounded: found.flatMap(({ name, tolerance }) => (tolerance === undefined ? [name] : [])),
  };
}
