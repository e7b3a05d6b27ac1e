import { type Influence, influenceAt } from './influence.ts';
import type { Position } from './vector.ts';

/** A mass (kg) at a place (m) in the frame of a unit, which goes by its index. */
export interface PlacedMass {
  readonly unit: number;
  readonly mass: number;
  readonly centre: Position;
  /** As of sources: what sort of mass it is. */
  readonly sort?: string;
}

/** What there is of something in one of its states: nothing, one mass, or several that come and go together. */
export type Choice = readonly PlacedMass[];

/** A liquid whose centre rises as its tank is filled: what the corners do not tell. */
export interface Filling {
  /** The tank with its content at a mass between its bounds. */
  readonly at: (mass: number) => PlacedMass;
  /** The mass at which the surface stands at a height (m in the unit's frame), within the bounds. */
  readonly withSurfaceAt: (height: number) => number;
}

/** Something of a rig that is not one mass at one place: a tank, something optional, something toleranced. */
export interface FreeMass {
  /** Every corner of its mass, presence and place; one for a mass that is certain. */
  readonly choices: readonly Choice[];
  /**
   * More corners, each a sum of pieces that are where they are independently of each other: of every piece each choice. For what
   * has too many corners to list.
   */
  readonly sums?: readonly (readonly (readonly Choice[])[])[];
  /** A tank's, where its centre moves with its level: one for each density or capacity it can have. */
  readonly fillings?: readonly Filling[];
  /**
   * What lies between two of its choices, so far from the first to the second (0 to 1), where it can be anything in between:
   * loads that count no heights are in proportion there. Undefined for two choices between which there is nothing.
   */
  readonly between?: (from: Choice, to: Choice, share: number) => Choice | undefined;
}

/** A figure that depends on all masses: a load (no denominator), or the ratio of two loads, the lower one positive. */
export interface Figure {
  readonly numerator: Influence;
  readonly denominator?: Influence;
}

/** A value that a figure takes, with what every mass is there (by its index). */
export interface Extreme {
  readonly value: number;
  readonly witness: readonly Choice[];
}

export interface Extremes {
  readonly least: Extreme;
  readonly most: Extreme;
}

/** Newton steps of a ratio; a handful is usual. */
const MOST_STEPS = 60;

/**
 * The exact least and greatest value of a figure over everything that the masses can be, each with a state that takes it.
 * Undefined if the lower load of a ratio can be 0 or less: the ratio then has no bounds.
 *
 * A load is a constant plus one term for each mass, and a term is multilinear in mass, presence and place: it is extreme at
 * a corner, whatever the other masses are, so that no combination of corners has to be tried. A ratio N/D is greatest at
 * the λ for which the greatest N − λ·D is 0; N − λ·D is a load. Newton's method on that function of λ (Dinkelbach's
 * iteration: λ ← N/D at the choice that makes N − λ·D greatest) rises from any λ that is taken, since the function is convex and
 * falling, and ends after finitely many steps, because every step but the last finds another of finitely many choices;
 * convergence is faster than linear (W. Dinkelbach, Management Science 13 (1967) 492–498, from memory). Of a tank whose
 * content rises with its level, mass times height is convex in the mass, its slope being the height of the surface: the term
 * is extreme at an end, or where the surface stands where the term's slope is 0; the steps then converge as Newton's do.
 */
export function findExtremes(figure: Figure, masses: readonly FreeMass[]): Extremes | undefined {
  const most = findGreatest(figure, masses, 1);
  const least = findGreatest(figure, masses, -1);
  return most === undefined || least === undefined ? undefined : { least, most };
}

/** The exact greatest value of a load over everything that the masses can be, with a state that takes it. */
export function greatestLoad(load: Influence, masses: readonly FreeMass[]): Extreme {
  return extremeLoad(load, masses, 1);
}

/** Whether a load is more than nothing in every state. */
export function isAlwaysPositive(load: Influence, masses: readonly FreeMass[]): boolean {
  return extremeLoad(load, masses, -1).value > 0;
}

function extremeLoad(load: Influence, masses: readonly FreeMass[], sign: 1 | -1): Extreme {
  const term = termOf(load, undefined, 0, sign);
  const witness = masses.map((mass) => bestChoice(mass, term));
  return { value: valueAt(load, witness), witness };
}

function findGreatest(
  { numerator, denominator }: Figure,
  masses: readonly FreeMass[],
  sign: 1 | -1,
): Extreme | undefined {
  if (denominator === undefined) return extremeLoad(numerator, masses, sign);
  const smallest = extremeLoad(denominator, masses, -1);
  if (!(smallest.value > 0)) return undefined;
  let { witness } = smallest;
  let value = valueAt(numerator, witness) / valueAt(denominator, witness);
  for (let step = 0; step < MOST_STEPS; step++) {
    const term = termOf(numerator, denominator, value, sign);
    const next = masses.map((mass) => bestChoice(mass, term));
    const better = valueAt(numerator, next) / valueAt(denominator, next);
    if (!(sign * (better - value) > 0)) break;
    witness = next;
    value = better;
  }
  return { value, witness };
}

