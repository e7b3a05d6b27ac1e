import type { CriticalSpeed } from '../../mechanics/stability/sweep.ts';
import { type FirstMove, firstMoves } from '../../rules/stability/first-moves.ts';
import type { RigModel } from '../../semantics/model.ts';
import { stabilityOf } from '../../semantics/results.ts';
import {
  type RigStability,
  type StabilityResult,
  sensitivitiesOf,
} from '../../semantics/stability/evaluate-stability.ts';
import { SPEED } from '../../units/dimension.ts';
import { type DisplaySystem, formatNumber, formatShare, formatValue } from '../../units/display.ts';
import type { SourceTest } from '../contributions.ts';
import { type Column, list, paragraphs, plain, table } from '../markdown.ts';

/** Rows of the table; of more results the least damped ones are shown. */
const MOST_ROWS = 6;
const MOST_MOVES = 3;

const HEADS: readonly Column[] = [
  { head: 'case and road', align: 'left' },
  { head: 'damping', align: 'right' },
  { head: 'swings at', align: 'right' },
  { head: 'no longer dies out from', align: 'right' },
  { head: 'folds from', align: 'right' },
];

const CAUTION =
  'Linear model for small angles, tyres as stated or assumed: compare layouts with it, never take a speed from it as safe.';

/** Stability of a rig, or of one of its cases: damping at the intended speed, critical speeds, what to move first. */
export function stabilityWords(rig: RigModel, system: DisplaySystem, caseName?: string): string | undefined {
  const stability = rig.standalone ? undefined : stabilityOf(rig);
  if (stability === undefined) return undefined;
  const results = stability.results.filter(({ state }) => caseName === undefined || state.case.name === caseName);
  const shown = [...results].sort((a, b) => a.damping - b.damping).slice(0, MOST_ROWS);
  const [worst] = shown;
  if (worst === undefined) return undefined;
  const moves = usualMoves(worst, stability.speed).map(
    ({ source, direction, damping }) => `${plain(source.name)} 100 mm ${direction}: damping ${signed(damping)}`,
  );
  const more = results.length - shown.length;
  return paragraphs(
    `**Stability at ${formatValue(stability.speed, SPEED, system)}**${more > 0 ? `, the ${shown.length} least damped of ${results.length} states` : ''}`,
    table(
      HEADS,
      shown.map((result) => row(result, system)),
    ),
    handlingWords(worst),
    moves.length > 0 ? `What to move first in ${plain(worst.label)}:` : undefined,
    moves.length > 0 ? list(moves) : undefined,
    CAUTION,
  );
}

/** Items and tanks are moved before anything that is built in. */
function usualMoves(result: StabilityResult, speed: number): readonly FirstMove[] {
  const all = firstMoves(result, speed, Number.POSITIVE_INFINITY);
  const loose = all.filter(({ source }) => source.kind !== 'fitting');
  return (loose.length > 0 ? loose : all).slice(0, MOST_MOVES);
}

/** What moving the masses that a test picks does to the least damped state of a rig; undefined where nothing is known. */
export function stabilityEffect(rig: RigModel, test: SourceTest, system: DisplaySystem): string | undefined {
  const stability = rig.standalone ? undefined : stabilityOf(rig);
  const worst = stability && leastDamped(stability, test);
  if (stability === undefined || worst === undefined) return undefined;
  const own = sensitivitiesOf(worst, stability.speed).filter(({ source }) => test(source));
  if (own.length === 0) return undefined;
  const sum = (value: (each: (typeof own)[number]) => number | undefined) =>
    own.reduce((total, each) => total + (value(each) ?? 0), 0);
  const ahead = sum(({ damping }) => damping.x) / 10;
  const perTen =
    sum(({ damping, mass }) => damping.mass * mass) /
    Math.max(
      sum(({ mass }) => mass),
      1e-9,
    );
  const speed = own.every(({ zeroDampingSpeed }) => zeroDampingSpeed !== undefined)
    ? sum(({ zeroDampingSpeed }) => zeroDampingSpeed?.x) / 10
    : undefined;
  const gained =
    speed === undefined
      ? ''
      : `, zero-damping speed ${speed < 0 ? '−' : '+'}${formatValue(Math.abs(speed), SPEED, system)}`;
  return `Stability at ${formatValue(stability.speed, SPEED, system)} in ${plain(worst.label)} (damping ${formatShare(worst.damping)}): 100 mm ahead ${signed(ahead)} damping${gained}; 10 kg more ${signed(perTen * 10)}.`;
}

function leastDamped({ results }: RigStability, test: SourceTest): StabilityResult | undefined {
  return results
    .filter(({ state }) => state.sources.some(({ id }) => test(id)))
    .reduce<StabilityResult | undefined>(
      (least, each) => (least === undefined || each.damping < least.damping ? each : least),
      undefined,
    );
}

function row(result: StabilityResult, system: DisplaySystem): string[] {
  const { mode, sweep } = result;
  const last = sweep.speeds[sweep.speeds.length - 1] ?? 0;
  return [
    plain(result.label),
    result.folds ? 'folds' : mode === undefined ? 'does not swing' : formatShare(mode.damping),
    mode === undefined ? '' : `${formatNumber(mode.frequency, 2)} Hz`,
    criticalWords(result.zeroDamping, last, system),
    criticalWords(result.divergence, last, system),
  ];
}

function criticalWords(critical: CriticalSpeed, highest: number, system: DisplaySystem): string {
  if (critical.kind === 'at') return formatValue(critical.speed, SPEED, system);
  return critical.kind === 'below' ? 'walking pace' : `over ${formatValue(highest, SPEED, system)}`;
}

/** Understeer gradients in degrees of steering per g, as the trade gives them. */
function handlingWords({ handling, alone }: StabilityResult): string | undefined {
  if (handling === undefined) return undefined;
  const inDegrees = (gradient: number) => `${formatNumber(((gradient * 180) / Math.PI) * 9.80665, 2)} deg/g`;
  const without = alone === undefined ? '' : `, ${inDegrees(alone.understeer)} without what it tows`;
  return `Understeer of the vehicle ${inDegrees(handling.understeer)}${without}.`;
}

/** `+0.12 %`, in percentage points of the damping ratio. */
function signed(change: number): string {
  return `${change < 0 ? '−' : '+'}${formatNumber(Math.abs(change) * 100, 2, 3)} %`;
}
