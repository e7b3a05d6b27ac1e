import { emptySpectrum, reduceToHessenberg, type Spectrum } from './eigenvalues.ts';
import { type Equations, stateMatrix } from './equations.ts';
import { type Sampler, samplerOf, sorted } from './samples.ts';

/** Newton steps towards an eigenvalue; from the neighbouring speed three are usual. */
const MOST_STEPS = 7;

/** A step so small, relative, that the next one is below rounding. */
const CLOSE = 1e-9;

/** Agreement of the sum of the eigenvalues with the trace, relative to the greatest. */
const AGREEMENT = 1e-9;

/** Larger matrices have characteristic polynomials too sensitive to be worth it. */
const MOST_STATES = 9;

/**
 * A sampler for speeds that follow each other closely: every eigenvalue is carried on from the speeds before by Newton's
 * method on the characteristic polynomial, several times quicker than starting anew. That none is lost, doubled or
 * confused the trace tells: whenever the eigenvalues found do not add up to it, or one does not settle (pairs that part or
 * meet), the sample is computed anew.
 */
export function trackerOf(equations: Equations): Sampler {
  const anew = samplerOf(equations);
  const { size } = equations.layout;
  if (size > MOST_STATES) return anew;
  const matrix = new Float64Array(size * size);
  const polynomial = new Float64Array(size + 1);
  const room = new Float64Array((size + 1) * (size + 1));
  const spectra = [emptySpectrum(size), emptySpectrum(size), emptySpectrum(size)];
  let known = 0;
  let last = 0;
  let before = 0;
  return (speed) => {
    const [older, old, next] = spectra;
    if (older === undefined || old === undefined || next === undefined) return anew(speed);
    stateMatrix(equations, speed, matrix);
    const trace = traceOf(matrix, size);
    if (known > 1) {
      reduceToHessenberg(matrix, size);
      characteristicPolynomial(matrix, size, polynomial, room);
      predict(next, older, old, (speed - last) / (last - before));
    }
    const carried = known > 1 && correct(next, polynomial) && addsUp(next, trace);
    const sample = carried ? sorted(speed, next, size) : anew(speed);
    if (sample === undefined || sample.real.length < size) {
      known = 0;
      return sample;
    }
    // Both spectra before are kept in one order, the sample's.
    copySample(next, sample.real, sample.imaginary);
    spectra.push(older);
    spectra.shift();
    known = Math.min(2, known + 1);
    before = last;
    last = speed;
    return sample;
  };
}

function traceOf(matrix: Float64Array, size: number): number {
  let sum = 0;
  for (let i = 0; i < size; i++) sum += matrix[i * (size + 1)] ?? 0;
  return sum;
}

/** Sorted samples have both members of a pair next to each other, without signs. */
function copySample({ real, imaginary, size }: Spectrum, re: readonly number[], im: readonly number[]): void {
  for (let i = 0; i < size; i++) {
    real[i] = re[i] ?? 0;
    imaginary[i] = im[i] ?? 0;
    if (imaginary[i] !== 0 && i + 1 < size) {
      i += 1;
      real[i] = re[i] ?? 0;
      imaginary[i] = -(im[i] ?? 0);
    }
  }
}

/** Straight on from the two spectra before. */
function predict({ size, real, imaginary }: Spectrum, older: Spectrum, old: Spectrum, ratio: number): void {
  for (let i = 0; i < size; i++) {
    const [re, im] = [old.real[i] ?? 0, old.imaginary[i] ?? 0];
    real[i] = re + ratio * (re - (older.real[i] ?? 0));
    imaginary[i] = im + ratio * (im - (older.imaginary[i] ?? 0));
  }
}

/**
 * Coefficients of det(λ − H), constant first, of a Hessenberg matrix: the leading minors' polynomials one from the other
 * (the expansion along the last column; `room` holds them).
 */
function characteristicPolynomial(h: Float64Array, n: number, out: Float64Array, room: Float64Array): void {
  const width = n + 1;
  room.fill(0);
  room[0] = 1;
  for (let k = 1; k <= n; k++) {
    const own = k * width;
    const previous = own - width;
    const diagonal = h[(k - 1) * n + k - 1] ?? 0;
    for (let i = 0; i < k; i++) {
      const value = room[previous + i] ?? 0;
      room[own + i + 1] = (room[own + i + 1] ?? 0) + value;
      room[own + i] = (room[own + i] ?? 0) - diagonal * value;
    }
    let product = 1;
    for (let j = k - 1; j >= 1; j--) {
      product *= h[j * n + j - 1] ?? 0;
      if (product === 0) break;
      const factor = product * (h[(j - 1) * n + k - 1] ?? 0);
      for (let i = 0; i < j; i++) room[own + i] = (room[own + i] ?? 0) - factor * (room[(j - 1) * width + i] ?? 0);
    }
  }
  for (let i = 0; i <= n; i++) out[i] = room[n * width + i] ?? 0;
}

/** Newton's method on every eigenvalue, one of each pair; false if one does not settle. */
function correct({ size, real, imaginary }: Spectrum, polynomial: Float64Array): boolean {
  for (let i = 0; i < size; i++) {
    if (imaginary[i] === 0) {
      const root = settleReal(polynomial, real[i] ?? 0);
      if (root === undefined) return false;
      real[i] = root;
      continue;
    }
    if (!settleComplex(polynomial, real, imaginary, i)) return false;
    real[i + 1] = real[i] ?? 0;
    imaginary[i + 1] = -(imaginary[i] ?? 0);
    i += 1;
  }
  return true;
}

function settleReal(polynomial: Float64Array, start: number): number | undefined {
  let x = start;
  for (let step = 0; step < MOST_STEPS; step++) {
    let value = 0;
    let slope = 0;
    for (let k = polynomial.length - 1; k >= 0; k--) {
      slope = slope * x + value;
      value = value * x + (polynomial[k] ?? 0);
    }
    if (value === 0) return x;
    const change = value / slope;
    x -= change;
    if (Math.abs(change) <= CLOSE * Math.abs(x)) return x;
  }
  return undefined;
}

function settleComplex(polynomial: Float64Array, real: Float64Array, imaginary: Float64Array, index: number): boolean {
  let x = real[index] ?? 0;
  let y = imaginary[index] ?? 0;
  for (let step = 0; step < MOST_STEPS; step++) {
    let a = 0;
    let b = 0;
    let c = 0;
    let d = 0;
    for (let k = polynomial.length - 1; k >= 0; k--) {
      const slope = c * x - d * y + a;
      d = c * y + d * x + b;
      c = slope;
      const value = a * x - b * y + (polynomial[k] ?? 0);
      b = a * y + b * x;
      a = value;
    }
    const square = c * c + d * d;
    const along = (a * c + b * d) / square;
    const across = (b * c - a * d) / square;
    x -= along;
    y -= across;
    if (Math.abs(along) + Math.abs(across) <= CLOSE * (Math.abs(x) + Math.abs(y))) {
      real[index] = x;
      imaginary[index] = y;
      return y > 0;
    }
  }
  return false;
}

function addsUp({ size, real, imaginary }: Spectrum, trace: number): boolean {
  let sum = 0;
  let greatest = 0;
  for (let i = 0; i < size; i++) {
    sum += real[i] ?? 0;
    greatest = Math.max(greatest, Math.abs(real[i] ?? 0), Math.abs(imaginary[i] ?? 0));
  }
  return Math.abs(sum - trace) <= AGREEMENT * greatest;
}
