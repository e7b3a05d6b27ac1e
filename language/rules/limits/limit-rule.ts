import type { MarketName } from '../../catalogue/markets.ts';
import type { DiagnosticDefinition } from '../../diagnostics/define.ts';
import type { Location, RelatedFinding } from '../../diagnostics/finding.ts';
import type { LimitBreach } from '../../diagnostics/limit-wording.ts';
import type { Influence } from '../../mechanics/influence.ts';
import type { QuantityFigure } from '../../semantics/envelope/figures.ts';
import type { LimitName, UnitModel } from '../../semantics/model.ts';
import type { MotionLoads, RigResult, StateResult } from '../../semantics/state.ts';
import type { Dimension } from '../../units/dimension.ts';
import type { Goal } from '../goal.ts';

/** A figure of a rig and what a text makes of it, both in SI units. */
export interface Comparison {
  readonly value: number;
  readonly limit: number;
}

/** A ratio of loads as a function of all masses: scale · figure, or the size of that. */
export interface LimitedRatio extends Pick<QuantityFigure, 'figure' | 'scale' | 'absolute'> {
  /** The load that masses are told to contribute to; that above in the figure if absent, none if false. */
  readonly told?: Influence | false;
}

/** One figure of a rig that a text limits. */
export interface Limited {
  readonly kind: 'limited';
  /** What it is a figure of, as a message begins: `Coupling of TourerB`. */
  readonly subject: string;
  /** What is limited, within a sentence: `the coupling load`, `the D value`. */
  readonly quantity: string;
  readonly sense: 'at most' | 'at least';
  readonly dimension: Dimension;
  /** Unit it is shown in, where that is not the usual one of its dimension: `kN`. */
  readonly unit?: string;
  /** What limits it, within a sentence: `its plate`, `the least that StVZO § 44(3) asks for`. */
  readonly limitName: string;
  /** In one state on level ground; undefined in a state that the text does not speak of. */
  readonly compare: (state: StateResult) => Comparison | undefined;
  /**
   * Loads (kg) as functions of all masses, read off a state on level ground: the limit is broken exactly where one of them is
   * positive, as far as the figure exists (`ratio`). With them the limit is proved for all states; without, it can only be tried
   * in some of them.
   */
  readonly excess?: (state: StateResult, loads: MotionLoads) => readonly Influence[] | undefined;
  /** The same for a limit that is broken exactly where both of two loads (kg) are positive, by the lesser of them. */
  readonly lesser?: (state: StateResult, loads: MotionLoads) => readonly [Influence, Influence] | undefined;
  /**
   * The ratio of loads that is limited, or by how much it is beyond its limit: the state in which it is worst is that of its own
   * extreme, not that of the greatest excess in kg. It has no value where the load that divides is not positive: a limit on it is
   * proved only where that is so in no state.
   */
  readonly ratio?: (state: StateResult, loads: MotionLoads) => LimitedRatio | undefined;
  /** What would mend it in a state where it is broken by `by` (positive, SI); absent where no load moves it. */
  readonly goal?: (state: StateResult, by: number) => Goal | undefined;
  /** True where no load moves the figure or its limit: it is compared once, in a case that has it, and shown without a case. */
  readonly fixed?: true;
  /** A sentence on what would mend it where no load does. */
  readonly advice?: string;
  /** Where the figure or its limit is stated. */
  readonly location?: Location;
  readonly related?: readonly RelatedFinding[];
  /** Whether another rule tells it of a state, with more weight: then only the table of limits has it. */
  readonly toldElsewhere?: (state: StateResult) => boolean;
}

/** A figure that a text limits and that the file does not give. */
export interface Unstated {
  readonly kind: 'unstated';
  readonly subject: string;
  readonly quantity: string;
  /**
   * What the file has to say for it, as a phrase that stands on its own (`to-write.ts`): `a rating of the rear axle of Truck
   * (rating 1550 kg)`.
   */
  readonly missing: string;
  /** Where it is a rating that computed loads can stand in for until its plate is read. */
  readonly rating?: MissingRating;
}

/** A rating that a unit does not state. */
export interface MissingRating {
  readonly unit: UnitModel;
  /** What it is in its line, or its name among the limits. */
  readonly name: 'rating' | LimitName;
  /** Computed quantities whose sum it would limit. */
  readonly quantities: readonly string[];
  /** The line it belongs in; absent for limits. */
  readonly line?: Location;
}

export type Assessment = Limited | Unstated;

/** What a text asks of a rig. Pure; never throws. */
export interface AssessedText {
  /** Its entry in the catalogue has the text, its authority and the caution. */
  readonly definition: Pick<DiagnosticDefinition<never>, 'code' | 'source' | 'authority'>;
  /** Where the text binds; `everywhere` for plates and physics, whatever the rig names. */
  readonly markets: 'everywhere' | readonly MarketName[];
  readonly assess: (result: RigResult) => Iterable<Assessment>;
}

/**
 * A text that is checked by what it assesses alone: the same assessment makes the diagnostics and the table of limits, so
 * that they cannot disagree.
 */
export interface LimitRule<Key extends string = string> extends AssessedText {
  /** Name of its entry in the catalogue. */
  readonly key: Key;
  readonly definition: DiagnosticDefinition<LimitBreach>;
}
