import type { MassSource } from '../../mechanics/influence.ts';
import { equationsOf } from '../../mechanics/stability/equations.ts';
import type { TrainGradient } from '../../mechanics/stability/gradient.ts';
import type { Handling } from '../../mechanics/stability/handling.ts';
import { handlingOf } from '../../mechanics/stability/handling.ts';
import { type ItemSensitivity, itemSensitivities } from '../../mechanics/stability/items.ts';
import { leastDamped, type Mode, modesAt } from '../../mechanics/stability/modes.ts';
import { GREATEST_SPEED, isStabilityProblem, type StabilityProblem } from '../../mechanics/stability/problems.ts';
import { criticalSpeedSensitivityAt, dampingSensitivityAt } from '../../mechanics/stability/sensitivities.ts';
import { type CriticalSpeed, type SpeedSweep, sweepEquations } from '../../mechanics/stability/sweep.ts';
import type { SupportSolution } from '../../mechanics/statics.ts';
import { formatNumber } from '../../units/display.ts';
import type { Assumption, RigModel } from '../model.ts';
import type { RigResult, Source, StateResult } from '../state.ts';
import { type RigTyres, tyresOf } from './cornering.ts';
import { type LoadedScenario, loadScenario, scenariosOf } from './scenarios.ts';
import { type RigTrain, trainOf } from './train-of.ts';
import { handlingOfVehicleAlone, vehicleAloneLoads } from './vehicle-alone.ts';

/** Lateral stability of a rig in one case on one road. Linear, small angles; with the assumed tyres where none are given. */
export interface StabilityResult {
  readonly state: StateResult;
  readonly scenario: LoadedScenario;
  /** "case departing, down the 8 % grade, the vehicle braking alone". */
  readonly label: string;
  /** The least-damped swinging mode at the intended speed; undefined where nothing swings. */
  readonly mode?: Mode;
  /** Something grows without swinging at the intended speed: the rig folds or spins. */
  readonly folds: boolean;
  /** Damping ratio of all that moves at the intended speed: that of the mode, 1 where nothing swings, −1 where it folds. */
  readonly damping: number;
  /** Over the speeds looked at. */
  readonly sweep: SpeedSweep;
  readonly zeroDamping: CriticalSpeed;
  readonly divergence: CriticalSpeed;
  /** Of the tow vehicle with all it tows, and alone with the same masses; rad per m/s². */
  readonly handling?: Handling;
  readonly alone?: Handling;
  readonly built: RigTrain;
}

/** The stability of a rig: all cases on all roads, or why there is none. */
export interface RigStability {
  readonly rig: RigModel;
  /** m/s; the intended speed. */
  readonly speed: number;
  readonly results: readonly StabilityResult[];
  readonly problem?: StabilityProblem;
  readonly assumptions: readonly Assumption[];
}

/** m/s; taken where no speed is intended. */
export const USUAL_SPEED = 100 / 3.6;
/** Speeds looked at: from walking pace to well over what rigs travel. */
const LEAST_SPEED = 10 / 3.6;
const MOST_SPEED = 200 / 3.6;
const SPEEDS = 60;

/** Evaluates a rig that tows something; undefined for one that does not, or that has no loads. */
export function evaluateStability({ rig, states }: RigResult): RigStability | undefined {
  const level = states.filter(({ motion }) => motion.kind === 'level');
  if (rig.units[0]?.kind !== 'vehicle' || rig.units.length < 2 || level.length === 0) return undefined;
  const speed = rig.travel?.speed ?? USUAL_SPEED;
  const assumptions = new Map<string, Assumption>();
  const note = (assumption: Assumption) => assumptions.set(assumption.text, assumption);
  if (rig.travel?.speed === undefined) {
    note({
      text: `no intended speed stated: ${formatNumber(USUAL_SPEED * 3.6)} km/h taken`,
      basis: 'rule of the language',
      location: rig.location,
    });
  }
  const tyres = tyresOf(rig, level);
  for (const { assumptions: taken } of tyres.flat()) for (const assumption of taken) note(assumption);
  const results: StabilityResult[] = [];
  for (const scenario of scenariosOf(rig)) {
    const loaded = loadScenario(rig, scenario);
    if (loaded === undefined) continue;
    const alone = vehicleAloneLoads(rig, loaded);
    for (const state of level) {
      const built = trainOf(state, loaded, tyres);
      if (built === undefined) continue;
      for (const assumption of built.assumptions) note(assumption);
      const result = resultOn(state, loaded, built, tyres, speed, alone);
      if (isStabilityProblem(result))
        return { rig, speed, results: [], problem: result, assumptions: [...assumptions.values()] };
      results.push(result);
    }
  }
  return { rig, speed, results, assumptions: [...assumptions.values()] };
}

