import { COMPARE_ONLY, OFF_THE_LEVEL, sampled, wholeSpeed } from '../../language/diagnostics/stability-wording.ts';
import type { FirstMove } from '../../language/rules/stability/first-moves.ts';
import { advise } from '../../language/rules/stability/help.ts';
import { criticalSpeed, firstToFold, INSTABILITIES, onTheLevel } from '../../language/rules/stability/results.ts';
import type { ReachStability } from '../../language/semantics/envelope/reach-stability.ts';
import type { RigStability, StabilityResult } from '../../language/semantics/stability/evaluate-stability.ts';
import { motionAt, STILL } from '../../language/semantics/stability/motion-at.ts';
import { SPEED } from '../../language/units/dimension.ts';
import { formatNumber, formatValue } from '../../language/units/display.ts';
import { assumptionLines, type LoadsOptions, rigHeading } from './loads.ts';
import type { FoundStability } from './stability-results.ts';
import { motionText, renderDampingTable, renderLimitTable, renderMoves, speedCell } from './stability-table.ts';
import { oneLine, wrap } from './text.ts';
import { type AskedUnits, inUnitsOf } from './units.ts';

/** What these figures are, and what they are not. */
export const STABILITY_NOTE =
  `Linear model, small angles, speed taken as constant, dry road; tyre data assumed where listed above. ${COMPARE_ONLY} ` +
  'Side wind, passing vehicles, wet roads and worn or soft tyres bring the onset of swaying down, and the energy of a ' +
  'swing grows with the square of speed: a little below a speed at which a rig was seen to sway is no safe speed either.';

export type StabilityOptions = Omit<LoadsOptions, 'cases'>;

/** The stability of rigs, case by case, with what to move first and what had to be assumed. */
export function renderStability(
  rigs: readonly FoundStability[],
  options: Omit<StabilityOptions, 'units'> & AskedUnits,
): string[] {
  return rigs.flatMap((rig, index) => [
    ...(index > 0 ? [''] : []),
    ...renderRig(rig, inUnitsOf(rig.found.result.rig, options)),
  ]);
}

function renderRig(
  { found, stability, worst, reached, swinging, moves: first }: FoundStability,
  options: StabilityOptions,
): string[] {
  const { width, paint } = options;
  const heading = rigHeading(found, paint);
  if (stability === undefined || worst === undefined) {
    return [heading, '', ...wrap(missingText(found.result.rig.units.length, stability), width, '  ', '  ')];
  }
  const cases = new Set(stability.results.map(({ state }) => state.case.name));
  const assumptions = [...found.result.assumptions, ...stability.assumptions];
  return [
    heading,
    ...wrap(oneLine(worstText(stability, worst, options)), width, '  ', '  '),
    ...(reached ? wrap(oneLine(reachedText(reached, options)), width, '  ', '  ') : []),
    ...[...cases].flatMap((name) => {
      const results = stability.results.filter(({ state }) => state.case.name === name);
      return ['', ...renderCase(results, stability.speed, options)];
    }),
    ...(stability.results.every(onTheLevel) ? [] : ['', ...wrap(OFF_THE_LEVEL, width, '  ', '  ')]),
    '',
    `  ${paint('heading', 'what to move first')}`,
    ...firstThings(stability, swinging, first, options),
    ...assumptionLines(assumptions, options),
  ];
}

/** What helps against folding where the rig folds, then the first moves for damping, which may bring the fold nearer. */
function firstThings(
  stability: RigStability,
  swinging: StabilityResult | undefined,
  first: readonly FirstMove[],
  options: StabilityOptions,
): string[] {
  const wrapped = (text: string) => wrap(oneLine(text), options.width, '    ', '    ');
  const folding = firstToFold(stability.results);
  const help = folding && advise('folding', stability, folding, { system: options.units });
  const against = folding === undefined ? [] : wrapped(`in ${folding.label}: ${help}`);
  const moves = swinging === undefined ? [] : renderMoves(first, options);
  if (swinging === undefined || moves.length === 0) {
    const none = 'Nothing that can be moved changes the damping by as much as one could notice.';
    return folding === undefined ? wrapped(none) : against;
  }
  const mind = folding === undefined ? '' : ' (for its damping alone: it may bring the folding nearer)';
  return [...against, ...wrapped(`in ${swinging.label}${mind}:`), ...moves];
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

/** The least-damped reachable state that was found, never without the word that states were sampled. */
function reachedText({ worst, tried }: ReachStability, { units }: StabilityOptions): string {
  const head = `of the reachable states (${sampled(tried)}) least damped`;
  if (worst === undefined) return `${head}: not computed`;
  const { mode, folds, label, zeroDamping } = worst.result;
  if (folds) return `${head} ${label}: it folds or spins`;
  if (mode === undefined) return `${head}: nothing swings in any of them`;
  const speed = speedCell(zeroDamping, worst.result, units).text;
  const grows = zeroDamping.kind === 'at' ? `from ${speed} on` : speed;
  return `${head} ${label}: damping ratio ${formatNumber(mode.damping, 3, 3)}, swing grows ${grows}`;
}

function renderCase(results: readonly StabilityResult[], speed: number, options: StabilityOptions): string[] {
  const [first] = results;
  if (first === undefined) return [];
  const { name, title } = first.state.case;
  return [
    `  ${options.paint('heading', `case ${oneLine(name)}`)}${title === undefined ? '' : ` "${oneLine(title)}"`}`,
    ...renderDampingTable(results, speed, options),
    ...renderLimitTable(results, speed, options),
    ...wrap(oneLine(marginText(results, speed, options)), options.width, '    ', '    '),
  ];
}

/** How far the first speed at which a case becomes unstable is from the intended one, over all roads. */
function marginText(results: readonly StabilityResult[], intended: number, { units }: StabilityOptions): string {
  const first = INSTABILITIES.flatMap((kind) =>
    results.map((result) => ({ kind, result, speed: criticalSpeed(result, kind) ?? Number.POSITIVE_INFINITY })),
  ).reduce((least, each) => (each.speed < least.speed ? each : least));
  if (!Number.isFinite(first.speed)) return 'margin: stable up to the highest speed looked at';
  const margin = wholeSpeed(Math.abs(first.speed - intended), units);
  const does = first.kind === 'swinging' ? 'swing grows' : 'folds';
  const side = first.speed < intended ? 'below' : 'above';
  return `margin: ${does} from ${margin} ${side} the intended speed on, ${first.result.scenario.text}`;
}
