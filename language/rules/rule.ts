import type { COUPLINGS } from '../diagnostics/couplings.ts';
import type { EXTENTS } from '../diagnostics/extents.ts';
import type { Finding } from '../diagnostics/finding.ts';
import type { LOADS } from '../diagnostics/loads.ts';
import type { RATINGS } from '../diagnostics/ratings.ts';
import type { REACH } from '../diagnostics/reach.ts';
import type { WEIGHINGS } from '../diagnostics/weighing.ts';
import type { RigResult } from '../semantics/state.ts';

/** Names of the catalogue entries that rules report. */
export type RuleKey =
  | keyof typeof LOADS
  | keyof typeof COUPLINGS
  | keyof typeof EXTENTS
  | keyof typeof RATINGS
  | keyof typeof WEIGHINGS
  | Extract<keyof typeof REACH, 'case-unreachable'>;

/** One thing that is checked of a rig, or of a unit alone. Pure; never throws; what cannot be told is passed over. */
export interface Rule {
  /** The catalogue entries it may report. */
  readonly keys: readonly RuleKey[];
  readonly check: (result: RigResult) => Iterable<Finding>;
}
