import type { Assumption, RigModel } from '../../language/semantics/model.ts';
import type { RigResult, StateResult } from '../../language/semantics/state.ts';
import { placeText } from './check.ts';
import { renderLoadTable, renderMotionTable, type TableOptions } from './load-table.ts';
import type { FoundRig } from './rigs.ts';
import type { Paint } from './terminal.ts';
import { oneLine, wrap } from './text.ts';
import { type AskedUnits, inUnitsOf } from './units.ts';

export const CAUTION =
  'Verify every load on a weighbridge before driving. Compliance plates, the ratings of the makers of vehicle, ' +
  'trailer, coupling and tyres, and local law prevail over these figures.';

export interface LoadsOptions extends TableOptions {
  /** Columns that running text is wrapped at. */
  readonly width: number;
  /** Names of the cases shown; all when empty. */
  readonly cases: readonly string[];
}

/** The load tables of rigs, case by case, each rig with its assumptions. */
export function renderRigs(rigs: readonly FoundRig[], options: Omit<LoadsOptions, 'units'> & AskedUnits): string[] {
  return rigs.flatMap((rig, index) => [
    ...(index > 0 ? [''] : []),
    ...renderRig(rig, inUnitsOf(rig.result.rig, options)),
  ]);
}

function renderRig(found: FoundRig, options: LoadsOptions): string[] {
  const { rig } = found.result;
  const lines = [rigHeading(found, options.paint), ...unitLines(rig, options)];
  const cases = casesOf(found.result, options.cases);
  if (cases.length === 0) lines.push('', '  No loads: `rigwright check` says what is missing.');
  for (const states of cases) lines.push('', ...renderCase(states, options));
  return [...lines, ...assumptionLines(found.result.assumptions, options)];
}

export function rigHeading({ result: { rig }, kind, document, start }: FoundRig, paint: Paint): string {
  const title = rig.title === undefined ? '' : ` "${oneLine(rig.title)}"`;
  return `${paint('heading', `${kind} ${oneLine(rig.name)}`)}${title}  ${paint('dim', placeText(document, start))}`;
}

/** The units with their titles, where those say more than the names do. */
function unitLines({ units, standalone }: RigModel, { width }: LoadsOptions): string[] {
  const titled = units.filter(({ title }) => title !== undefined);
  if (standalone || titled.length === 0) return [];
  const text = titled.map(({ name, title }) => `${name}: ${title}`).join('; ');
  return wrap(oneLine(text), width, '  ', '  ');
}

/** The states of a rig by case, the level one first. */
export function casesOf(result: RigResult, names: readonly string[]): StateResult[][] {
  const cases = new Map<string, StateResult[]>();
  for (const state of result.states) {
    const { name } = state.case;
    if (names.length > 0 && !names.includes(name)) continue;
    const states = cases.get(name);
    if (states === undefined) cases.set(name, [state]);
    else states.push(state);
  }
  return [...cases.values()];
}

function renderCase(states: readonly StateResult[], options: LoadsOptions): string[] {
  const [first] = states;
  if (first === undefined) return [];
  const title = first.case.title === undefined ? '' : ` "${oneLine(first.case.title)}"`;
  const level = states.filter(({ motion }) => motion.kind === 'level');
  const moving = states.filter(({ motion }) => motion.kind !== 'level');
  return [
    `  ${options.paint('heading', `case ${oneLine(first.case.name)}`)}${title}`,
    ...level.flatMap((state) => renderLoadTable(state, options)),
    ...renderMotionTable(moving, options),
  ];
}

export function assumptionLines(
  assumptions: readonly Assumption[],
  { width, paint }: Pick<LoadsOptions, 'width' | 'paint'>,
): string[] {
  if (assumptions.length === 0) return [];
  const texts = new Set(assumptions.map(({ text, basis }) => oneLine(`${text}. Basis: ${basis}.`)));
  return [
    '',
    `  ${paint('heading', 'assumptions')}`,
    ...[...texts].flatMap((text) => wrap(text, width, '    - ', '      ')),
  ];
}
