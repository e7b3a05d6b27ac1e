import type { Sample, Sampler } from './samples.ts';

/** Where a motion that died out begins to grow, or the other way round, as speed rises. */
export interface Crossing {
  /** m/s */
  readonly speed: number;
  /** Swinging: a complex pair crosses the imaginary axis. Else a real eigenvalue passes 0. */
  readonly swinging: boolean;
  /** Whether it grows above that speed. */
  readonly growsAbove: boolean;
  /** Hz; 0 if it does not swing. */
  readonly frequency: number;
}

/** Splits of an interval that holds more than one root; each halves it. */
const MOST_SPLITS = 40;

/** Steps towards a root; a dozen are usual. */
const MOST_STEPS = 60;

/** Relative distance of two speeds that are one. */
const RESOLUTION = 1e-14;

/** Relative to the greatest |λ|: an imaginary part below it, where the real part is 0, belongs to a real eigenvalue. */
const STANDING = 1e-7;

/**
 * Every speed at which stability changes within the range of the samples (by rising speed), rising.
 *
 * Sorted by size, the real parts of all eigenvalues are continuous in speed, and stability changes where one of them is
 * 0. A change of the number of growing eigenvalues between two samples brackets a root; it is refined, and when it does
 * not explain the change (one real eigenvalue, or one pair) the interval is halved. Two roots between neighbouring
 * samples, in and out again, show as a maximum or minimum close to 0, which is followed to its top.
 */
export function findCrossings(sampler: Sampler, samples: readonly Sample[]): Crossing[] {
  const crossings: Crossing[] = [];
  for (let i = 0; i + 1 < samples.length; i++) {
    const a = samples[i];
    const b = samples[i + 1];
    if (a === undefined || b === undefined) continue;
    const turn = a.growing === b.growing ? hiddenTurn(sampler, samples[i - 1], a, b, samples[i + 2]) : undefined;
    if (turn === undefined) {
      search(sampler, a, b, crossings, 0);
    } else {
      search(sampler, a, turn, crossings, 0);
      search(sampler, turn, b, crossings, 0);
    }
  }
  return crossings;
}

function search(sampler: Sampler, a: Sample, b: Sample, crossings: Crossing[], depth: number): void {
  const change = b.growing - a.growing;
  if (change === 0) return;
  if (Math.abs(change) <= 2 || depth === MOST_SPLITS) {
    const index = Math.min(a.growing, b.growing);
    const root = refine(sampler, a, b, index);
    if (root === undefined) return;
    const found = classify(root, index, change > 0);
    if (found.swinging === (Math.abs(change) === 2) || depth === MOST_SPLITS) {
      crossings.push(found);
      return;
    }
  }
  const middle = sampler(0.5 * (a.speed + b.speed));
  if (middle === undefined) return;
  search(sampler, a, middle, crossings, depth + 1);
  search(sampler, middle, b, crossings, depth + 1);
}

function classify({ speed, imaginary, magnitude }: Sample, index: number, growsAbove: boolean): Crossing {
  const im = imaginary[index] ?? 0;
  const swinging = im > STANDING * magnitude;
  return { speed, swinging, growsAbove, frequency: swinging ? im / (2 * Math.PI) : 0 };
}

/** The root of the real part at `index` in the sorted order between two samples, by the Illinois method. */
function refine(sampler: Sampler, a: Sample, b: Sample, index: number): Sample | undefined {
  let [x0, f0, x1, f1] = [a.speed, a.real[index] ?? 0, b.speed, b.real[index] ?? 0];
  let best = Math.abs(f0) < Math.abs(f1) ? a : b;
  // An end within rounding of 0 is the root.
  if (f0 * f1 >= 0) return best;
  let last = 0;
  for (let step = 0; step < MOST_STEPS; step++) {
    const x = x1 - (f1 * (x1 - x0)) / (f1 - f0);
    const sample = sampler(x);
    if (sample === undefined) return undefined;
    const f = sample.real[index] ?? 0;
    if (Math.abs(f) < Math.abs(best.real[index] ?? 0)) best = sample;
    if (Math.abs(f) <= 1e-16 * sample.magnitude) return best;
    const side = Math.sign(f);
    if (f * f1 < 0) {
      x0 = x1;
      f0 = f1;
    } else if (side === last) {
      f0 *= 0.5;
    }
    last = side;
    x1 = x;
    f1 = f;
    if (Math.abs(x1 - x0) <= RESOLUTION * x1) return best;
  }
  return best;
}

/** A sample between a and b at which another number of eigenvalues grows, though as many do at both ends. */
function hiddenTurn(
  sampler: Sampler,
  before: Sample | undefined,
  a: Sample,
  b: Sample,
  after: Sample | undefined,
): Sample | undefined {
  const rising = followTurn(sampler, before, a, b, after, a.growing, 1);
  if (rising !== undefined || a.growing === 0) return rising;
  return followTurn(sampler, before, a, b, after, a.growing - 1, -1);
}

/**
 * Follows sign·(real part at `index`) to its maximum between a and b, as long as that may lie above 0: by the chords
 * of the neighbouring intervals, which lie above a function that is concave as it is around a maximum.
 */
function followTurn(
  sampler: Sampler,
  before: Sample | undefined,
  a: Sample,
  b: Sample,
  after: Sample | undefined,
  index: number,
  sign: number,
): Sample | undefined {
  if (index >= a.real.length) return undefined;
  const value = (sample: Sample) => sign * (sample.real[index] ?? 0);
  const width = b.speed - a.speed;
  const rise = before === undefined ? Number.POSITIVE_INFINITY : (value(a) - value(before)) / (a.speed - before.speed);
  const fall = after === undefined ? Number.POSITIVE_INFINITY : (value(b) - value(after)) / (after.speed - b.speed);
  if (rise <= 0 || fall <= 0 || Math.min(value(a) + 2 * rise * width, value(b) + 2 * fall * width) <= 0)
    return undefined;
  return climb(sampler, a, b, a.growing, value);
}

/** Golden-section search of the greatest value between a and b, until the number of growing eigenvalues changes. */
function climb(
  sampler: Sampler,
  a: Sample,
  b: Sample,
  growing: number,
  value: (sample: Sample) => number,
): Sample | undefined {
  const golden = (Math.sqrt(5) - 1) / 2;
  let [low, high] = [a, b];
  let left = sampler(high.speed - golden * (high.speed - low.speed));
  let right = sampler(low.speed + golden * (high.speed - low.speed));
  for (let step = 0; step < 40; step++) {
    if (left === undefined || right === undefined) return undefined;
    if (left.growing !== growing) return left;
    if (right.growing !== growing) return right;
    const [best, lowest] = [Math.max(value(left), value(right)), Math.min(value(low), value(high))];
    if (best + 2 * (best - lowest) < 0) return undefined;
    if (value(left) > value(right)) {
      [high, right] = [right, left];
      left = sampler(high.speed - golden * (high.speed - low.speed));
    } else {
      [low, left] = [left, right];
      right = sampler(low.speed + golden * (high.speed - low.speed));
    }
  }
  return undefined;
}
