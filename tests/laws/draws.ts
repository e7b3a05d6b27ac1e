import fc from 'fast-check';

/** A whole number between two, both of them among it. */
export const whole = (min: number, max: number): fc.Arbitrary<number> => fc.integer({ min, max });

/** A place between two (m), to the centimetre. */
export const places = (min: number, max: number): fc.Arbitrary<number> =>
  whole(Math.round(min * 100), Math.round(max * 100)).map((value) => value / 100);
