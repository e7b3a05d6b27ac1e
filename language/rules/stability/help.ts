import { dampingText, inDegreesPerG } from '../../diagnostics/stability-wording.ts';
import { STANDARD_GRAVITY } from '../../mechanics/combination.ts';
import { evaluateLoadValue, influenceAt, type MassSource } from '../../mechanics/influence.ts';
import type { Train } from '../../mechanics/stability/train.ts';
import { systemOfRig } from '../../semantics/display-system.ts';
import type { StabilityResult } from '../../semantics/stability/evaluate-stability.ts';
import type { Source } from '../../semantics/state.ts';
import { type DisplaySystem, formatLength, formatMass } from '../../units/display.ts';
import { ROUND_STEPS } from '../../units/round-steps.ts';
import { admissibility, type MassChange } from '../admissible.ts';
import { usualShareIn } from '../markets/coupling-bands.ts';
import { compareNames } from '../places.ts';
import { influenceOf } from '../states.ts';
import { easiestFirst, isBuiltIn, isMovable } from './ease.ts';
import { rankedMoves } from './first-moves.ts';
import { dampingOf, trialTrain, understeerOf } from './trial.ts';

/** One thing moved along its unit, ahead positive (m), or left behind where there is no distance. */
interface Attempt {
  readonly source: MassSource<Source>;
  readonly distance?: number;
}

interface Outcome extends Attempt {
  readonly train: Train;
  /** In the figure wanted. */
  readonly gain: number;
}

/** What is proposed first, in round steps, where the body lets it: far enough to be felt, found in any trailer. */
const STEPS_FAR = 5;
/** As many of the most promising moves are looked at more closely. */
const MOST_TRIED = 8;
/** Less damping ratio than this is not worth a word, nor less understeer (rad per m/s²: 0.05 degrees per g). */
const WORTH_DAMPING = 0.001;
const WORTH_UNDERSTEER = (0.05 * Math.PI) / 180 / STANDARD_GRAVITY;

/**
 * What would help the damping at `speed` m/s most, in one sentence: "Moving generator (41 kg) 500 mm ahead adds 0.008 to
 * the damping ratio." By the ranking of first moves, computed anew for the whole distance; else what would best stay
 * behind, or what is built in if that does far more. Nothing is proposed that breaks another limit, takes a coupling
 * out of its usual share or makes the vehicle oversteer.
 */
export function helpDamping(result: StabilityResult, speed: number): string | undefined {
  const now = dampingOf(result.built.train, speed);
  if (now === undefined) return undefined;
  const isAdmissible = admissible(result);
  const steersNow = understeerOf(result.built.train, speed) ?? 0;
  const judge = (attempt: Attempt): Outcome[] => {
    if (!isAdmissible(attempt)) return [];
    const train = trialTrain(result.built, attempt.source, attempt.distance);
    const gain = (dampingOf(train, speed) ?? now) - now;
    const turnsOver = steersNow >= 0 && (understeerOf(train, speed) ?? 0) < 0;
    return gain >= WORTH_DAMPING && !turnsOver ? [{ ...attempt, train, gain }] : [];
  };
  const moved = promising(result, speed).flatMap(judge);
  const isEasy = moved.some(({ source }) => !isBuiltIn(source.id.kind));
  const [best] = inOrder(isEasy ? moved : [...moved, ...leavings(result, speed).flatMap(judge)]);
  return best && `${tell(best, systemOfRig(result.state.rig))} adds ${dampingText(best.gain)} to the damping ratio.`;
}

/**
 * What would most reduce the oversteer of the vehicle with its trailer on, in one sentence: "Moving generator (41 kg) 500
 * mm ahead adds 0.12 deg/g of understeer." Nothing is proposed that costs damping at `speed` m/s.
 */
export function helpUndersteer(result: StabilityResult, speed: number): string | undefined {
  const now = understeerOf(result.built.train, speed);
  const dampedNow = dampingOf(result.built.train, speed);
  if (now === undefined || dampedNow === undefined) return undefined;
  const isAdmissible = admissible(result);
  const bestOf = (attempts: readonly Attempt[]): Outcome | undefined =>
    inOrder(
      attempts
        .map((attempt): Outcome => {
          const train = trialTrain(result.built, attempt.source, attempt.distance);
          return { ...attempt, train, gain: (understeerOf(train, speed) ?? now) - now };
        })
        .filter(({ gain }) => gain >= WORTH_UNDERSTEER),
    ).find((outcome) => isAdmissible(outcome) && (dampingOf(outcome.train, speed) ?? 0) >= dampedNow);
  const best = bestOf(steeringMoves(result, speed, now)) ?? bestOf(heaviestStowed(result));
  return best && `${tell(best, systemOfRig(result.state.rig))} adds ${inDegreesPerG(best.gain)} of understeer.`;
}

/** What is easy before what is not, as first moves are ranked. */
function inOrder(outcomes: readonly Outcome[]): readonly Outcome[] {
  return easiestFirst(outcomes, ({ source, gain }) => ({ kind: source.id.kind, name: source.id.name, gain }));
}