/** What something adds to sign·(N − λ·D): `at` of a choice; of a tank, also the slope by height. */
interface Term {
  readonly at: (choice: Choice) => number;
  /** Slope per kg at a surface height of 0, and per metre of it. */
  readonly level: (placed: PlacedMass) => { readonly base: number; readonly perHeight: number };
}

function termOf(numerator: Influence, denominator: Influence | undefined, factor: number, sign: 1 | -1): Term {
  const perKilogram = ({ unit, centre, sort }: PlacedMass, at = centre) => {
    const below = denominator === undefined ? 0 : factor * influenceAt(denominator, unit, at, sort);
    return sign * (influenceAt(numerator, unit, at, sort) - below);
  };
  return {
    at: (choice) => {
      let value = 0;
      for (const placed of choice) value += placed.mass * perKilogram(placed);
      return value;
    },
    level: (placed) => {
      const base = perKilogram(placed, { ...placed.centre, z: 0 });
      return { base, perHeight: perKilogram(placed, { ...placed.centre, z: 1 }) - base };
    },
  };
}

function bestChoice({ choices, sums, fillings }: FreeMass, term: Term): Choice {
  let best = bestOf(choices, term);
  if (sums === undefined && fillings === undefined) return best;
  let greatest = term.at(best);
  const consider = (choice: Choice): void => {
    const value = term.at(choice);
    if (!(value > greatest)) return;
    best = choice;
    greatest = value;
  };
  for (const pieces of sums ?? []) consider(pieces.flatMap((piece) => bestOf(piece, term)));
  for (const { at, withSurfaceAt } of fillings ?? []) {
    const { base, perHeight } = term.level(at(withSurfaceAt(0)));
    // Convex in the mass where it grows with height: no more than its ends.
    if (perHeight < 0) consider([at(withSurfaceAt(-base / perHeight))]);
  }
  return best;
}

function bestOf(choices: readonly Choice[], term: Term): Choice {
  let best = choices[0] ?? [];
  if (choices.length < 2) return best;
  let greatest = term.at(best);
  for (let index = 1; index < choices.length; index++) {
    const choice = choices[index] ?? [];
    const value = term.at(choice);
    if (!(value > greatest)) continue;
    best = choice;
    greatest = value;
  }
  return best;
}

/** A load when everything is as chosen. */
export function valueAt(influence: Influence, choices: readonly Choice[]): number {
  let value = influence.constant;
  for (const choice of choices) {
    for (const { unit, mass, centre, sort } of choice) value += mass * influenceAt(influence, unit, centre, sort);
  }
  return value;
}

/** How far a place may be from what is stated: half widths, m. */
export interface PlaceTolerance {
  readonly x?: number;
  readonly y?: number;
  readonly z?: number;
}

/** Every corner of a place with tolerances, as steps from it, m. */
export function cornerSteps({ x = 0, y = 0, z = 0 }: PlaceTolerance = {}): readonly Position[] {
  const ends = (half: number) => (half > 0 ? [-half, half] : [0]);
  return ends(x).flatMap((px) => ends(y).flatMap((py) => ends(z).map((pz) => ({ x: px, y: py, z: pz }))));
}

/** Every corner of a mass between `least` and `most` kg at a place of a unit with tolerances; nothing at all too if it is optional. */
export function cornersOf(
  { centre, ...placed }: Omit<PlacedMass, 'mass'>,
  [least, most]: readonly [number, number],
  around: PlaceTolerance = {},
  optional = false,
): Choice[] {
  const masses = most > least ? [least, most] : [least];
  const steps = cornerSteps(around);
  const corners = masses.flatMap((mass) =>
    steps.map((step): Choice => [{ ...placed, mass, centre: shifted(centre, step) }]),
  );
  return optional ? [[], ...corners] : corners;
}

export function shifted(centre: Position, step: Position): Position {
  return { x: centre.x + step.x, y: centre.y + step.y, z: centre.z + step.z };
}

/** Whether two choices are the same masses at the same places. */
export function isSameChoice(a: Choice, b: Choice): boolean {
  if (a === b) return true;
  return (
    a.length === b.length &&
    a.every(({ unit, mass, centre }, index) => {
      const other = b[index];
      if (other === undefined || other.unit !== unit || !isNear(mass, other.mass)) return false;
      return (['x', 'y', 'z'] as const).every((axis) => isNear(centre[axis], other.centre[axis]));
    })
  );
}

const isNear = (a: number, b: number): boolean => Math.abs(a - b) <= 1e-12 * Math.max(1, Math.abs(a));
