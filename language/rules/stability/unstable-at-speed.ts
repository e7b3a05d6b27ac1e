import { finding } from '../../diagnostics/create.ts';
import type { Finding } from '../../diagnostics/finding.ts';
import { STABILITY } from '../../diagnostics/stability.ts';
import type { RigStability, StabilityResult } from '../../semantics/stability/evaluate-stability.ts';
import { advise } from './help.ts';
import {
  basisOf,
  brakesAsFitted,
  criticalSpeed,
  INSTABILITIES,
  type Instability,
  lowestOf,
  pointAtCase,
  speedPlace,
  swingingUnit,
} from './results.ts';
import type { StabilityRule } from './rule.ts';

const KEYS = {
  fitted: { swinging: 'sways-below-speed', folding: 'folds-below-speed' },
  alone: { swinging: 'sways-while-vehicle-brakes', folding: 'folds-while-vehicle-brakes' },
} as const;

/** Speeds at which swinging no longer dies out, or the rig folds, at or below the intended speed. */
export const unstableAtSpeed: StabilityRule = {
  keys: ['sways-below-speed', 'folds-below-speed', 'sways-while-vehicle-brakes', 'folds-while-vehicle-brakes'],
  *check(stability) {
    for (const brakes of ['fitted', 'alone'] as const) {
      for (const kind of INSTABILITIES) {
        const found = check(stability, brakes, kind);
        if (found !== undefined) yield found;
      }
    }
  },
};

/** Whether a result is unstable at the intended speed or below. */
export function isUnstable(result: StabilityResult, kind: Instability, speed: number): boolean {
  return (criticalSpeed(result, kind) ?? Number.POSITIVE_INFINITY) <= speed;
}

function check(stability: RigStability, brakes: 'fitted' | 'alone', kind: Instability): Finding | undefined {
  const { rig, speed } = stability;
  const results = stability.results.filter(
    (each) => brakesAsFitted(each) === (brakes === 'fitted') && isUnstable(each, kind, speed),
  );
  const worst = lowestOf(results, (each) => criticalSpeed(each, kind), Number.POSITIVE_INFINITY);
  if (worst === undefined) return undefined;
  const { result, by: from, also } = worst;
  const key = KEYS[brakes][kind];
  const place = speedPlace(stability, result);
  const parameters = {
    subject: kind === 'swinging' ? swingingUnit(result) : rig.name,
    from,
    below: (kind === 'swinging' ? result.zeroDamping : result.divergence).kind === 'below',
    intended: speed,
    ...basisOf(stability),
    state: result.label,
    also,
    help: advise(kind, stability, result, { least: 0 }),
  };
  const found = finding(key, STABILITY[key], parameters, place, pointAtCase(place, result));
  // A speed that nobody stated is no reason for an error.
  return parameters.intendedStated ? found : { ...found, severity: 'warning' };
}
