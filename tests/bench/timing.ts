/** Milliseconds that something takes. */
export function time(work: () => unknown): number {
  const begin = performance.now();
  work();
  return performance.now() - begin;
}

/** The middle one of some values, of two in the middle the greater. */
export function median(values: readonly number[]): number {
  return values.toSorted((a, b) => a - b)[values.length >> 1] ?? Number.NaN;
}
