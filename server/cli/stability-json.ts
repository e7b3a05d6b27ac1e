import type { Handling } from '../../language/mechanics/stability/handling.ts';
import type { ItemSensitivity } from '../../language/mechanics/stability/items.ts';
import type { CriticalSpeed } from '../../language/mechanics/stability/sweep.ts';
import type { ReachStability } from '../../language/semantics/envelope/reach-stability.ts';
import type { SourceSensitivity, StabilityResult } from '../../language/semantics/stability/evaluate-stability.ts';
import { motionAt } from '../../language/semantics/stability/motion-at.ts';
import type { Source, StateResult } from '../../language/semantics/state.ts';
import { finite } from './finite.ts';
import type { FoundStability } from './stability-results.ts';

/** The stability of a rig as `output.schema.json` describes it, without name and place. */
export function stabilityJson({ stability, worst, reached, swinging, sensitivities }: FoundStability): object {
  const { results = [], speed = 0 } = stability ?? {};
  const loads = swinging && loadsBySource(swinging.state);
  return {
    intendedSpeed: finite(stability?.speed),
    problem: stability?.problem?.problem,
    results: results.map((result) => resultJson(result, speed)),
    leastDamped: worst === undefined ? undefined : results.indexOf(worst),
    leastDampedReachable: reached && reachedJson(reached, speed),
    sensitivitiesOf: swinging === undefined ? undefined : results.indexOf(swinging),
    sensitivities: sensitivities.map((each) => ({ ...sensitivityJson(each), loads: loads?.get(each.source) })),
  };
}

function reachedJson({ worst, tried, settled }: ReachStability, intended: number): object {
  return {
    sampled: true,
    statesTried: tried,
    settled,
    differences: worst?.witness.differences.map(({ text, presence }) => (presence ? `${presence} ${text}` : text)),
    result: worst && resultJson(worst.result, intended),
  };
}

/** Loads of couplings and of groups of axles, by their dotted names. */
const LOAD_NAME = /^[^.]+\.[^.]+\.load$/;

/** What each mass does to the loads on level road, from their influences: to those that it changes at all. */
function loadsBySource(state: StateResult): ReadonlyMap<Source, Readonly<Record<string, object>>> {
  const bySource = new Map<Source, Record<string, object>>();
  for (const name of state.quantities.keys()) {
    for (const { source, influence, slope } of (LOAD_NAME.test(name) ? state.load(name)?.terms : undefined) ?? []) {
      if ([influence, slope.x, slope.y, slope.z].every((value) => value === 0)) continue;
      const loads = bySource.get(source.id) ?? {};
      loads[name] = derivativesJson({ mass: influence, ...slope });
      bySource.set(source.id, loads);
    }
  }
  return bySource;
}

function resultJson(result: StabilityResult, intended: number): object {
  const { state, scenario, label, mode, sweep, zeroDamping, divergence, handling, alone, built } = result;
  return {
    case: state.case.name,
    label,
    road: {
      kind: scenario.kind,
      brakes: scenario.brakes,
      text: scenario.text,
      grade: scenario.field.grade,
      deceleration: scenario.field.deceleration,
    },
    folds: motionAt(result, intended)?.folds ?? false,
    dampingRatio: finite(mode?.damping),
    frequency: finite(mode?.frequency),
    motion: mode?.motion,
    unit: mode && state.rig.units[built.bodies.findIndex((body) => body >= mode.unit)]?.name,
    zeroDampingSpeed: criticalJson(zeroDamping),
    divergenceSpeed: criticalJson(divergence),
    understeer: handlingJson(handling),
    understeerAlone: handlingJson(alone),
    sweep: Array.from(sweep.speeds, (speed, i) => ({
      speed,
      dampingRatio: (sweep.frequency[i] ?? 0) > 0 ? finite(sweep.damping[i]) : undefined,
      frequency: (sweep.frequency[i] ?? 0) > 0 ? finite(sweep.frequency[i]) : undefined,
      growth: finite(sweep.growth[i]),
    })),
  };
}

function criticalJson(speed: CriticalSpeed): object {
  return { kind: speed.kind, speed: speed.kind === 'at' ? finite(speed.speed) : undefined };
}

function handlingJson(handling: Handling | undefined): object | undefined {
  if (handling === undefined) return undefined;
  return {
    gradient: handling.understeer,
    criticalSpeed: finite(handling.criticalSpeed),
    characteristicSpeed: finite(handling.characteristicSpeed),
  };
}

function sensitivityJson({ source, mass, damping, zeroDampingSpeed }: SourceSensitivity): object {
  return {
    name: source.name,
    kind: source.kind,
    mass,
    dampingRatio: derivativesJson(damping),
    zeroDampingSpeed: zeroDampingSpeed && derivativesJson(zeroDampingSpeed),
  };
}

function derivativesJson({ mass, x, y, z }: ItemSensitivity): object {
  return {
    perKilogram: finite(mass),
    perMetreForward: finite(x),
    perMetreLeft: finite(y),
    perMetreUp: finite(z),
  };
}
