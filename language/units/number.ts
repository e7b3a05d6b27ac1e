/**
 * Why a text is no number of the language.
 * - `malformed`: it does not have a number's form.
 * - `overflow`, `underflow`: too large or too small for a 64-bit float; neither infinity nor a silent zero is read.
 * - `zero denominator`: a fraction such as `3/0`.
 * - `improper fraction`: a mixed number whose fraction is one or more, such as `3 5/4`.
 */
export interface NumberProblem {
  readonly kind: 'malformed' | 'overflow' | 'underflow' | 'zero denominator' | 'improper fraction';
  readonly found: string;
  readonly expected: string;
}

/**
 * Between groups of digits: an underscore, or before three digits one of the no-break and thin spaces that reports and
 * data sheets print there, so that a printed figure reads back.
 */
const DIGITS = '\\d+(?:_\\d+|[\\u00a0\\u2009\\u202f]\\d{3}(?!\\d))*';
const DECIMAL = new RegExp(`^(?:${DIGITS}(?:\\.${DIGITS})?|\\.${DIGITS})(?:[eE][+-]?\\d+)?$`);
const FRACTION = new RegExp(`^(?:(${DIGITS})[ \\t]+)?(\\d+)/(\\d+)$`);
const SEPARATORS = /[_\u00a0\u2009\u202f]/g;

/**
 * Reads an unsigned number: `1850`, `1_850`, `3.5`, `.5`, `1e3`, `1/2`, `3 3/4`. A fraction has no blanks around its
 * slash and is one number, so it binds tighter than any operator. There is no sign: a minus belongs to the grammar, and
 * so it counts for the whole of a mixed number or a compound measure.
 */
export function readNumber(text: string): number | NumberProblem {
  const written = text.trim();
  const fraction = FRACTION.exec(written);
  if (fraction !== null) return readFraction(written, fraction);
  if (!DECIMAL.test(written)) {
    return { kind: 'malformed', found: written, expected: 'a number such as 1850, 1_850, 3.5, 1e3 or 3 3/4' };
  }
  const value = Number(written.replace(SEPARATORS, ''));
  if (value === 0 && /^[^eE]*[1-9]/.test(written)) {
    return { kind: 'underflow', found: written, expected: 'zero, or a number above 5e-324' };
  }
  return checked(value, written);
}

/** As {@link readNumber}, undefined where that names a problem. */
export function parseNumber(text: string): number | undefined {
  const result = readNumber(text);
  return typeof result === 'number' ? result : undefined;
}

function readFraction(written: string, [, whole, above = '', below = '']: RegExpExecArray): number | NumberProblem {
  const numerator = Number(above);
  const denominator = Number(below);
  if (!Number.isFinite(numerator) || !Number.isFinite(denominator)) return checked(Number.POSITIVE_INFINITY, written);
  if (denominator === 0) {
    return { kind: 'zero denominator', found: written, expected: 'a fraction with a denominator above zero' };
  }
  if (whole === undefined) return checked(numerator / denominator, written);
  if (numerator >= denominator) {
    return { kind: 'improper fraction', found: written, expected: 'a fraction below one after the whole number' };
  }
  return checked(Number(whole.replace(SEPARATORS, '')) + numerator / denominator, written);
}

function checked(value: number, written: string): number | NumberProblem {
  if (Number.isFinite(value)) return value;
  return { kind: 'overflow', found: written, expected: 'a number below 1.8e308' };
}
