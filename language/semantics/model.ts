/**
 * What a file says, once names and units are resolved: SI numbers in each unit's own frame (x forward, y left, z up;
 * origin at road level under the coupling centre of a trailer or the front axle of a vehicle). Immutable. Everything
 * knows where it was written.
 */

import type { MarketName } from '../catalogue/markets.ts';
import type { Location } from '../diagnostics/finding.ts';
import type { Axle } from '../mechanics/combination.ts';
import type { PlaceTolerance } from '../mechanics/envelope.ts';
import type { Body } from '../mechanics/mass.ts';
import type { DragArea } from '../mechanics/stability/drag.ts';
import type { TankShape } from '../mechanics/tank.ts';
import type { Position, Size } from '../mechanics/vector.ts';
import type { Comparison, Expression } from '../syntax/tree.ts';
import type { Quantity } from '../units/quantity.ts';
import type { CouplingMarks } from './coupling-marks.ts';
import type { LineLevel } from './rule-lines.ts';
import type { WeighingModel } from './weighing/weighing-model.ts';

/** Something the computation had to take because the file does not say it; listed wherever a number depends on it. */
export interface Assumption {
  /** What was taken, with its value: "height of fridge not stated: 0.72 m taken". */
  readonly text: string;
  /** Why that value: a source, or the rule of the language. */
  readonly basis: string;
  /** True for what every computation of the kind takes: listed with the results, but no diagnostic of its own. */
  readonly general?: boolean;
  /** True where something is missing from the results: comes before everything else that is assumed. */
  readonly incomplete?: boolean;
  /** With `incomplete`: the declaration itself has an error to show for it. */
  readonly shown?: boolean;
  readonly location: Location;
}

/** A rating or limit as stated. */
export interface Limit {
  /** kg */
  readonly value: number;
  readonly location: Location;
}

export type PartKind = 'tare' | 'fitting' | 'panel' | 'member' | 'growth';

/** A fixed mass of a unit. */
export interface Part {
  /** Name within the unit, dotted for parts of groups: `kitchen.sink`; `tare`, `growth`. */
  readonly name: string;
  readonly kind: PartKind;
  readonly title?: string;
  readonly documentation?: string;
  readonly body: Body;
  /** Outer size, where stated. */
  readonly size?: Size;
  /** Pieces the mass is made of, where more than one. */
  readonly count?: number;
  /** Half width of the mass tolerance, kg. */
  readonly tolerance?: number;
  /** Half widths of the tolerances of its place, m. */
  readonly placeTolerance?: PlaceTolerance;
  readonly location: Location;
}

export interface Tank {
  readonly name: string;
  readonly title?: string;
  readonly documentation?: string;
  readonly fluid: {
    readonly name: string;
    readonly density: number;
    readonly source: string;
    readonly maximumFill?: number;
  };
  /** m³ */
  readonly capacity: number;
  /** Mass of the content at level 1, kg. */
  readonly content: number;
  /** kg */
  readonly empty: number;
  readonly shape: TankShape;
  readonly centre: Position;
  /** Half width of the tolerance of the content, kg at level 1. */
  readonly tolerance?: number;
  /** Half widths of the tolerances of its place, m. */
  readonly placeTolerance?: PlaceTolerance;
  /** Level where a case does not state one, 0 to 1, with its range. */
  readonly level?: LevelRange;
  readonly location: Location;
}

/** A level, or a range of levels, from 0 (empty) to 1 (full): `value` is the middle of the range. */
export interface LevelRange {
  readonly value: number;
  readonly least: number;
  readonly most: number;
  /** The highest level as written, where that is more than full; what is computed stops at full. */
  readonly overfull?: number;
  readonly location: Location;
}

export interface Locker {
  readonly name: string;
  readonly title?: string;
  readonly documentation?: string;
  /** Middle of the floor. */
  readonly centre: Position;
  /** Inner size along x, y, z, as far as stated. */
  readonly length?: number;
  readonly width?: number;
  readonly height?: number;
  /** kg */
  readonly holds?: Limit;
  readonly location: Location;
}

export interface Seat {
  readonly name: string;
  readonly title?: string;
  readonly mass: number;
  readonly centre: Position;
  /** Half width of the tolerance of who sits there, kg. */
  readonly tolerance?: number;
  /** Half widths of the tolerances of the place, m. */
  readonly placeTolerance?: PlaceTolerance;
  readonly location: Location;
}

