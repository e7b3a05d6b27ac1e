import {
  BRAKING_GRIP,
  COMPARE_ONLY,
  dampingText,
  inDegreesPerG,
  MAKES_IT_WORSE,
  sampled,
} from '../../diagnostics/stability-wording.ts';
import type { CriticalSpeed } from '../../mechanics/stability/sweep.ts';
import { type FirstMove, firstMoves, STEP } from '../../rules/stability/first-moves.ts';
import { advise } from '../../rules/stability/help.ts';
import { firstToFold, leastDampedSwing, onTheLevel } from '../../rules/stability/results.ts';
import { reachStabilityOf } from '../../semantics/envelope/reach-stability.ts';
import type { Assumption, RigModel } from '../../semantics/model.ts';
import { stabilityOf } from '../../semantics/results.ts';
import { unitsOnAssumedTyres } from '../../semantics/stability/assumed-tyres.ts';
import {
  foldSensitivitiesOf,
  type RigStability,
  type StabilityResult,
  sensitivitiesOf,
} from '../../semantics/stability/evaluate-stability.ts';
import { SPEED } from '../../units/dimension.ts';
import {
  type DisplaySystem,
  formatLength,
  formatMass,
  formatNumber,
  formatQuantity,
  formatValue,
} from '../../units/display.ts';
import { ROUND_STEPS } from '../../units/round-steps.ts';
import type { SourceTest } from '../contributions.ts';
import { type Column, enumerate, list, paragraphs, plain, table } from '../markdown.ts';
import { assumptionList } from './context.ts';

/** Rows of the table; of more results the least damped ones are shown. */
const MOST_ROWS = 6;
const MOST_MOVES = 3;
/** More assumptions than this are counted, not listed. */
const MOST_ASSUMPTIONS = 6;
/** Damping ratio: half a metre has to add 0.001, the least that advice is given for. */
const LEAST_GAIN = 2e-4;

const HEADS: readonly Column[] = [
  { head: 'case and road', align: 'left' },
  { head: 'damping ratio', align: 'right' },
  { head: 'swings at', align: 'right' },
  { head: 'swing grows from', align: 'right' },
  { head: 'folds from', align: 'right' },
];

/** What the figures are, whose tyres are assumed, and the caution. */
export function stabilityCaution(rigs: readonly RigModel[]): string {
  const units = [...new Set(rigs.flatMap(unitsOnAssumedTyres))];
  const tyres = units.length > 0 ? `tyres of ${plain(enumerate(units))} assumed` : 'tyres as stated';
  return `Linear model for small angles, dry road, ${tyres}. ${COMPARE_ONLY} ${MAKES_IT_WORSE}`;
}

/** Stability of a rig, or of one of its cases: damping at the intended speed, critical speeds, what to move first. */
export function stabilityWords(rig: RigModel, system: DisplaySystem, caseName?: string): string | undefined {
  const stability = rig.standalone ? undefined : stabilityOf(rig);
  if (stability === undefined) return undefined;
  const results = stability.results.filter(({ state }) => caseName === undefined || state.case.name === caseName);
  const shown = [...results].sort((a, b) => a.damping - b.damping).slice(0, MOST_ROWS);
  const [worst] = shown;
  if (worst === undefined) return undefined;
  // What adds damping on one road may bring the fold nearer on another: folding goes first, and alone.
  const folding = firstToFold(results);
  const swinging = folding === undefined ? leastDampedSwing(results) : undefined;
  const moves = swinging ? movesOf(swinging, stability.speed, MOST_MOVES) : [];
  const more = results.length - shown.length;
  return paragraphs(
    `**Stability at ${formatValue(stability.speed, SPEED, system)}**${more > 0 ? `, the ${shown.length} least damped of ${results.length} states` : ''}`,
    table(
      HEADS,
      shown.map((result) => row(result, system)),
    ),
    handlingWords(worst),
    caseName === undefined ? reachWords(rig, system) : undefined,
    swinging !== undefined && moves.length > 0 ? `What to move first in ${plain(swinging.label)}:` : undefined,
    moves.length > 0 ? list(moves.map((move) => moveWords(move, system))) : undefined,
    folding && `It folds in ${plain(folding.label)}. ${plain(advise('folding', stability, folding, { system }))}`,
    results.every(onTheLevel) ? stabilityCaution([rig]) : `${stabilityCaution([rig])} ${BRAKING_GRIP}`,
    assumptionList(oneOfEach(stability.assumptions), 'short', 'Assumed for the stability', MOST_ASSUMPTIONS),
  );
}

