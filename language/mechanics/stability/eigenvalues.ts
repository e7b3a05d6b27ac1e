/**
 * Eigenvalues of small real matrices without eigenvectors: what a sweep over speeds needs thousands of.
 * Reduction to Hessenberg form by elimination and the double-shift QR algorithm (J. G. F. Francis 1961; G. H. Golub and
 * C. F. van Loan, Matrix Computations, ch. 7, from memory), in place and without allocation. Not balanced: the states of
 * a train in SI units are of like size. Tested against the eigenvalues of ml-matrix.
 */

/** Iterations after which an eigenvalue is given up; a few are usual. */
const MOST_ITERATIONS = 60;

const PRECISION = 2 ** -52;

/** Room for the eigenvalues of matrices of one size. */
export interface Spectrum {
  readonly size: number;
  readonly real: Float64Array;
  /** Complex pairs are next to each other, positive imaginary part first. */
  readonly imaginary: Float64Array;
}

export function emptySpectrum(size: number): Spectrum {
  return { size, real: new Float64Array(size), imaginary: new Float64Array(size) };
}

/**
 * Writes the eigenvalues of `matrix` (`size` × `size`, row by row, destroyed) to `spectrum`, in no order. False, with
 * a spectrum of no meaning, if a number is not finite (or its squares are not) or the iteration does not end.
 */
export function findEigenvalues(matrix: Float64Array, spectrum: Spectrum): boolean {
  const { size } = spectrum;
  for (let i = 0; i < size * size; i++) if (!Number.isFinite(matrix[i])) return false;
  reduceToHessenberg(matrix, size);
  return iterate(matrix, spectrum) && spectrum.real.every(Number.isFinite) && spectrum.imaginary.every(Number.isFinite);
}

/** Similar and zero below the first subdiagonal, in place. */
export function reduceToHessenberg(a: Float64Array, n: number): void {
  for (let m = 1; m < n - 1; m++) {
    let pivot = m;
    for (let i = m + 1; i < n; i++) {
      if (Math.abs(a[i * n + m - 1] ?? 0) > Math.abs(a[pivot * n + m - 1] ?? 0)) pivot = i;
    }
    const value = a[pivot * n + m - 1] ?? 0;
    if (value === 0) continue;
    if (pivot !== m) exchange(a, n, pivot, m);
    for (let i = m + 1; i < n; i++) {
      const factor = (a[i * n + m - 1] ?? 0) / value;
      if (factor === 0) continue;
      a[i * n + m - 1] = 0;
      for (let j = m; j < n; j++) a[i * n + j] = (a[i * n + j] ?? 0) - factor * (a[m * n + j] ?? 0);
      for (let j = 0; j < n; j++) a[j * n + m] = (a[j * n + m] ?? 0) + factor * (a[j * n + i] ?? 0);
    }
  }
}

/** Exchanges rows and columns p and m. */
function exchange(a: Float64Array, n: number, p: number, m: number): void {
  for (let j = m - 1; j < n; j++) {
    const held = a[p * n + j] ?? 0;
    a[p * n + j] = a[m * n + j] ?? 0;
    a[m * n + j] = held;
  }
  for (let j = 0; j < n; j++) {
    const held = a[j * n + p] ?? 0;
    a[j * n + p] = a[j * n + m] ?? 0;
    a[j * n + m] = held;
  }
}

function iterate(h: Float64Array, { size, real, imaginary }: Spectrum): boolean {
  const norm = hessenbergNorm(h, size);
  let end = size - 1;
  let shifted = 0;
  let iterations = 0;
  while (end >= 0) {
    const start = splitRow(h, size, end, norm);
    const x = h[end * size + end] ?? 0;
    if (start === end) {
      real[end] = x + shifted;
      imaginary[end] = 0;
      end -= 1;
      iterations = 0;
      continue;
    }
    const y = h[(end - 1) * size + end - 1] ?? 0;
    const w = (h[end * size + end - 1] ?? 0) * (h[(end - 1) * size + end] ?? 0);
    if (start === end - 1) {
      writePair(real, imaginary, end, x, y, w, shifted);
      end -= 2;
      iterations = 0;
      continue;
    }
    if (iterations === MOST_ITERATIONS) return false;
    if (iterations % 10 === 9) {
      // A shift out of the ordinary breaks cycles.
      for (let i = 0; i <= end; i++) h[i * size + i] = (h[i * size + i] ?? 0) - x;
      shifted += x;
      const s = Math.abs(h[end * size + end - 1] ?? 0) + Math.abs(h[(end - 1) * size + end - 2] ?? 0);
      sweep(h, size, start, end, 0.75 * s, 0.75 * s, -0.4375 * s * s);
    } else {
      sweep(h, size, start, end, x, y, w);
    }
    iterations += 1;
  }
  return true;
}

function hessenbergNorm(h: Float64Array, n: number): number {
  let sum = 0;
  for (let i = 0; i < n; i++) for (let j = Math.max(0, i - 1); j < n; j++) sum += Math.abs(h[i * n + j] ?? 0);
  return sum;
}

