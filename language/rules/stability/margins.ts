import { finding } from '../../diagnostics/create.ts';
import { STABILITY } from '../../diagnostics/stability.ts';
import type { RigStability, StabilityResult } from '../../semantics/stability/evaluate-stability.ts';
import { advise } from './help.ts';
import {
  basisOf,
  criticalSpeed,
  INSTABILITIES,
  type Instability,
  LEAST_DAMPING,
  lowestOf,
  pointAtCase,
  speedPlace,
  swingingUnit,
  type WorstResult,
} from './results.ts';
import type { StabilityRule } from './rule.ts';
import { isUnstable } from './unstable-at-speed.ts';

/** A critical speed should be so many times the intended one. Common practice, no source: a choice of this tool. */
const LEAST_MARGIN = 1.25;

/** The damping ratio that is wanted at a speed (m/s): at walking pace only that swinging dies out. */
export function leastDampingWanted(speed: number): number {
  return speed < SLOW ? 0 : LEAST_DAMPING;
}

/** m/s; below it the lag of the tyres makes the damping ratio, and nothing swings that anyone would notice. A choice of this tool. */
const SLOW = 20 / 3.6;

/** Little damping at the intended speed, where the rig does not sway by itself already. */
export const dampingLow: StabilityRule = {
  keys: ['damping-low'],
  *check(stability) {
    const worst = worstDamping(stability);
    if (worst === undefined) return;
    const { speed } = stability;
    const { result, by: damping, also } = worst;
    const place = speedPlace(stability, result);
    const parameters = {
      subject: swingingUnit(result),
      damping,
      least: LEAST_DAMPING,
      intended: speed,
      ...basisOf(stability),
      state: result.label,
      also,
      help: advise('swinging', stability, result, { least: LEAST_DAMPING }),
    };
    yield finding('damping-low', STABILITY['damping-low'], parameters, place, pointAtCase(place, result));
  },
};

/** A critical speed that is above the intended one, but not by much; what little damping says already is not repeated. */
export const speedMarginSmall: StabilityRule = {
  keys: ['speed-margin-small'],
  *check(stability) {
    const { rig, speed } = stability;
    const kinds = worstDamping(stability) === undefined ? INSTABILITIES : (['folding'] as const);
    const found = kinds
      .flatMap((kind) => {
        const worst = lowestOf(settled(stability, kind), (result) => criticalSpeed(result, kind), speed * LEAST_MARGIN);
        return worst === undefined ? [] : [{ kind, worst }];
      })
      .sort((a, b) => a.worst.by - b.worst.by)[0];
    if (found === undefined) return;
    const { kind, worst } = found;
    const { result, by: from, also } = worst;
    const place = speedPlace(stability, result);
    const parameters = {
      subject: kind === 'swinging' ? swingingUnit(result) : rig.name,
      kind,
      from,
      intended: speed,
      margin: LEAST_MARGIN,
      ...basisOf(stability),
      state: result.label,
      also,
      help: advise(kind, stability, result, { enough: LEAST_MARGIN * speed }),
    };
    yield finding('speed-margin-small', STABILITY['speed-margin-small'], parameters, place, pointAtCase(place, result));
  },
};

function worstDamping(stability: RigStability): WorstResult | undefined {
  if (stability.speed < SLOW) return undefined;
  return lowestOf(
    settled(stability, 'swinging'),
    ({ mode, folds }) => (folds ? undefined : mode?.damping),
    LEAST_DAMPING,
  );
}

/** The results of a rig that has no finding of its own for a critical speed up to the intended one; else none. */
function settled({ results, speed }: RigStability, kind: Instability): readonly StabilityResult[] {
  return results.some((each) => isUnstable(each, kind, speed)) ? [] : results;
}
