import type { DisplaySystem } from './display.ts';

/** Round steps of each system, m and kg: what small moves and small changes of a load are told per. */
export const ROUND_STEPS: Readonly<Record<DisplaySystem, { readonly length: number; readonly mass: number }>> = {
  metric: { length: 0.1, mass: 10 },
  US: { length: 4 * 0.0254, mass: 20 * 0.45359237 },
};