function tell({ source, distance }: Attempt, system: DisplaySystem): string {
  const { stowed, name } = source.id;
  const count = stowed === undefined || stowed.count === 1 ? '' : `${stowed.count} x `;
  const words = `${count}${stowed === undefined ? name : stowed.item.name} (${formatMass(source.mass, system)})`;
  if (distance === undefined) return `Leaving ${words} behind`;
  return `Moving ${words} ${formatLength(Math.abs(distance), system)} ${distance > 0 ? 'ahead' : 'back'}`;
}

/** The first moves, ahead or back, each as far as its unit's body lets it go. */
function promising(result: StabilityResult, speed: number): Attempt[] {
  return rankedMoves(result, speed)
    .slice(0, MOST_TRIED)
    .flatMap(({ source, direction }) => {
      const placed = result.state.sources.find(({ id }) => id === source);
      return placed === undefined ? [] : reachable(result, placed, direction === 'ahead' ? 1 : -1);
    });
}

/**
 * Moves that make the vehicle understeer more, the most promising first. Steady turning knows masses by their loads
 * alone, so that one trial tells the direction, and the worth of a kilogram-metre, for all of a unit.
 */
function steeringMoves(result: StabilityResult, speed: number, now: number): Attempt[] {
  const movable = result.state.sources.filter(({ id, mass }) => isMovable(id.kind) && mass > 0);
  const { length: near } = ROUND_STEPS[systemOfRig(result.state.rig)];
  const attempts = result.state.rig.units.flatMap((_, unit) => {
    // Within a unit the worth of a move goes with the mass.
    const own = easiestFirst(
      movable.filter((source) => source.unit === unit),
      rankByMass,
    );
    const [probe] = own;
    if (probe === undefined) return [];
    const gain = (understeerOf(trialTrain(result.built, probe, near), speed) ?? now) - now;
    const worth = Math.abs(gain) / (probe.mass * near);
    return own
      .slice(0, MOST_TRIED)
      .flatMap((source) => reachable(result, source, gain > 0 ? 1 : -1))
      .map((attempt) => ({ attempt, worth: worth * attempt.source.mass * Math.abs(attempt.distance ?? 0) }));
  });
  return easiestFirst(attempts, ({ attempt: { source }, worth }) => ({
    kind: source.id.kind,
    name: source.id.name,
    gain: worth,
  }))
    .slice(0, MOST_TRIED)
    .map(({ attempt }) => attempt);
}

const rankByMass = ({ id, mass }: MassSource<Source>) => ({ kind: id.kind, name: id.name, gain: mass });

function heaviestFirst(a: MassSource<Source>, b: MassSource<Source>): number {
  return b.mass - a.mass || compareNames(a.id.name, b.id.name);
}

function reachable({ state }: StabilityResult, source: MassSource<Source>, sign: 1 | -1): Attempt[] {
  const body = state.rig.units[source.unit]?.body;
  const { length } = ROUND_STEPS[systemOfRig(state.rig)];
  const distance = [STEPS_FAR * length, length].find((step) => {
    const x = source.centre.x + sign * step;
    return body === undefined || (x <= body.front && x >= body.rear);
  });
  return distance === undefined ? [] : [{ source, distance: sign * distance }];
}

function heaviestStowed({ state }: StabilityResult): Attempt[] {
  return state.sources
    .filter(({ id }) => id.stowed !== undefined)
    .sort(heaviestFirst)
    .slice(0, MOST_TRIED)
    .map((source) => ({ source }));
}

/** What is stowed and does harm where it is, the worst first. */
function leavings(result: StabilityResult, speed: number): Attempt[] {
  return rankedMoves(result, speed)
    .map(({ source, mass, perKilogram }) => ({ source, harm: mass * perKilogram.damping }))
    .filter(({ source, harm }) => source.stowed !== undefined && harm > 0)
    .sort((a, b) => b.harm - a.harm || compareNames(a.source.name, b.source.name))
    .slice(0, MOST_TRIED)
    .flatMap(({ source }) => {
      const placed = result.state.sources.find(({ id }) => id === source);
      return placed === undefined ? [] : [{ source: placed }];
    });
}

/** Tells whether a move breaks no limit of the rig and takes no coupling out of its usual share. */
function admissible({ state }: StabilityResult): (attempt: Attempt) => boolean {
  const withinLimits = admissibility(state);
  const couplings = state.rig.units.flatMap((unit, index) => {
    const usual = usualShareIn(state.rig, unit);
    const load = influenceOf(state, [`${unit.name}.coupling.load`]);
    const mass = state.units[index]?.mass ?? 0;
    if (usual === undefined || load === undefined || mass <= 0) return [];
    return [{ usual, load, index, mass, value: evaluateLoadValue(load, state.sources) }];
  });
  return ({ source, distance }) => {
    const { unit, centre, mass } = source;
    const changes: MassChange[] = [{ mass: -mass, place: { unit, centre } }];
    if (distance !== undefined) changes.push({ mass, place: { unit, centre: { ...centre, x: centre.x + distance } } });
    const staysUsual = couplings.every(({ usual, load, index, mass: whole, value }) => {
      const rise = changes.reduce((sum, change) => sum + change.mass * influenceAt(load, unit, change.place.centre), 0);
      const left = distance === undefined && unit === index ? whole - mass : whole;
      const before = value / whole;
      const after = left > 0 ? (value + rise) / left : 0;
      return after >= Math.min(before, usual.least) && after <= Math.max(before, usual.most);
    });
    return staysUsual && withinLimits(changes);
  };
}
