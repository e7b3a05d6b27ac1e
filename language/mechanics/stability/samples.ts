import { emptySpectrum, findEigenvalues, type Spectrum } from './eigenvalues.ts';
import { type Equations, stateMatrix } from './equations.ts';

/** Eigenvalues at one speed, the greatest real part first. As functions of speed the real parts are continuous. */
export interface Sample {
  /** m/s */
  readonly speed: number;
  readonly real: readonly number[];
  /** Size of the imaginary part that belongs to each. */
  readonly imaginary: readonly number[];
  /** How many eigenvalues grow. */
  readonly growing: number;
  /** Greatest size of an eigenvalue, 1/s. */
  readonly magnitude: number;
}

/** Gives the sample at a speed; undefined if the eigenvalues cannot be found there. */
export type Sampler = (speed: number) => Sample | undefined;

/** Real parts up to this share of the greatest |λ| are 0 but for rounding. */
const GROWING = 1e-11;

/** So near 0, relative, rounding moves a double eigenvalue 0. */
const DOUBLE = 2e-7;

/** m/s; what is 0 at all of them is 0 whatever the speed. */
const PROBES = [3.7, 17.3, 41.9];

/**
 * The eigenvalues of a train over speed. A towed unit whose tyres carry nothing is free to swing to anywhere: its
 * eigenvalues 0, which mean nothing for stability, are left out.
 */
export function samplerOf(equations: Equations): Sampler {
  const isFree = equations.train.units.some(({ axles }) => axles.every(({ stiffness }) => stiffness === 0));
  const whole = sampleWithout(equations, 0);
  if (!isFree) return whole;
  const zeros = PROBES.map((speed) => countZeros(whole(speed)));
  return sampleWithout(equations, Math.min(...zeros));
}

function countZeros(sample: Sample | undefined): number {
  let count = 0;
  for (const [i, real] of (sample?.real ?? []).entries()) {
    if (Math.hypot(real, sample?.imaginary[i] ?? 0) <= DOUBLE * (sample?.magnitude ?? 0)) count += 1;
  }
  return count;
}

/** Samples with the `zeros` smallest eigenvalues left out. */
function sampleWithout(equations: Equations, zeros: number): Sampler {
  const { size } = equations.layout;
  const matrix = new Float64Array(size * size);
  const spectrum = emptySpectrum(size);
  return (speed) => {
    if (!findEigenvalues(stateMatrix(equations, speed, matrix), spectrum)) return undefined;
    for (let k = 0; k < zeros; k++) sendToEnd(spectrum, smallest(spectrum, size - k), size - k - 1);
    return sorted(speed, spectrum, size - zeros);
  };
}

function smallest({ real, imaginary }: Spectrum, count: number): number {
  let least = 0;
  for (let i = 1; i < count; i++) {
    const own = Math.hypot(real[i] ?? 0, imaginary[i] ?? 0);
    if (own < Math.hypot(real[least] ?? 0, imaginary[least] ?? 0)) least = i;
  }
  return least;
}

function sendToEnd({ real, imaginary }: Spectrum, index: number, end: number): void {
  for (const values of [real, imaginary]) {
    const held = values[index] ?? 0;
    values[index] = values[end] ?? 0;
    values[end] = held;
  }
}

/** The first `count` eigenvalues of a spectrum as a sample. */
export function sorted(speed: number, spectrum: Spectrum, count: number): Sample {
  const real = new Array<number>(count).fill(0);
  const imaginary = new Array<number>(count).fill(0);
  let most = 0;
  for (let i = 0; i < count; i++) {
    const re = spectrum.real[i] ?? 0;
    const im = Math.abs(spectrum.imaginary[i] ?? 0);
    most = Math.max(most, re * re + im * im);
    let place = i;
    for (; place > 0 && (real[place - 1] ?? 0) < re; place--) {
      real[place] = real[place - 1] ?? 0;
      imaginary[place] = imaginary[place - 1] ?? 0;
    }
    real[place] = re;
    imaginary[place] = im;
  }
  const magnitude = Math.sqrt(most);
  let growing = 0;
  while (growing < count && (real[growing] ?? 0) > GROWING * magnitude) growing++;
  return { speed, real, imaginary, growing, magnitude };
}
