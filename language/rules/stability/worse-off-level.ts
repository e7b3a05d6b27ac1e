import { finding } from '../../diagnostics/create.ts';
import { STABILITY } from '../../diagnostics/stability.ts';
import type { StabilityResult } from '../../semantics/stability/evaluate-stability.ts';
import { advise } from './help.ts';
import {
  basisOf,
  criticalSpeed,
  highestSpeed,
  INSTABILITIES,
  type Instability,
  lowestOf,
  onTheLevel,
  pointAtCase,
  speedPlace,
  swingingUnit,
} from './results.ts';
import type { StabilityRule } from './rule.ts';

/** A critical speed at least a tenth lower than on the level is worth a word. Common practice, no source. */
const WORSE = 0.9;
/** Where it still is this many times the intended speed, nothing is said. Common practice, no source. */
const AMPLE = 1.5;

interface Critical {
  readonly kind: Instability;
  readonly speed: number;
}

/** Grades and ways of braking in which the rig becomes unstable at a clearly lower speed than on the level. */
export const worseOffLevel: StabilityRule = {
  keys: ['worse-off-level'],
  *check(stability) {
    const { rig, speed, results } = stability;
    const levels = new Map(results.filter(onTheLevel).map((result) => [result.state.case, result]));
    const worse = results.filter((result) => {
      const level = levels.get(result.state.case);
      if (level === undefined || onTheLevel(result)) return false;
      const onLevel = lowest(level)?.speed ?? highestSpeed(level);
      return onLevel > speed && (lowest(result)?.speed ?? Number.POSITIVE_INFINITY) <= WORSE * onLevel;
    });
    const worst = lowestOf(worse, (result) => lowest(result)?.speed, AMPLE * speed);
    const kind = worst && lowest(worst.result)?.kind;
    const level = worst && levels.get(worst.result.state.case);
    if (worst === undefined || kind === undefined || level === undefined) return;
    const { result, by: from, also } = worst;
    const place = speedPlace(stability, result);
    const parameters = {
      subject: kind === 'swinging' ? swingingUnit(result) : rig.name,
      kind,
      from,
      intended: speed,
      level: lowest(level)?.speed ?? highestSpeed(level),
      levelReached: lowest(level) !== undefined,
      ...basisOf(stability),
      state: result.label,
      also,
      help: advise(kind, stability, result),
    };
    yield finding('worse-off-level', STABILITY['worse-off-level'], parameters, place, pointAtCase(place, result));
  },
};

/** What comes first as the speed rises. */
function lowest(result: StabilityResult): Critical | undefined {
  let first: Critical | undefined;
  for (const kind of INSTABILITIES) {
    const speed = criticalSpeed(result, kind);
    if (speed !== undefined && (first === undefined || speed < first.speed)) first = { kind, speed };
  }
  return first;
}
