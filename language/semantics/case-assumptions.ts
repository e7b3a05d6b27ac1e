import type { CaseModel, Stowed, UnitModel } from './model.ts';
import { assume, type Line, locate, type Scope } from './scope.ts';

/** Lists what the cases leave open: levels that nobody states, ranges shown at their middle, items in mid-locker. */
export function assumeAboutCases(
  scope: Scope,
  header: Line,
  units: readonly UnitModel[],
  stowed: readonly Stowed[],
  cases: readonly CaseModel[],
): void {
  const at = locate(header, header.statement.name ?? header.statement.head);
  const tanks = units.flatMap((unit) =>
    unit.tanks.map((tank) => ({ name: `${unit.name}.${tank.name}`, stated: tank.level !== undefined })),
  );
  const open = tanks.filter(({ stated }) => !stated).map(({ name }) => name);
  if (cases.length === 0) {
    if (open.length > 0)
      assume(scope, `no case states the levels of ${open.join(', ')}: full taken`, 'rule of the language', at);
  }
  for (const state of cases) {
    const left = open.filter((name) => !state.levels.has(name) && !state.levelsInError?.has(name));
    if (left.length > 0)
      assume(
        scope,
        `level of ${left.join(', ')} not stated in case ${state.name}: full taken`,
        'rule of the language',
        state.location,
      );
    const ranges = [...state.levels].filter(([, { least, most }]) => least < most);
    if (ranges.length > 0) {
      const list = ranges.map(([name, { value }]) => `${name} at ${Math.round(value * 1000) / 10} %`).join(', ');
      assume(
        scope,
        `case ${state.name} states ranges: loads are shown at their middle, ${list}`,
        'rule of the language',
        state.location,
      );
    }
  }
  if (stowed.some(({ locker }) => locker !== undefined)) {
    assume(
      scope,
      'items lie in the middle of their locker, on its floor, where their line states no place',
      'rule of the language',
      at,
      true,
    );
  }
}
