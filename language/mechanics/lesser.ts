import { type Choice, type FreeMass, greatestLoad, valueAt } from './envelope.ts';
import { blendInfluences, type Influence } from './influence.ts';

/** How great the lesser of two loads can be. */
export interface GreatestLesser {
  /** What it is in the state found, kg. */
  readonly value: number;
  readonly witness: readonly Choice[];
  /** It is more than that in no state; what it is in the state found, but for rounding, where that is exact. */
  readonly bound: number;
}

/** Steps of the weight; it takes finitely many, mostly a handful. */
const MOST_STEPS = 60;

/**
 * The greatest that the lesser of two loads can be over everything that the masses can be: both are positive in some state only
 * if it is.
 *
 * Whatever the weight t from 0 to 1 is, the lesser is at most t·a + (1 − t)·b, a load, of which the greatest value is known
 * exactly. The least of these bounds over t is convex and found by cutting planes (where the lines of two states cross, the
 * state that is greatest there takes the place of one of them). At that t the states on either side are both greatest, and so is
 * every mix of them mass by mass: the mix in which both loads are equal takes the bound. It exists unless the mass that
 * would have to be in between comes in steps; the bound then is a bound only.
 */
export function greatestLesser(a: Influence, b: Influence, masses: readonly FreeMass[]): GreatestLesser {
  const at = (witness: readonly Choice[]): State => {
    const [ofA, ofB] = [valueAt(a, witness), valueAt(b, witness)];
    return { witness, a: ofA, b: ofB, value: Math.min(ofA, ofB) };
  };
  const most = (weight: number) => at(greatestLoad(blendInfluences(a, weight, b, 1 - weight), masses).witness);
  let [low, high] = [most(0), most(1)];
  if (low.a >= low.b) return { ...low, bound: low.value };
  if (high.b >= high.a) return { ...high, bound: high.value };
  let bound = Math.min(low.b, high.a);
  for (let step = 0; step < MOST_STEPS; step++) {
    const weight = (low.b - high.b) / (low.b - high.b + (high.a - low.a));
    const crossing = weight * low.a + (1 - weight) * low.b;
    const next = most(weight);
    const value = weight * next.a + (1 - weight) * next.b;
    bound = Math.min(bound, Math.max(value, crossing));
    if (!(value > crossing + ROUNDING * Math.max(1, Math.abs(crossing)))) break;
    if (next.a < next.b) low = next;
    else high = next;
  }
  const isMixed = ({ between }: FreeMass) => between !== undefined;
  const orders = [
    masses.toSorted((one, other) => Number(isMixed(one)) - Number(isMixed(other))),
    masses.toSorted((one, other) => Number(isMixed(other)) - Number(isMixed(one))),
  ].map((order) => order.map((mass) => masses.indexOf(mass)));
  const found = [low, high, ...orders.flatMap((order) => mixes(masses, order, low, high, at))];
  const best = found.reduce((one, other) => (other.value > one.value ? other : one));
  return { ...best, bound: Math.max(bound, best.value) };
}

/** Share of a load that is rounding. */
const ROUNDING = 1e-12;

interface State {
  readonly witness: readonly Choice[];
  readonly a: number;
  readonly b: number;
  readonly value: number;
}

/**
 * From a state in which the first load is the lesser, mass by mass, to one in which it is not: the states around where both are
 * equal.
 */
function mixes(
  masses: readonly FreeMass[],
  order: readonly number[],
  from: State,
  to: State,
  at: (witness: readonly Choice[]) => State,
): readonly State[] {
  let before = from;
  for (const index of order) {
    const [own, other] = [from.witness[index], to.witness[index]];
    if (own === undefined || other === undefined || own === other) continue;
    const replaced = (choice: Choice) => at(before.witness.with(index, choice));
    const after = replaced(other);
    if (after.a < after.b) {
      before = after;
      continue;
    }
    const [short, over] = [before.b - before.a, after.a - after.b];
    const middle = masses[index]?.between?.(own, other, short / (short + over));
    return middle === undefined ? [before, after] : [before, replaced(middle), after];
  }
  return [];
}