/** The row at which the active block starts: the subdiagonal element before it is negligible. */
function splitRow(h: Float64Array, n: number, end: number, norm: number): number {
  for (let row = end; row > 0; row--) {
    const beside = Math.abs(h[(row - 1) * n + row - 1] ?? 0) + Math.abs(h[row * n + row] ?? 0);
    if (Math.abs(h[row * n + row - 1] ?? 0) <= PRECISION * (beside === 0 ? norm : beside)) {
      h[row * n + row - 1] = 0;
      return row;
    }
  }
  return 0;
}

/** Eigenvalues of the last two rows of the active block: diagonal y, x and product of the others w. */
function writePair(
  real: Float64Array,
  imaginary: Float64Array,
  end: number,
  x: number,
  y: number,
  w: number,
  shifted: number,
): void {
  const p = 0.5 * (y - x);
  const q = p * p + w;
  const z = Math.sqrt(Math.abs(q));
  if (q >= 0) {
    const far = p + (p >= 0 ? z : -z);
    real[end - 1] = x + shifted + far;
    real[end] = far === 0 ? x + shifted : x + shifted - w / far;
    imaginary[end - 1] = 0;
    imaginary[end] = 0;
  } else {
    real[end - 1] = x + shifted + p;
    real[end] = x + shifted + p;
    imaginary[end - 1] = z;
    imaginary[end] = -z;
  }
}

/** One double-shift QR sweep over rows and columns `start` … `end`. */
function sweep(h: Float64Array, n: number, start: number, end: number, x: number, y: number, w: number): void {
  let p = 0;
  let q = 0;
  let r = 0;
  let m = end - 2;
  for (; m >= start; m--) {
    const z = h[m * n + m] ?? 0;
    const below = h[(m + 1) * n + m] ?? 0;
    p = ((x - z) * (y - z) - w) / below + (h[m * n + m + 1] ?? 0);
    q = (h[(m + 1) * n + m + 1] ?? 0) - z - (x - z) - (y - z);
    r = h[(m + 2) * n + m + 1] ?? 0;
    const scale = Math.abs(p) + Math.abs(q) + Math.abs(r);
    p /= scale;
    q /= scale;
    r /= scale;
    if (m === start) break;
    const left = Math.abs(h[m * n + m - 1] ?? 0) * (Math.abs(q) + Math.abs(r));
    const around = Math.abs(h[(m - 1) * n + m - 1] ?? 0) + Math.abs(z) + Math.abs(h[(m + 1) * n + m + 1] ?? 0);
    if (left <= PRECISION * Math.abs(p) * around) break;
  }
  for (let i = m + 2; i <= end; i++) {
    h[i * n + i - 2] = 0;
    if (i > m + 2) h[i * n + i - 3] = 0;
  }
  for (let k = m; k < end; k++) {
    const three = k !== end - 1;
    let scale = 1;
    if (k !== m) {
      p = h[k * n + k - 1] ?? 0;
      q = h[(k + 1) * n + k - 1] ?? 0;
      r = three ? (h[(k + 2) * n + k - 1] ?? 0) : 0;
      scale = Math.abs(p) + Math.abs(q) + Math.abs(r);
      if (scale === 0) continue;
      p /= scale;
      q /= scale;
      r /= scale;
    }
    const length = Math.sqrt(p * p + q * q + r * r);
    const s = p >= 0 ? length : -length;
    if (s === 0) continue;
    if (k !== m) h[k * n + k - 1] = -s * scale;
    else if (start !== m) h[k * n + k - 1] = -(h[k * n + k - 1] ?? 0);
    p += s;
    reflect(h, n, k, start, end, three, p / s, q / s, r / s, q / p, r / p);
  }
}

/** Applies a Householder reflection (1, b, c)·(px, py, pz) to rows and columns k … k + 2. */
function reflect(
  h: Float64Array,
  n: number,
  k: number,
  start: number,
  end: number,
  three: boolean,
  px: number,
  py: number,
  pz: number,
  b: number,
  c: number,
): void {
  const k0 = k * n;
  const k1 = k0 + n;
  const k2 = k1 + n;
  for (let j = k; j <= end; j++) {
    const sum = (h[k0 + j] ?? 0) + b * (h[k1 + j] ?? 0) + (three ? c * (h[k2 + j] ?? 0) : 0);
    h[k0 + j] = (h[k0 + j] ?? 0) - sum * px;
    h[k1 + j] = (h[k1 + j] ?? 0) - sum * py;
    if (three) h[k2 + j] = (h[k2 + j] ?? 0) - sum * pz;
  }
  const last = Math.min(end, k + 3);
  for (let i = start; i <= last; i++) {
    const row = i * n + k;
    const sum = px * (h[row] ?? 0) + py * (h[row + 1] ?? 0) + (three ? pz * (h[row + 2] ?? 0) : 0);
    h[row] = (h[row] ?? 0) - sum;
    h[row + 1] = (h[row + 1] ?? 0) - sum * b;
    if (three) h[row + 2] = (h[row + 2] ?? 0) - sum * c;
  }
}