export interface Tyres {
  readonly count: number;
  readonly marking: string;
  /** Load one tyre carries, kg, single or dual as fitted. */
  readonly capacity?: number;
  /** km/h of the speed symbol. */
  readonly speed?: number;
  /** Pa */
  readonly pressure?: number;
  /** Cornering stiffness of one tyre at the load it is rated for, N/rad. */
  readonly cornering?: number;
  /** Relaxation length, m. */
  readonly relaxation?: number;
  readonly dual: boolean;
  /** Pa; at which it carries its capacity. */
  readonly referencePressure?: number;
  readonly location: Location;
}

export interface AxleGroup {
  /** `front`, `rear`, `axles`. */
  readonly name: string;
  /** Front to rear. */
  readonly axles: readonly Axle[];
  /** Middle of the group, m. */
  readonly x: number;
  readonly suspension: 'equalised' | 'independent';
  readonly steered: boolean;
  /** True for air suspension or one taken as equivalent; absent where it is not said. */
  readonly airSuspension?: true;
  readonly rating?: Limit;
  readonly tyres?: Tyres;
  readonly location: Location;
}

export type CouplingKind = 'ball' | 'pin' | 'eye' | 'kingpin' | 'gooseneck' | 'drawbar';

export interface Coupling {
  readonly kind: CouplingKind;
  /** Diameter of the ball, pin or eye, m. */
  readonly size?: number;
  readonly x: number;
  readonly z: number;
  readonly rating?: Limit;
  /** Resists turning at the coupling: N·m·s/rad and N·m/rad. */
  readonly damper?: number;
  readonly spring?: number;
  /** Absent where the file has no line for it. */
  readonly marks?: CouplingMarks;
  readonly location: Location;
}

/** Drag of the air on a body, with what had to be taken for it. */
export interface BodyDrag extends DragArea {
  readonly assumptions: readonly Assumption[];
}

export interface BodyOutline {
  /** x of the front and rear end, m (front greater). */
  readonly front: number;
  readonly rear: number;
  readonly width?: number;
  readonly bottom?: number;
  readonly top?: number;
  /** Where its line says anything of it. */
  readonly drag?: BodyDrag;
  readonly location: Location;
}

export type LimitName =
  | 'GVM'
  | 'GCM'
  | 'ATM'
  | 'GTM'
  | 'towing'
  | 'towing_unbraked'
  | 'coupling'
  | 'payload'
  | 'coupling_minimum'
  | 'UVW'
  | 'CCC'
  | 'OCCC';

/** What the certification label says a unit is. */
export type VehicleType =
  | 'passenger_car'
  | 'multipurpose_vehicle'
  | 'truck'
  | 'motor_home'
  | 'recreation_trailer'
  | 'utility_trailer';

export type BrakeKind = 'unbraked' | 'overrun' | 'electric' | 'air';

/** A requirement of the author, still as an expression over computed quantities. */
export interface Requirement {
  readonly expression: Expression;
  readonly comparison: Comparison;
  /** The unit in whose block it stands, with the names it goes by (a variant also by its original's). */
  readonly owner?: readonly string[];
  readonly message?: string;
  /** Cases it holds in; all when undefined. */
  readonly cases?: readonly string[];
  readonly location: Location;
  readonly names: NameResolver;
}

/** The named quantities (`let`) that an expression uses, by dotted name. */
export type NameResolver = ReadonlyMap<string, Quantity>;

export type WeightDistributionDevice =
  | { readonly kind: 'moment'; readonly moment: number; readonly location: Location }
  | { readonly kind: 'restored'; readonly share: number; readonly location: Location };