/**
 * The stability of a state on a road, from its train there and what its vehicle's supports carry without a trailer
 * (undefined where statics has no answer).
 */
export function resultOn(
  state: StateResult,
  scenario: LoadedScenario,
  built: RigTrain,
  tyres: RigTyres,
  speed: number,
  vehicleLoads: SupportSolution | undefined,
): StabilityResult | StabilityProblem {
  const equations = equationsOf(built.train);
  if (isStabilityProblem(equations)) return equations;
  const modes = modesAt(equations, speed);
  if (isStabilityProblem(modes)) return modes;
  const sweep = sweepEquations(equations, {
    least: LEAST_SPEED,
    most: Math.min(GREATEST_SPEED, Math.max(MOST_SPEED, speed * 1.5)),
    points: SPEEDS,
  });
  if (isStabilityProblem(sweep)) return sweep;
  const handling = handlingOf(built.train, speed);
  const alone = vehicleLoads && handlingOfVehicleAlone(state, built, tyres[0] ?? [], vehicleLoads);
  const mode = leastDamped(modes);
  const folds = modes.some(({ eigenvalue, frequency }) => frequency === 0 && eigenvalue.real > 0);
  return {
    state,
    scenario,
    label: `${state.label}, ${scenario.text}`,
    folds,
    damping: folds ? -1 : (mode?.damping ?? 1),
    sweep,
    zeroDamping: sweep.zeroDamping,
    divergence: sweep.divergence,
    built,
    ...(mode ? { mode } : {}),
    ...(handling !== undefined && !isStabilityProblem(handling) ? { handling } : {}),
    ...(alone ? { alone } : {}),
  };
}

/** How damping at the intended speed and the zero-damping speed answer to each mass of the rig. */
export interface SourceSensitivity {
  readonly source: Source;
  /** kg */
  readonly mass: number;
  /** Of the damping ratio: per kg, and per metre moved ahead, left, up. */
  readonly damping: ItemSensitivity;
  /** Of the zero-damping speed, m/s: the same; undefined where there is none in the range looked at. */
  readonly zeroDampingSpeed?: ItemSensitivity;
}

/** Sensitivities of one result to every source of its state, in the order of the sources. */
export function sensitivitiesOf(result: StabilityResult, speed: number): readonly SourceSensitivity[] {
  const { built, state } = result;
  const equations = equationsOf(built.train);
  if (isStabilityProblem(equations)) return [];
  const damping = dampingSensitivityAt(equations, speed);
  if (damping === undefined || isStabilityProblem(damping)) return [];
  const critical =
    result.zeroDamping.kind === 'at'
      ? criticalSpeedSensitivityAt(equations, result.zeroDamping.speed, true)
      : undefined;
  const own = answersOf(built, damping.gradient, state.sources);
  const speeds =
    critical === undefined || isStabilityProblem(critical)
      ? undefined
      : answersOf(built, critical.gradient, state.sources);
  return state.sources.flatMap(({ id, mass }, index) => {
    const each = own[index];
    const zero = speeds?.[index];
    return each === undefined ? [] : [{ source: id, mass, damping: each, ...(zero ? { zeroDampingSpeed: zero } : {}) }];
  });
}

/** How the speed that the rig folds from (m/s) answers to a mass. */
export interface FoldSensitivity {
  readonly source: Source;
  /** kg */
  readonly mass: number;
  readonly foldSpeed: ItemSensitivity;
}

/**
 * Sensitivities of the speed that a result folds from, to every source of its state. Empty where it does not fold in the
 * range looked at, folds in all of it, or where a growing swing turns into a fold.
 */
export function foldSensitivitiesOf(result: StabilityResult): readonly FoldSensitivity[] {
  const { built, state, divergence } = result;
  const equations = equationsOf(built.train);
  if (divergence.kind !== 'at' || isStabilityProblem(equations)) return [];
  const critical = criticalSpeedSensitivityAt(equations, divergence.speed, false);
  if (critical === undefined || isStabilityProblem(critical)) return [];
  const answers = answersOf(built, critical.gradient, state.sources);
  return state.sources.flatMap(({ id, mass }, index) => {
    const foldSpeed = answers[index];
    return foldSpeed === undefined ? [] : [{ source: id, mass, foldSpeed }];
  });
}

/** What a gradient over a train comes to for every one of `sources`, on board or not, in their order. */
export function answersOf(
  { bodies, totals, loadings }: RigTrain,
  gradient: TrainGradient,
  sources: readonly MassSource<Source>[],
): readonly ItemSensitivity[] {
  const masses = sources.map(({ unit, mass, centre, id }) => ({
    unit: bodies[unit] ?? unit,
    mass,
    centre,
    yawInertia: id.body.inertia.zz,
  }));
  return itemSensitivities(gradient, totals, loadings, masses);
}
