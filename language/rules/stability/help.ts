import { dampingText, inDegreesPerG, wholeSpeed } from '../../diagnostics/stability-wording.ts';
import { STANDARD_GRAVITY } from '../../mechanics/combination.ts';
import type { CriticalSpeed } from '../../mechanics/stability/sweep.ts';
import { systemOfRig } from '../../semantics/display-system.ts';
import type { RigStability, StabilityResult } from '../../semantics/stability/evaluate-stability.ts';
import type { DisplaySystem } from '../../units/display.ts';
import {
  type Attempt,
  admissible,
  heaviestStowed,
  inOrder,
  leavings,
  type Outcome,
  promising,
  steeringMoves,
  tell,
} from './attempts.ts';
import { isBuiltIn } from './ease.ts';
import { harmless } from './harmless.ts';
import { criticalSpeed, type Instability, swingsFirst } from './results.ts';
import { foldSpeedOf, motionOf, trialTrain, understeerOf } from './trial.ts';

/** Less damping ratio than this is not worth a word, nor less understeer (rad per m/s²: 0.05 degrees per g). */
const WORTH_DAMPING = 0.001;
const WORTH_UNDERSTEER = (0.05 * Math.PI) / 180 / STANDARD_GRAVITY;
/** m/s that a fold has to begin later by: what whole kilometres per hour show. */
const WORTH_SPEED = 1 / 3.6;

/** What is said where nothing is found. */
const NOTHING_HELPS = 'Nothing that can be moved helps enough.';
const NOT_ENOUGH = ', which is not enough';

/** What a help is held against, so that it says where it does not do. */
export interface HelpOptions {
  /** Damping ratio wanted. */
  readonly least?: number;
  /** m/s that the rig should not fold up to. */
  readonly enough?: number;
  /** Results of the same load on all roads, none of which may get a fault of its own; that helped alone if absent. */
  readonly results?: readonly StabilityResult[];
  /** The units it is told in; those of the rig if absent. */
  readonly system?: DisplaySystem;
}

/** What would help a result against swinging or folding, in one sentence; says so where nothing does. */
export function advise(
  kind: Instability,
  { results, speed }: RigStability,
  result: StabilityResult,
  options: Omit<HelpOptions, 'results'> = {},
): string {
  const inAll = { ...options, results: results.filter(({ state }) => state === result.state) };
  // A fold that a growing swing ends in is none of the steering.
  const help = kind === 'folding' && !swingsFirst(result) ? helpFolding : helpDamping;
  return help(result, speed, inAll) ?? NOTHING_HELPS;
}

/** What would help a vehicle that oversteers with what it tows; says so where nothing does. */
export function adviseSteering({ speed }: RigStability, result: StabilityResult): string {
  return helpUndersteer(result, speed) ?? NOTHING_HELPS;
}

/**
 * What would help the damping at `speed` m/s most, in one sentence: "Moving generator (41 kg) 500 mm ahead adds 0.008 to
 * the damping ratio." By the ranking of first moves, computed anew for the whole distance; else what would best stay
 * behind, or what is built in if that does far more. Nothing is proposed that breaks another limit, takes a coupling
 * out of its usual share, makes the vehicle oversteer, or lets the rig fold or swing on another road. Where the rig folds
 * at that speed it is told of the speed that swinging begins to grow at.
 */
export function helpDamping(
  result: StabilityResult,
  speed: number,
  { least, results = [result], system = systemOfRig(result.state.rig) }: HelpOptions = {},
): string | undefined {
  const grows = criticalSpeed(result, 'swinging');
  const at = result.folds ? (grows ?? speed) : speed;
  const now = motionOf(result.built.train, at);
  if (now === undefined || now.folds) return undefined;
  const isAdmissible = admissible(result);
  const isHarmless = harmless(results, speed);
  const judge = (attempt: Attempt): Outcome[] => {
    if (!isAdmissible(attempt)) return [];
    const train = trialTrain(result.built, attempt.source, attempt.distance);
    const moved = motionOf(train, at);
    const gain = moved === undefined || moved.folds ? 0 : moved.damping - now.damping;
    return gain >= WORTH_DAMPING && isHarmless(attempt) ? [{ ...attempt, train, gain }] : [];
  };
  const moved = promising(result, at).flatMap(judge);
  const isEasy = moved.some(({ source }) => !isBuiltIn(source.id.kind));
  const [best] = inOrder(isEasy ? moved : [...moved, ...leavings(result, at).flatMap(judge)]);
  if (best === undefined) return undefined;
  const where = at === speed ? '' : ` at ${wholeSpeed(at, system)}`;
  const short = least !== undefined && at === speed && now.damping + best.gain < least ? NOT_ENOUGH : '';
  return `${tell(best, system)} adds ${dampingText(best.gain)} to the damping ratio${where}${short}.`;
}

