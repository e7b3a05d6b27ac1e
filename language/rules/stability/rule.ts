import type { Finding } from '../../diagnostics/finding.ts';
import type { STABILITY } from '../../diagnostics/stability.ts';
import type { RigStability } from '../../semantics/stability/evaluate-stability.ts';

/** Names of the catalogue entries that these rules report. */
export type StabilityKey = keyof typeof STABILITY;

/**
 * One thing that is checked of the lateral stability of a rig: at most one finding for each of its entries, in the worst
 * state, inside the rig's own declaration. Pure; never throws; what cannot be told is passed over.
 */
export interface StabilityRule {
  /** The catalogue entries it may report. */
  readonly keys: readonly StabilityKey[];
  readonly check: (stability: RigStability) => Iterable<Finding>;
}
