import type { CaseModel, RigModel, Stowed, Tank, UnitModel } from '../model.ts';
import { levelOf, stowedIn } from '../sources.ts';
import type { RigResult } from '../state.ts';
import { freeItem } from './free-item.ts';
import { type FreeSource, freePart, freeSeat, freeTank, shareOf } from './free-source.ts';
import { reachableLevels } from './reachable-levels.ts';

/** States of a rig that are looked at together: those of one case, or all that are reachable. */
export interface Reach {
  readonly result: RigResult;
  /** The case whose ranges and tolerances it is; absent for everything reachable. */
  readonly case?: CaseModel;
  /** Whether levels, seats or items can be other than in a single state. */
  readonly varies: boolean;
  /** Whether anything has a tolerance in it. */
  readonly hasTolerances: boolean;
  /** All masses with what the levels, seats and items can be; tolerances apart. */
  readonly free: readonly FreeSource[];
  /** The same with tolerances of masses and places; the same array where none is stated. */
  readonly toleranced: readonly FreeSource[];
  /** The same with that share of each tolerance. */
  readonly withTolerances: (share: number) => readonly FreeSource[];
}

/** The cases of a rig as its states have them: the implied one where the file has none. */
export function casesOf({ states }: RigResult): readonly CaseModel[] {
  return [...new Set(states.map((state) => state.case))];
}

/** One case with the ranges of levels that it states. */
export function reachOfCase(result: RigResult, state: CaseModel): Reach {
  return reachIn(result, state, (unit, tank) => levelOf(unit, tank, state));
}

/** One case in the single state that its name stands for: each level that it gives a range in the middle of that. */
export function reachOfNamedState(result: RigResult, state: CaseModel): Reach {
  return reachIn(result, state, (unit, tank) => {
    const { value } = levelOf(unit, tank, state);
    return { least: value, most: value };
  });
}

function reachIn(result: RigResult, state: CaseModel, levels: Scope['levels']): Reach {
  const { rig } = result;
  return reach(result, {
    case: state,
    levels,
    taken: (seat) => new Set([isTakenIn(rig, seat, state)]),
    arrangements: () => [],
    cases: [state],
  });
}

/**
 * Everything reachable: each tank anywhere in the range that the author states for it, or else from empty to full; seats and
 * items as the cases have them, in any combination of those in which the cases differ or which the author calls optional.
 * It holds every named case, unless the author leaves one out.
 */
export function wholeReach(result: RigResult): Reach {
  const { rig } = result;
  const cases = casesOf(result);
  return reach(result, {
    levels: (unit, tank) => reachableLevels(rig, unit, tank, cases),
    taken: (seat) => {
      const taken = new Set(cases.map((state) => isTakenIn(rig, seat, state)));
      return rig.reachable?.seats.has(seat) ? new Set([...taken, true, false]) : taken;
    },
    arrangements: (item) => (rig.reachable?.items.has(item) ? [[], ...asTheRigStows(rig, item, cases)] : []),
    cases,
  });
}

interface Scope {
  readonly case?: CaseModel;
  readonly levels: (unit: UnitModel, tank: Tank) => { readonly least: number; readonly most: number };
  /** What a seat (`Unit.seat`) can be. */
  readonly taken: (seat: string) => ReadonlySet<boolean>;
  /** Arrangements of an item beside those of the cases. */
  readonly arrangements: (item: string) => readonly (readonly Stowed[])[];
  readonly cases: readonly CaseModel[];
}

function reach(result: RigResult, scope: Scope): Reach {
  let free: readonly FreeSource[] | undefined;
  let toleranced: readonly FreeSource[] | undefined;
  const hasTolerance = hasTolerances(result.rig, scope.cases);
  return {
    result,
    ...(scope.case ? { case: scope.case } : {}),
    varies: scope.case === undefined || hasRanges(result.rig, scope),
    hasTolerances: hasTolerance,
    get free() {
      free ??= freeSources(result.rig, scope, 0);
      return free;
    },
    get toleranced() {
      toleranced ??= hasTolerance ? freeSources(result.rig, scope, 1) : this.free;
      return toleranced;
    },
    withTolerances: (share) => freeSources(result.rig, scope, share),
  };
}