/** The least-damped reachable state, where it has been looked for: `settleNext` does so for a rig whose cases are in order. */
function reachWords(rig: RigModel, system: DisplaySystem): string | undefined {
  const { worst, tried } = reachStabilityOf.known(rig) ?? {};
  if (worst === undefined || tried === undefined) return undefined;
  const { result } = worst;
  const head = `Of the reachable states (${sampled(tried)}) least damped ${plain(result.label)}`;
  if (result.folds) return `${head}: it folds.`;
  if (result.mode === undefined) return undefined;
  const zero = `zero-damping speed ${criticalWords(result.zeroDamping, result, system)}`;
  return `${head}: damping ratio ${dampingText(result.damping)}, ${zero}.`;
}

/** The first assumption on each line of the files, then the second on each and so on: a short list names every axle. */
function oneOfEach(assumptions: readonly Assumption[]): readonly Assumption[] {
  const counts = new Map<Assumption['location'], number>();
  return assumptions
    .map((assumption) => {
      const before = counts.get(assumption.location) ?? 0;
      counts.set(assumption.location, before + 1);
      return { assumption, before };
    })
    .sort((a, b) => a.before - b.before)
    .map(({ assumption }) => assumption);
}

/** What to move first, of a unit alone where `within` is its index in the rig, as far as anything would be seen of it. */
export function movesOf(result: StabilityResult, speed: number, most: number, within?: number): readonly FirstMove[] {
  return firstMoves(result, speed, Number.POSITIVE_INFINITY, within)
    .filter(({ damping }) => damping >= LEAST_GAIN)
    .slice(0, most);
}

/** `generator in Tourer.tail 100 mm ahead: damping +0.004, zero-damping speed +0.9 km/h`. */
export function moveWords({ source, direction, damping, zeroDampingSpeed }: FirstMove, system: DisplaySystem): string {
  const { length } = ROUND_STEPS[system];
  const steps = length / STEP;
  const gained = gainWords(
    damping * steps,
    zeroDampingSpeed === undefined ? undefined : zeroDampingSpeed * steps,
    system,
  );
  return `${plain(source.name)} ${formatLength(length, system)} ${direction}: ${gained}`;
}

function gainWords(damping: number, speed: number | undefined, system: DisplaySystem): string {
  const faster = speed === undefined ? '' : `, zero-damping speed ${signedSpeed(speed, system)}`;
  return `damping ${signed(damping)}${faster}`;
}

/**
 * What moving the masses that a test picks does to the least damped state that they are on board in: `at 90 km/h in case
 * out, on the level (damping ratio 0.16), 100 mm ahead: damping +0.004; 10 kg more: damping −0.001`. Undefined where
 * they are on board in none, or nothing swings.
 */
export function effectWords(
  { results, speed }: RigStability,
  test: SourceTest,
  system: DisplaySystem,
): string | undefined {
  const onBoard = results.filter(({ state }) => state.sources.some(({ id, mass }) => mass > 0 && test(id)));
  const words = [swingEffect(onBoard, speed, test, system), foldEffect(onBoard, test, system)];
  const told = words.filter((each) => each !== undefined).join('; ');
  return told === '' ? undefined : `at ${formatValue(speed, SPEED, system)} ${told}`;
}

function swingEffect(
  results: readonly StabilityResult[],
  speed: number,
  test: SourceTest,
  system: DisplaySystem,
): string | undefined {
  const worst = leastDampedSwing(results);
  const own = worst === undefined ? [] : sensitivitiesOf(worst, speed).filter(({ source }) => test(source));
  if (worst === undefined || own.length === 0) return undefined;
  const { length, mass: heavier } = ROUND_STEPS[system];
  const sum = (value: (each: (typeof own)[number]) => number) => own.reduce((total, each) => total + value(each), 0);
  const perKilogram = sum(({ damping, mass }) => damping.mass * mass) / sum(({ mass }) => mass);
  const faster = own.every(({ zeroDampingSpeed }) => zeroDampingSpeed !== undefined)
    ? sum(({ zeroDampingSpeed }) => zeroDampingSpeed?.x ?? 0) * length
    : undefined;
  const ahead = gainWords(sum(({ damping }) => damping.x) * length, faster, system);
  const where = `in ${plain(worst.label)} (damping ratio ${dampingText(worst.damping)})`;
  const more = `${formatMass(heavier, system)} more: damping ${signed(perKilogram * heavier)}`;
  return `${where}, ${formatLength(length, system)} ahead: ${ahead}; ${more}`;
}

