import { casesOf } from '../../semantics/envelope/reach.ts';
import { type ReachableLevels, reachableLevels } from '../../semantics/envelope/reachable-levels.ts';
import type { CaseModel, RigModel, Tank, UnitModel } from '../../semantics/model.ts';
import { stowedIn } from '../../semantics/sources.ts';
import type { RigResult } from '../../semantics/state.ts';
import { formatShare } from '../../units/display.ts';
import { enumerate, list, paragraphs, plain } from '../markdown.ts';

/** `0 % to 55 %`; the level alone where it cannot change. */
function levels({ least, most }: { readonly least: number; readonly most: number }): string {
  return least === most ? formatShare(least) : `${formatShare(least)} to ${formatShare(most)}`;
}

/** Who says what levels a tank can have. */
const ORIGINS: Readonly<Record<ReachableLevels['from'], string>> = {
  reachable: 'as the `reachable` block says',
  tank: 'as the line of the tank says',
  nobody: 'from empty to full, as nothing is said of it',
  cases: 'as the cases have it, since its line in the `reachable` block has an error',
};

/** `0 % to 55 %, as the reachable block says`. */
function originWords(found: ReachableLevels, tank: Tank): string {
  const { from, widenedBy } = found;
  const { maximumFill } = tank.fluid;
  const most =
    from === 'nobody' && maximumFill !== undefined
      ? ` (${plain(tank.fluid.name)} at most ${formatShare(maximumFill)})`
      : '';
  const wider = widenedBy === undefined ? '' : `, and as case ${plain(widenedBy.name)} has it`;
  return `${ORIGINS[from]}${most}${wider}`;
}

/** A sentence on the levels that a tank can have in a rig; undefined where the rig has no loads. */
export function reachableLevelWords(result: RigResult, unit: UnitModel, tank: Tank): string | undefined {
  if (result.states.length === 0) return undefined;
  const found = reachableLevels(result.rig, unit, tank, casesOf(result));
  // A rig that hauls the unit can say otherwise.
  const of = result.rig.standalone ? `Reachable of ${plain(unit.name)} alone` : 'Reachable';
  return `${of}: ${levels(found)}, ${originWords(found, tank)}.`;
}

/** What a `reachable` block comes to: the levels of every tank, and who and what may be left behind, each with who says so. */
export function reachableHover(result: RigResult): string | undefined {
  if (result.states.length === 0) return undefined;
  return paragraphs(`**Reachable states** of ${plain(result.rig.name)}`, tankList(result), optionalHover(result));
}

/** Tanks that have the same levels for the same reason share a line. */
function tankList(result: RigResult): string {
  const cases = casesOf(result);
  const byRange = new Map<string, string[]>();
  for (const unit of result.rig.units) {
    for (const tank of unit.tanks) {
      const found = reachableLevels(result.rig, unit, tank, cases);
      const range = `${levels(found)}, ${originWords(found, tank)}`;
      byRange.set(range, [...(byRange.get(range) ?? []), `${unit.name}.${tank.name}`]);
    }
  }
  return list([...byRange].map(([range, tanks]) => `${plain(enumerate(tanks))}: ${range}`));
}

/** Seats and items that are not the same in all reachable states, and why. */
export function optionalHover(result: RigResult): string {
  const { rig } = result;
  const cases = casesOf(result);
  const seats = rig.units.flatMap((unit) => unit.seats.map(({ name }) => `${unit.name}.${name}`));
  const isTaken = (seat: string) => (state: CaseModel) => (state.occupants ?? rig.occupants).includes(seat);
  const lines = [
    ...seats.flatMap((seat) => whyOptional(seat, rig.reachable?.seats.has(seat), cases, isTaken(seat)) ?? []),
    ...itemsOf(rig, cases).flatMap((item) => {
      const isAboard = (state: CaseModel) => stowedIn(rig, state).some((stowed) => stowed.item.name === item);
      return whyOptional(item, rig.reachable?.items.has(item), cases, isAboard) ?? [];
    }),
  ];
  if (lines.length === 0) return 'Seats and items are the same in all of them.';
  return `Taken or left behind, in any combination:\n${list(lines)}`;
}

function itemsOf({ stowed }: RigModel, cases: readonly CaseModel[]): readonly string[] {
  return [...new Set([...stowed, ...cases.flatMap((state) => state.stowed)].map(({ item }) => item.name))];
}

/** `awning: as the block says`, `Truck.passenger: aboard in case out, not in case back`; undefined where it is always the same. */
function whyOptional(
  name: string,
  isStated: boolean | undefined,
  cases: readonly CaseModel[],
  isAboard: (state: CaseModel) => boolean,
): string | undefined {
  const aboard = cases.find(isAboard);
  const left = cases.find((state) => !isAboard(state));
  const differs = aboard !== undefined && left !== undefined;
  if (!isStated && !differs) return undefined;
  const reasons = [
    ...(isStated ? ['as the `reachable` block says'] : []),
    ...(differs ? [`aboard in case ${plain(aboard.name)}, not in case ${plain(left.name)}`] : []),
    ...(isStated && aboard === undefined ? ['in no case aboard'] : []),
  ];
  return `${plain(name)}: ${reasons.join('; ')}`;
}