/**
 * What would raise the speed that the rig folds from, in one sentence: "Moving generator (41 kg) 500 mm ahead adds 0.12
 * deg/g of understeer and raises the speed it folds from to 96 km/h, which is not enough." The first that brings it above
 * `enough` (the speed intended if absent), else the first that is worth a word.
 */
export function helpFolding(
  result: StabilityResult,
  speed: number,
  { enough = speed, results = [result], system = systemOfRig(result.state.rig) }: HelpOptions = {},
): string | undefined {
  const now = understeerOf(result.built.train, speed);
  if (now === undefined) return undefined;
  const isAdmissible = admissible(result);
  const isHarmless = harmless(results, speed);
  const before = order(result.divergence);
  let best: { readonly outcome: Outcome; readonly folds: CriticalSpeed } | undefined;
  for (const attempts of [steeringMoves(result, speed, now), heaviestStowed(result)]) {
    for (const outcome of steered(result, speed, now, attempts)) {
      if (!isAdmissible(outcome) || !isHarmless(outcome)) continue;
      const folds = foldSpeedOf(outcome.train, result.sweep);
      if (folds === undefined || order(folds) < before + WORTH_SPEED) continue;
      if (order(folds) > enough) return foldingText(outcome, folds, enough, result, system);
      best ??= { outcome, folds };
    }
  }
  return best && foldingText(best.outcome, best.folds, enough, result, system);
}

function foldingText(
  outcome: Outcome,
  folds: CriticalSpeed,
  enough: number,
  { sweep }: StabilityResult,
  system: DisplaySystem,
): string {
  const steers = `adds ${inDegreesPerG(outcome.gain)} of understeer`;
  const speed = folds.kind === 'at' ? folds.speed : (sweep.speeds.at(-1) ?? 0);
  const to = `${folds.kind === 'above' ? 'above ' : ''}${wholeSpeed(speed, system)}`;
  const short = order(folds) > enough ? '' : NOT_ENOUGH;
  return `${tell(outcome, system)} ${steers} and raises the speed it folds from to ${to}${short}.`;
}

/** A critical speed as a number: −∞ below all speeds looked at, ∞ above them. */
function order(speed: CriticalSpeed): number {
  if (speed.kind === 'at') return speed.speed;
  return speed.kind === 'below' ? Number.NEGATIVE_INFINITY : Number.POSITIVE_INFINITY;
}

/**
 * What would most reduce the oversteer of the vehicle with its trailer on, in one sentence: "Moving generator (41 kg) 500
 * mm ahead adds 0.12 deg/g of understeer." Nothing is proposed that costs damping at `speed` m/s, except where the rig
 * folds at it and there is none to be lost.
 */
export function helpUndersteer(result: StabilityResult, speed: number): string | undefined {
  const now = understeerOf(result.built.train, speed);
  const motion = motionOf(result.built.train, speed);
  if (now === undefined || motion === undefined) return undefined;
  const isAdmissible = admissible(result);
  const keepsDamping = ({ train }: Outcome) => {
    const moved = motionOf(train, speed);
    return motion.folds || (moved !== undefined && !moved.folds && moved.damping >= motion.damping);
  };
  const bestOf = (attempts: readonly Attempt[]): Outcome | undefined =>
    steered(result, speed, now, attempts).find((outcome) => isAdmissible(outcome) && keepsDamping(outcome));
  const best = bestOf(steeringMoves(result, speed, now)) ?? bestOf(heaviestStowed(result));
  return best && `${tell(best, systemOfRig(result.state.rig))} adds ${inDegreesPerG(best.gain)} of understeer.`;
}

/** Attempts that add understeer worth a word, in the order to propose them in. */
function steered(
  result: StabilityResult,
  speed: number,
  now: number,
  attempts: readonly Attempt[],
): readonly Outcome[] {
  const outcomes = attempts.map((attempt): Outcome => {
    const train = trialTrain(result.built, attempt.source, attempt.distance);
    return { ...attempt, train, gain: (understeerOf(train, speed) ?? now) - now };
  });
  return inOrder(outcomes.filter(({ gain }) => gain >= WORTH_UNDERSTEER));
}
