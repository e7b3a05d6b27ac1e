/** A turning point of an oscillation. */
export interface Peak {
  /** s */
  readonly time: number;
  /** Signed, in the unit of the signal. */
  readonly value: number;
}

/**
 * The turning points of a signal given with its rate at even times: where the rate changes its sign, on the cubic
 * through values and rates of the two times around it. `from` s skips what is driven.
 */
export function findPeaks(times: Float64Array, values: Float64Array, rates: Float64Array, from: number): Peak[] {
  const peaks: Peak[] = [];
  for (let i = 0; i + 1 < times.length; i++) {
    const [t0, t1] = [times[i] ?? 0, times[i + 1] ?? 0];
    const [r0, r1] = [rates[i] ?? 0, rates[i + 1] ?? 0];
    if (t0 < from || !(r0 * r1 < 0 || (r0 === 0 && r1 !== 0))) continue;
    peaks.push(turningPoint(t0, t1 - t0, values[i] ?? 0, values[i + 1] ?? 0, r0, r1));
  }
  return peaks;
}

/** On the Hermite cubic y(s), s = (t − t0)/h from 0 to 1, whose derivative is a quadratic with one root there. */
function turningPoint(t0: number, h: number, y0: number, y1: number, r0: number, r1: number): Peak {
  const a = 2 * (y0 - y1) + h * (r0 + r1);
  const b = 3 * (y1 - y0) - h * (2 * r0 + r1);
  const c = h * r0;
  const root = Math.sqrt(Math.max(0, b * b - 3 * a * c));
  // The stable form of (−b ± root)/(3a); the sign is that of the derivative falling from r0 to r1.
  const s = r0 === 0 ? 0 : -c / (b + (c > 0 ? -root : root));
  return { time: t0 + s * h, value: y0 + s * (c + s * (b + s * a)) };
}

/**
 * Damping ratio from successive turning points, by the swings between them: the same as from their amplitudes, but a
 * motion that settles beside the swinging hardly disturbs it. Undefined for fewer than three.
 */
export function dampingFromPeaks(peaks: readonly Peak[]): number | undefined {
  let sum = 0;
  let count = 0;
  for (let i = 0; i + 2 < peaks.length; i++) {
    const [a = 0, b = 0, c = 0] = peaks.slice(i, i + 3).map(({ value }) => value);
    sum += Math.abs((a - b) / (b - c));
    count += 1;
  }
  return count > 0 ? ratioOfLogarithm(Math.log(sum / count)) : undefined;
}

/**
 * Damping ratio from successive amplitudes A1 … An (signs do not count), as ISO 9815 evaluates the articulation angle:
 * r̄ = mean of (Ai + Ai+1)/(Ai+1 + Ai+2), D̄ = ln r̄/√(π² + (ln r̄)²); from memory. Undefined for fewer than three, or if
 * one is 0. Below 0 if they grow.
 */
export function dampingFromAmplitudes(amplitudes: readonly number[]): number | undefined {
  const sizes = amplitudes.map(Math.abs);
  let sum = 0;
  let count = 0;
  for (let i = 0; i + 2 < sizes.length; i++) {
    const [a = 0, b = 0, c = 0] = sizes.slice(i, i + 3);
    sum += (a + b) / (b + c);
    count += 1;
  }
  return count > 0 && sizes.every((size) => size > 0) ? ratioOfLogarithm(Math.log(sum / count)) : undefined;
}

function ratioOfLogarithm(logarithm: number): number | undefined {
  return Number.isFinite(logarithm) ? logarithm / Math.hypot(Math.PI, logarithm) : undefined;
}
