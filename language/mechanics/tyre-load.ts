/**
 * Load (kg) that a tyre may carry at an inflation pressure below the one its rating belongs to: rated·(p / p_ref)^n, and never
 * more than rated. Pressures in one unit, both positive. The exponent is 0.5 to 0.8 by standard and age of the tyre (from
 * memory), so this is an estimate; the tables of the maker of the tyre go before it.
 */
export function loadAtPressure(rated: number, pressure: number, reference: number, exponent: number): number {
  return rated * Math.min(1, pressure / reference) ** exponent;
}
