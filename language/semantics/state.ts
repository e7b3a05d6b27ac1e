/** What a rig comes to in one load state: masses, loads and shares by their stable dotted names. */

import type { Location } from '../diagnostics/finding.ts';
import type { Field } from '../mechanics/combination.ts';
import type { Influence, Load, MassSource } from '../mechanics/influence.ts';
import type { Body, MassProperties } from '../mechanics/mass.ts';
import type { Dimension } from '../units/dimension.ts';
import type { Assumption, CaseModel, RigModel, Stowed } from './model.ts';

export type SourceKind = 'tare' | 'fitting' | 'panel' | 'member' | 'growth' | 'tank' | 'seat' | 'item';

/** One mass of the rig: what it is and where it was written. */
export interface Source {
  /** Dotted name, unique in the rig: `TourerB.fresh`, `TourerB.kitchen.sink`, `awning` (with its locker: `awning in TourerB.boot`). */
  readonly name: string;
  readonly kind: SourceKind;
  readonly location: Location;
  /** The stowed items, when it is one: what can be moved from locker to locker. */
  readonly stowed?: Stowed;
  readonly body: Body;
}

/** A computed quantity. Loads keep the form they were computed from, so that every number can say what it came from. */
export interface Computed {
  readonly name: string;
  /** SI; loads in kg. */
  readonly value: number;
  readonly dimension: Dimension;
  /** Present for loads: value = constant + Σ mass · influence. */
  readonly influence?: Influence;
}

/** Level road, or a quasi-static state of the same case on a grade or while braking. */
export interface Motion {
  readonly kind: 'level' | 'climb' | 'descent' | 'braking';
  readonly field: Field;
  /** Empty for level: "on the 8 % descent", "braking at 3 m/s²". */
  readonly text: string;
}

/** The loads of a rig in one motion, as functions of all its masses, whatever these are. */
export interface MotionLoads {
  readonly motion: Motion;
  /** By the stable dotted names of the loads. */
  readonly influences: ReadonlyMap<string, Influence>;
  /** Load of the vehicle's first axle group without its trailers; absent without vehicle or trailer. */
  readonly soloFront: Influence | undefined;
}

export interface StateResult {
  readonly rig: RigModel;
  readonly case: CaseModel;
  readonly motion: Motion;
  /** "case departing", "case departing, on the 8 % descent". */
  readonly label: string;
  readonly sources: readonly MassSource<Source>[];
  /** By unit index. */
  readonly units: readonly MassProperties[];
  readonly quantities: ReadonlyMap<string, Computed>;
  /** The load with its terms (computed on demand from the same influence); undefined for a name that is not a load. */
  readonly load: (name: string) => Load<Source> | undefined;
}

/** All states of a rig: per case the level state first, then grades and braking. */
export interface RigResult {
  readonly rig: RigModel;
  readonly states: readonly StateResult[];
  /** Level road first, as in the states of each case. */
  readonly motions: readonly MotionLoads[];
  readonly assumptions: readonly Assumption[];
}

/*
 * Names of computed quantities. U is a unit's name, G an axle group's (`front`, `rear`, `axles`), A an axle of a group of
 * several (`axle1`, from the front).
 *
 *   U.mass  U.payload  U.mass_in_running_order  U.cg.back  U.cg.left  U.cg.up  U.yaw_inertia
 *   U.coupling.load  U.coupling.share (of the trailer's mass)  U.coupling.drawbar (kg, stretched positive)
 *     (with what a weight-distribution device does: it puts a moment between the units, which shifts load)
 *   U.hitch.load (what the next unit puts on this one)
 *   U.axles_total (all axles of the unit)
 *   U.G.load  U.G.left  U.G.right  U.G.imbalance (heavier side's share above one half of the axle load, doubled: 0 to 1)
 *   U.G.A.load  U.G.A.left  U.G.A.right
 *   U.front.lost (share of the first group's load that the trailer takes off, vehicles only)
 *   rig.mass (all units)  rig.mass_ratio (trailers over vehicle)
 */
