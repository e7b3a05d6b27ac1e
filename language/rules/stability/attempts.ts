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
import { easiestFirst, isMovable } from './ease.ts';
import { rankedMoves } from './first-moves.ts';
import { trialTrain, understeerOf } from './trial.ts';

/** One thing moved along its unit, ahead positive (m), or left behind where there is no distance. */
export interface Attempt {
  readonly source: MassSource<Source>;
  readonly distance?: number;
}

export interface Outcome extends Attempt {
  readonly train: Train;
  /** In the figure wanted. */
  readonly gain: number;
}

/** What is proposed first, in round steps, where the body lets it: far enough to be felt, found in any trailer. */
const STEPS_FAR = 5;
/** As many of the most promising moves are looked at more closely. */
const MOST_TRIED = 8;
/** What is easy before what is not, as first moves are ranked. */
export function inOrder(outcomes: readonly Outcome[]): readonly Outcome[] {
  return easiestFirst(outcomes, ({ source, gain }) => ({ kind: source.id.kind, name: source.id.name, gain }));
}

/** `Moving generator (41 kg) 500 mm ahead`, `Leaving generator (41 kg) behind`. */
export function tell({ source, distance }: Attempt, system: DisplaySystem): string {
  const { stowed, name } = source.id;
  const count = stowed === undefined || stowed.count === 1 ? '' : `${stowed.count} x `;
  const words = `${count}${stowed === undefined ? name : stowed.item.name} (${formatMass(source.mass, system)})`;
  if (distance === undefined) return `Leaving ${words} behind`;
  return `Moving ${words} ${formatLength(Math.abs(distance), system)} ${distance > 0 ? 'ahead' : 'back'}`;
}

/** The first moves, ahead or back, each as far as its unit's body lets it go. */
export function promising(result: StabilityResult, speed: number): Attempt[] {
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
export function steeringMoves(result: StabilityResult, speed: number, now: number): Attempt[] {
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

/** What is stowed, left behind: the heaviest first. */
export function heaviestStowed({ state }: StabilityResult): Attempt[] {
  return state.sources
    .filter(({ id }) => id.stowed !== undefined)
    .sort(heaviestFirst)
    .slice(0, MOST_TRIED)
    .map((source) => ({ source }));
}

/** What is stowed and does harm where it is, the worst first. */
export function leavings(result: StabilityResult, speed: number): Attempt[] {
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
export function admissible({ state }: StabilityResult): (attempt: Attempt) => boolean {
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