function freeSources(rig: RigModel, scope: Scope, toleranced: number): FreeSource[] {
  const ofUnits = rig.units.flatMap((unit, index) => [
    ...unit.parts.map((part) => freePart(unit, index, part, toleranced)),
    ...unit.tanks.map((tank) => freeTank(unit, index, tank, scope.levels(unit, tank), toleranced)),
    ...unit.seats.flatMap((seat) => {
      const name = `${unit.name}.${seat.name}`;
      const taken = scope.taken(name);
      return taken.has(true)
        ? [freeSeat(unit, index, seat, taken, (state) => isTakenIn(rig, name, state), toleranced)]
        : [];
    }),
  ]);
  return [...ofUnits, ...freeItems(rig, scope, toleranced)];
}

/** Stowed items by name, each with the arrangements of its pieces that there are. */
function freeItems(rig: RigModel, { cases, arrangements }: Scope, toleranced: number): FreeSource[] {
  const byCase = cases.map((state) => itemsByName(stowedIn(rig, state)));
  const names = new Set([
    ...byCase.flatMap((stowed) => [...stowed.keys()]),
    ...rig.stowed.map(({ item }) => item.name),
  ]);
  const indexOf = new Map(cases.map((state, index) => [state, index]));
  return [...names].flatMap((name) => {
    const inCase = (state: CaseModel) => byCase[indexOf.get(state) ?? -1]?.get(name) ?? [];
    const different = new Map<string, readonly Stowed[]>();
    for (const stowed of [...cases.map(inCase), ...arrangements(name)]) {
      different.set(arrangementKey(stowed, toleranced), stowed);
    }
    const [first] = [...different.values()].flat();
    return first === undefined ? [] : [freeItem(rig.units, [...different.values()], inCase, first, toleranced)];
  });
}

function itemsByName(stowed: readonly Stowed[]): ReadonlyMap<string, readonly Stowed[]> {
  const byName = new Map<string, Stowed[]>();
  for (const each of stowed) byName.set(each.item.name, [...(byName.get(each.item.name) ?? []), each]);
  return byName;
}

/** Where an optional item lies that every case leaves behind: as the rig's own lines stow it. */
function asTheRigStows(rig: RigModel, name: string, cases: readonly CaseModel[]): readonly (readonly Stowed[])[] {
  const isOf = ({ item }: Stowed) => item.name === name;
  const own = rig.stowed.filter(isOf);
  return own.length === 0 || cases.some((state) => stowedIn(rig, state).some(isOf)) ? [] : [own];
}

/**
 * Equal for arrangements that have the same pieces at the same places, as uncertain as that share of their tolerances makes
 * them.
 */
function arrangementKey(stowed: readonly Stowed[], toleranced: number): string {
  return stowed
    .map(({ count, unit, centre, placeTolerance }) => {
      const around = shareOf(placeTolerance, toleranced);
      return [count, unit, centre.x, centre.y, centre.z, around.x, around.y, around.z].join(' ');
    })
    .join(', ');
}

function isTakenIn(rig: RigModel, seat: string, state: CaseModel): boolean {
  return (state.occupants ?? rig.occupants).includes(seat);
}

function hasRanges({ units }: RigModel, { levels }: Scope): boolean {
  return units.some((unit) =>
    unit.tanks.some((tank) => {
      const { least, most } = levels(unit, tank);
      return least < most;
    }),
  );
}

function hasTolerances({ units, stowed }: RigModel, cases: readonly CaseModel[]): boolean {
  const items = [...stowed, ...cases.flatMap((state) => state.stowed)];
  const ofUnits = units.flatMap(({ parts, tanks, seats }) => [...parts, ...tanks, ...seats]);
  const masses = [...ofUnits, ...items.map(({ item }) => item)];
  return (
    [...ofUnits, ...items].some(({ placeTolerance }) => placeTolerance !== undefined) ||
    masses.some(({ tolerance }) => (tolerance ?? 0) > 0)
  );
}