/** A vehicle or a trailer. */
export interface UnitModel {
  readonly kind: 'vehicle' | 'trailer';
  readonly name: string;
  readonly title?: string;
  readonly documentation?: string;
  /** Name of the unit this one is a variant of. */
  readonly variantOf?: string;
  readonly groups: readonly AxleGroup[];
  /** Trailers: where it is coupled to the unit ahead. */
  readonly coupling?: Coupling;
  /** Where the next unit is coupled. */
  readonly hitch?: Coupling;
  readonly brakes: BrakeKind;
  readonly parts: readonly Part[];
  readonly tanks: readonly Tank[];
  readonly lockers: readonly Locker[];
  readonly seats: readonly Seat[];
  /** Names of tanks, lockers and seats that are declared in lines with errors, so that there is nothing to say of them. */
  readonly unreadable: readonly string[];
  readonly body?: BodyOutline;
  readonly limits: Readonly<Partial<Record<LimitName, Limit>>>;
  readonly weightDistribution?: WeightDistributionDevice;
  /** As certified, where stated. */
  readonly vehicleType?: VehicleType;
  /** Sleeping places; stated of caravans and motor caravans. */
  readonly berths?: number;
  /** A vehicle that is type-approved as an off-road vehicle. */
  readonly offRoad?: boolean;
  readonly requirements: readonly Requirement[];
  /** Cases written in a trailer's own block. */
  readonly cases: readonly CaseModel[];
  /** States of the trailer alone, where its block states any. */
  readonly reachable?: Reachable;
  /** Slips written in its own block; a variant has none of its original's. */
  readonly weighings: readonly WeighingModel[];
  readonly assumptions: readonly Assumption[];
  /** False when something its loads need is missing or wrong; the findings say what. */
  readonly computable: boolean;
  /** The declaration's name. */
  readonly location: Location;
  /** Levels of rules, stated in its block; each code once. */
  readonly levels: readonly LineLevel[];
}

export interface Item {
  readonly name: string;
  readonly title?: string;
  readonly documentation?: string;
  readonly mass: number;
  readonly size?: Size;
  readonly tolerance?: number;
  readonly tags: readonly string[];
  readonly location: Location;
}

/** Items at a place of a unit. */
export interface Stowed {
  readonly item: Item;
  readonly count: number;
  /** Index of the unit in the rig. */
  readonly unit: number;
  readonly locker?: Locker;
  readonly centre: Position;
  /** Half widths of the tolerances of the place, m, where its line states any. */
  readonly placeTolerance?: PlaceTolerance;
  /** The reference in the `stow` line. */
  readonly location: Location;
}

/** A named load state. */
export interface CaseModel {
  readonly name: string;
  readonly title?: string;
  readonly documentation?: string;
  /** Levels by `Unit.tank`. */
  readonly levels: ReadonlyMap<string, LevelRange>;
  /** `Unit.tank` of those whose level the case states in a line with an error: they count as if it stated none. */
  readonly levelsInError?: ReadonlySet<string>;
  /** Seats taken, as `Unit.seat`, where the case states them. */
  readonly occupants?: readonly string[];
  /** Names of items left out. */
  readonly absent: ReadonlySet<string>;
  readonly stowed: readonly Stowed[];
  readonly location: Location;
}

/** The states that are driven beside the named cases, as far as the author limits or widens them. */
export interface Reachable {
  /** Ranges of levels by `Unit.tank`. */
  readonly levels: ReadonlyMap<string, LevelRange>;
  /** `Unit.tank` of those whose levels a line with an error states: only those of the cases are looked at. */
  readonly levelsInError: ReadonlySet<string>;
  /** Seats as `Unit.seat` that may be empty or taken. */
  readonly seats: ReadonlySet<string>;
  /** Names of items that may be left behind. */
  readonly items: ReadonlySet<string>;
  readonly location: Location;
}

export interface Travel {
  /** m/s */
  readonly speed?: number;
  /** Steepest grades, rise over run: `down` ≤ 0 ≤ `up`. */
  readonly down: number;
  readonly up: number;
  /** m/s² */
  readonly braking?: number;
  readonly location: Location;
}

/** A combination with its load states; a unit looked at alone is one too. */
export interface RigModel {
  readonly name: string;
  readonly title?: string;
  readonly documentation?: string;
  /** True for a unit that is analysed alone, not by a `rig`. */
  readonly standalone: boolean;
  /** As named; see `bindingMarkets` for those that bind. */
  readonly markets: readonly MarketName[];
  /** From the front; the vehicle first, if there is one. */
  readonly units: readonly UnitModel[];
  /** Seats taken, as `Unit.seat`. */
  readonly occupants: readonly string[];
  readonly stowed: readonly Stowed[];
  readonly weightDistribution?: WeightDistributionDevice;
  readonly travel?: Travel;
  readonly cases: readonly CaseModel[];
  /** Absent where the file does not limit what is reachable. */
  readonly reachable?: Reachable;
  readonly weighings: readonly WeighingModel[];
  readonly requirements: readonly Requirement[];
  readonly assumptions: readonly Assumption[];
  readonly location: Location;
  /** Levels of rules, stated in its block; each code once. */
  readonly levels: readonly LineLevel[];
}
