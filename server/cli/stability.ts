import { COMPARE_ONLY } from '../../language/diagnostics/stability-wording.ts';
import type { RigStability, StabilityResult } from '../../language/semantics/stability/evaluate-stability.ts';
import { motionAt, STILL } from '../../language/semantics/stability/motion-at.ts';
import { SPEED } from '../../language/units/dimension.ts';
import { formatNumber, formatValue } from '../../language/units/display.ts';
import { assumptionLines, type LoadsOptions, rigHeading } from './loads.ts';
import type { FoundStability } from './stability-results.ts';
import { motionText, renderDampingTable, renderLimitTable, renderMoves } from './stability-table.ts';
import { oneLine, wrap } from './text.ts';

/** What these figures are, and what they are not. */
export const STABILITY_NOTE =
  `Linear model, small angles, speed taken as constant, dry road; tyre data assumed where listed above. ${COMPARE_ONLY} ` +
  'Side wind, passing vehicles, wet roads and worn or soft tyres bring the onset of swaying down, and the energy of a ' +
  'swing grows with the square of speed: a little below a speed at which a rig was seen to sway is no safe speed either.';

export type StabilityOptions = Omit<LoadsOptions, 'cases'>;

/** The stability of rigs, case by case, with what to move first and what had to be assumed. */
export function renderStability(rigs: readonly FoundStability[], options: StabilityOptions): string[] {
  return rigs.flatMap((rig, index) => [...(index > 0 ? [''] : []), ...renderRig(rig, options)]);
}

function renderRig(
  { found, stability, worst, swinging, moves: first }: FoundStability,
  options: StabilityOptions,
): string[] {
  const { width, paint } = options;
  const heading = rigHeading(found, paint);
  if (stability === undefined || worst === undefined) {
    return [heading, '', ...wrap(missingText(found.result.rig.units.length, stability), width, '  ', '  ')];
  }
  const cases = new Set(stability.results.map(({ state }) => state.case.name));
  const moves = renderMoves(first, options);
  const assumptions = [...found.result.assumptions, ...stability.assumptions];
  return [
    heading,
    ...wrap(oneLine(worstText(stability, worst, options)), width, '  ', '  '),
    ...[...cases].flatMap((name) => {
      const results = stability.results.filter(({ state }) => state.case.name === name);
      return ['', ...renderCase(results, stability.speed, options)];
    }),
    '',
    `  ${paint('heading', 'what to move first')}`,
    ...(swinging !== undefined && moves.length > 0
      ? [...wrap(oneLine(`in ${swinging.label}:`), width, '    ', '    '), ...moves]
      : ['    Nothing that can be moved changes the damping by as much as one could notice.']),
    ...assumptionLines(assumptions, options),
  ];
}

function missingText(units: number, stability: RigStability | undefined): string {
  if (stability?.problem !== undefined) {
    const unit = stability.rig.units[stability.problem.unit ?? -1]?.name;
    const where = unit === undefined ? '' : ` (${oneLine(unit)})`;
    return `No stability, ${stability.problem.problem.replaceAll('-', ' ')}${where}: \`rigwright check\` tells more.`;
  }
  return units < 2
    ? 'It tows nothing, so nothing can sway.'
    : 'No stability: `rigwright check` says what is missing for its loads.';
}

function worstText({ speed }: RigStability, worst: StabilityResult, { units }: StabilityOptions): string {
  const moving = motionAt(worst, speed) ?? STILL;
  const { mode, folds } = moving;
  const intended = `intended speed ${formatValue(speed, SPEED, units)}`;
  if (folds) return `${intended}; at it the rig folds or spins in ${worst.label}`;
  if (mode === undefined) return `${intended}; nothing swings at it`;
  const motion = motionText(worst, moving);
  const swing = `${motion} at ${formatNumber(mode.frequency, 3, 2)} Hz`;
  return `${intended}; least damped at it in ${worst.label}: damping ratio ${formatNumber(mode.damping, 3, 3)}, ${swing}`;
}

function renderCase(results: readonly StabilityResult[], speed: number, options: StabilityOptions): string[] {
  const [first] = results;
  if (first === undefined) return [];
  const { name, title } = first.state.case;
  return [
    `  ${options.paint('heading', `case ${oneLine(name)}`)}${title === undefined ? '' : ` "${oneLine(title)}"`}`,
    ...renderDampingTable(results, speed, options),
    ...renderLimitTable(results, speed, options),
  ];
}
