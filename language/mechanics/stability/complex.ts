/** A complex number. */
export interface Complex {
  readonly real: number;
  readonly imaginary: number;
}

/** Complex numbers, real and imaginary parts apart. */
export interface ComplexVector {
  readonly real: Float64Array;
  readonly imaginary: Float64Array;
}

export function complex(real: number, imaginary = 0): Complex {
  return { real, imaginary };
}

export function magnitude(value: Complex | undefined): number {
  return value === undefined ? 0 : Math.hypot(value.real, value.imaginary);
}

export function plus(a: Complex, b: Complex): Complex {
  return { real: a.real + b.real, imaginary: a.imaginary + b.imaginary };
}

export function difference(a: Complex, b: Complex): Complex {
  return { real: a.real - b.real, imaginary: a.imaginary - b.imaginary };
}

export function times(a: Complex, b: Complex): Complex {
  return {
    real: a.real * b.real - a.imaginary * b.imaginary,
    imaginary: a.real * b.imaginary + a.imaginary * b.real,
  };
}

export function scaled(a: Complex, factor: number): Complex {
  return { real: a.real * factor, imaginary: a.imaginary * factor };
}

/** a/b, without squares that could be past all numbers or vanish. */
export function divide(a: Complex, b: Complex): Complex {
  const scale = Math.max(Math.abs(b.real), Math.abs(b.imaginary));
  const [c, d] = [b.real / scale, b.imaginary / scale];
  const square = (c * c + d * d) * scale;
  return {
    real: (a.real * c + a.imaginary * d) / square,
    imaginary: (a.imaginary * c - a.real * d) / square,
  };
}

/** The component at `index`; 0 outside. */
export function component({ real, imaginary }: ComplexVector, index: number): Complex {
  return { real: real[index] ?? 0, imaginary: imaginary[index] ?? 0 };
}

/** Σ factors[k]·vector[k]; nothing conjugated. */
export function weigh(factors: Float64Array, { real, imaginary }: ComplexVector): Complex {
  let re = 0;
  let im = 0;
  for (let k = 0; k < factors.length; k++) {
    const factor = factors[k] ?? 0;
    re += factor * (real[k] ?? 0);
    im += factor * (imaginary[k] ?? 0);
  }
  return { real: re, imaginary: im };
}

/** Turned and scaled so that the greatest component becomes 1; nothing but zeros stays. */
export function normalise(vector: ComplexVector): ComplexVector {
  const { real, imaginary } = vector;
  let pivot = 0;
  let largest = 0;
  for (let i = 0; i < real.length; i++) {
    const size = Math.hypot(real[i] ?? 0, imaginary[i] ?? 0);
    if (size > largest) {
      largest = size;
      pivot = i;
    }
  }
  if (largest === 0) return vector;
  const by = divide(complex(1), component(vector, pivot));
  const turned = { real: new Float64Array(real.length), imaginary: new Float64Array(real.length) };
  for (let i = 0; i < real.length; i++) {
    const { real: re, imaginary: im } = times(component(vector, i), by);
    turned.real[i] = re;
    turned.imaginary[i] = im;
  }
  return turned;
}
