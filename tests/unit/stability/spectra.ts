/** Real and imaginary part. */
export type EigenvaluePair = readonly [number, number];

/**
 * The greatest distance between two sets of as many eigenvalues, each paired with the nearest that is left, relative to the
 * greatest of all; infinite if there are not as many.
 */
export function farthest(found: readonly EigenvaluePair[], expected: readonly EigenvaluePair[]): number {
  if (found.length !== expected.length) return Number.POSITIVE_INFINITY;
  const scale = Math.max(...expected.map(([real, imaginary]) => Math.hypot(real, imaginary)));
  const left = [...found];
  let most = 0;
  for (const [real, imaginary] of expected) {
    const distances = left.map((each) => Math.hypot(each[0] - real, each[1] - imaginary));
    const nearest = Math.min(...distances);
    left.splice(distances.indexOf(nearest), 1);
    most = Math.max(most, nearest / scale);
  }
  return most;
}