/** `in case out, braking at 4 m/s² it folds from 98 km/h, 100 mm ahead: from −0.6 km/h; 10 kg more: from −0.2 km/h`. */
function foldEffect(results: readonly StabilityResult[], test: SourceTest, system: DisplaySystem): string | undefined {
  const first = firstToFold(results.filter(({ divergence }) => divergence.kind === 'at')) ?? firstToFold(results);
  if (first === undefined) return undefined;
  const own = foldSensitivitiesOf(first).filter(({ source }) => test(source));
  const folds = criticalWords(first.divergence, first, system);
  const where = `in ${plain(first.label)} it folds${first.divergence.kind === 'above' ? '' : ` from ${folds}`}`;
  if (own.length === 0) return where;
  const { length, mass: heavier } = ROUND_STEPS[system];
  const ahead = own.reduce((sum, { foldSpeed }) => sum + foldSpeed.x, 0) * length;
  const whole = own.reduce((sum, { mass }) => sum + mass, 0);
  const more = (own.reduce((sum, { foldSpeed, mass }) => sum + foldSpeed.mass * mass, 0) / whole) * heavier;
  const changes = `${formatLength(length, system)} ahead: from ${signedSpeed(ahead, system)}; ${formatMass(heavier, system)} more: from ${signedSpeed(more, system)}`;
  return `${where}, ${changes}`;
}

/** The same as a sentence about the rig hovered in. */
export function stabilityEffect(rig: RigModel, test: SourceTest, system: DisplaySystem): string | undefined {
  const stability = rig.standalone ? undefined : stabilityOf(rig);
  const effect = stability && effectWords(stability, test, system);
  return effect && paragraphs(`Stability ${effect}.`, stabilityCaution([rig]));
}

function row(result: StabilityResult, system: DisplaySystem): string[] {
  const { mode, folds, zeroDamping, divergence } = result;
  return [
    plain(result.label),
    folds ? 'folds' : mode === undefined ? 'does not swing' : dampingText(mode.damping),
    mode === undefined ? '' : `${formatNumber(mode.frequency, 2)} Hz`,
    criticalWords(zeroDamping, result, system),
    criticalWords(divergence, result, system),
  ];
}

/** `131 km/h`, `over 200 km/h`, `under 10 km/h`. */
export function criticalWords(critical: CriticalSpeed, { sweep }: StabilityResult, system: DisplaySystem): string {
  if (critical.kind === 'at') return formatValue(critical.speed, SPEED, system);
  const [least = 0] = sweep.speeds;
  return critical.kind === 'below'
    ? `under ${formatValue(least, SPEED, system)}`
    : `over ${formatValue(sweep.speeds.at(-1) ?? 0, SPEED, system)}`;
}

/** Understeer gradients in degrees of steering per g, as the trade gives them. */
function handlingWords({ handling, alone, label }: StabilityResult): string | undefined {
  if (handling === undefined) return undefined;
  const without = alone === undefined ? '' : `, ${inDegreesPerG(alone.understeer)} without what it tows`;
  return `Understeer of the vehicle ${inDegreesPerG(handling.understeer)}${without}, in ${plain(label)}.`;
}

/** `+0.004`: a change of the damping ratio. */
const signed = (change: number): string => withSign(change, formatNumber(Math.abs(change), 2, 4));

function signedSpeed(change: number, system: DisplaySystem): string {
  const size = { value: Math.abs(change), dimension: SPEED };
  return withSign(change, formatQuantity(size, undefined, { significant: 2, maximumDecimals: 1, system }));
}

function withSign(value: number, size: string): string {
  if (/^0(?: |$)/.test(size)) return `±${size}`;
  return `${value < 0 ? '−' : '+'}${size}`;
}
