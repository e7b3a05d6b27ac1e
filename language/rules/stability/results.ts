import type { Location, RelatedFinding } from '../../diagnostics/finding.ts';
import type { Basis } from '../../diagnostics/stability-wording.ts';
import type { AlsoIn } from '../../diagnostics/wording.ts';
import { STANDARD_GRAVITY } from '../../mechanics/combination.ts';
import { systemOfRig } from '../../semantics/display-system.ts';
import { unitsOnAssumedTyres } from '../../semantics/stability/assumed-tyres.ts';
import type { RigStability, StabilityResult } from '../../semantics/stability/evaluate-stability.ts';
import type { RigResult } from '../../semantics/state.ts';
import { ownPlace, pointAt } from '../places.ts';

/** What the rig does above a critical speed: it swings ever wider, or it folds or spins without swinging. */
export type Instability = 'swinging' | 'folding';

export const INSTABILITIES: readonly Instability[] = ['swinging', 'folding'];

/** Damping ratio at the intended speed below which a warning is due. SAE J2807 recommends it; from memory. */
export const LEAST_DAMPING = 0.1;
/**
 * Nearer to neutral than 0.05 degrees per g is no oversteer (rad per m/s²). Tyres that are assumed to suit the load of
 * their axle always come out there.
 */
export const NEUTRAL = (-0.05 * Math.PI) / 180 / STANDARD_GRAVITY;

/**
 * The speed (m/s) that a kind of instability begins at: the lowest one looked at where it is there already, undefined
 * where it is not reached.
 */
export function criticalSpeed(result: StabilityResult, kind: Instability): number | undefined {
  const speed = kind === 'swinging' ? result.zeroDamping : result.divergence;
  if (speed.kind === 'at') return speed.speed;
  return speed.kind === 'below' ? result.sweep.speeds[0] : undefined;
}

/** Whether a rig that folds at some speed swings ever wider before: folding then ends the swinging. */
export function swingsFirst(result: StabilityResult): boolean {
  const swings = criticalSpeed(result, 'swinging');
  const folds = criticalSpeed(result, 'folding');
  return swings !== undefined && !(folds !== undefined && folds <= swings);
}

/** The highest speed looked at, m/s. */
export function highestSpeed({ sweep }: StabilityResult): number {
  return sweep.speeds[sweep.speeds.length - 1] ?? 0;
}

/** Whether the trailer brakes, where there are any, are taken to work as fitted. */
export function brakesAsFitted({ scenario, state }: StabilityResult): boolean {
  return (
    scenario.brakes === 'as fitted' ||
    state.rig.units.every(({ kind, brakes }) => kind === 'vehicle' || brakes === 'unbraked')
  );
}

export function onTheLevel({ scenario }: StabilityResult): boolean {
  return scenario.kind === 'level';
}

/** The name of the rig's unit that the swinging of a result is told of: the one that yaws most. */
export function swingingUnit({ state, built, mode }: StabilityResult): string {
  const units = state.rig.units;
  const found = built.bodies.findIndex((body) => body >= (mode?.unit ?? 0));
  return units[found < 0 ? units.length - 1 : found]?.name ?? state.rig.name;
}

/**
 * The least damped of the results in which something swings and nothing folds: where damping is what counts, and moving
 * things helps it. Undefined where there is none.
 */
export function leastDampedSwing(results: readonly StabilityResult[]): StabilityResult | undefined {
  return results
    .filter(({ mode, folds }) => mode !== undefined && !folds)
    .reduce<StabilityResult | undefined>(
      (least, each) => (least === undefined || each.damping < least.damping ? each : least),
      undefined,
    );
}

/** Of the results in which the rig folds at the intended speed the one that folds first; undefined where none does. */
export function firstToFold(results: readonly StabilityResult[]): StabilityResult | undefined {
  const from = (result: StabilityResult) => criticalSpeed(result, 'folding') ?? Number.POSITIVE_INFINITY;
  return results.filter(({ folds }) => folds).sort((a, b) => from(a) - from(b))[0];
}

/** The worst of the results that break a limit, by how much, and the others. */
export interface WorstResult {
  readonly result: StabilityResult;
  readonly by: number;
  readonly also: readonly AlsoIn[];
}

/**
 * The results for which `figure` is below `limit`, as one breach: the lowest, and the
 * others from the lowest up; equals in the order of the results. Undefined where there are none.
 */
export function lowestOf(
  results: readonly StabilityResult[],
  figure: (result: StabilityResult) => number | undefined,
  limit: number,
): WorstResult | undefined {
  const broken = results
    .map((result) => ({ result, by: figure(result) ?? Number.POSITIVE_INFINITY }))
    .filter(({ by }) => by < limit)
    .sort((a, b) => a.by - b.by);
  const [worst, ...others] = broken;
  if (worst === undefined) return undefined;
  return { ...worst, also: others.map(({ result, by }) => ({ state: result.label, by })) };
}

/** A rig's results in the form that the other rules take. */
function asRigResult({ rig, results, assumptions }: RigStability): RigResult {
  return { rig, states: results.map(({ state }) => state), motions: [], assumptions };
}

/** What stands behind the figures of a rig, and the units they are told in. */
export function basisOf({ rig, assumptions }: RigStability): Basis {
  return {
    tyresOf: unitsOnAssumedTyres(rig),
    assumed: assumptions.length > 0,
    intendedStated: rig.travel?.speed !== undefined,
    system: systemOfRig(rig),
  };
}

/** Where a finding on speeds is shown: at the travel line, else at the case. */
export function speedPlace(stability: RigStability, { state }: StabilityResult): Location {
  return ownPlace(asRigResult(stability), stability.rig.travel?.location, state.case.location);
}

/** Where a finding on a load state is shown: at the case. */
export function casePlace(stability: RigStability, { state }: StabilityResult): Location {
  return ownPlace(asRigResult(stability), state.case.location);
}

/** Points at the case that a finding shown elsewhere is about. */
export function pointAtCase(shown: Location, { state }: StabilityResult): RelatedFinding[] {
  return pointAt(shown, state.case.location, state.label);
}
