import type { CouplingClass } from '../catalogue/coupling-classes.ts';
import type { Location } from '../diagnostics/finding.ts';

/** Forces that are marked on a coupling device (D, Dc, V), or that its test shows it to withstand. */
export const FORCE_MARKS = ['D', 'Dc', 'V', 'longitudinal', 'vertical'] as const;

export type ForceMark = (typeof FORCE_MARKS)[number];

/** A force as stated. */
export interface StatedForce {
  /** N */
  readonly value: number;
  readonly location: Location;
}

/** What a coupling or hitch is marked with beside its rating. */
export interface CouplingMarks {
  readonly forces: Readonly<Partial<Record<ForceMark, StatedForce>>>;
  readonly class?: CouplingClass & { readonly marking: string; readonly location: Location };
}
