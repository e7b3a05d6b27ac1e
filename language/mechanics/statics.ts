import { type Combination, type CouplingPoint, type Field, STANDARD_GRAVITY, type Unit } from './combination.ts';
import {
  addInfluences,
  blendInfluences,
  constantInfluence,
  type Influence,
  scaleInfluence,
  unitInfluence,
} from './influence.ts';
import { type GroupLoads, groupLoads } from './lateral.ts';
import { findProblem, type StaticsProblem } from './problems.ts';
import { findSupports, type SupportRow, type UnitSupports } from './supports.ts';

/** What the computation had to take for granted. */
export type StaticAssumptionKind =
  /** More supports than equilibrium can tell and a spring rate missing: all axles of the unit have equal rates. */
  | 'equal-spring-rates'
  /** Hitch and coupling heights differ, but without spring rates the effect on the axles is left out. */
  | 'hitch-height-ignored'
  /** The coupling lets the unit roll: its own axles carry all of its roll moment. */
  | 'roll-moment-on-own-axles'
  /** The axles share the roll moment in proportion to the shares of the load they carry. */
  | 'roll-moment-by-axle-load'
  /** Each mass's roll moment goes to the supports by the shares in which they carry that mass. */
  | 'roll-moment-by-longitudinal-share';

export interface StaticAssumption {
  readonly assumption: StaticAssumptionKind;
  readonly unit: number;
  /** The axle group that gave rise to it, where it is one. */
  readonly group?: number;
}

/** The loads of one unit's supports, as affine functions of all masses of the combination. */
export interface SupportLoads {
  /** Vertical load on the coupling to the unit ahead, kg, downward on the hitch; absent where none is carried. */
  readonly coupling?: Influence;
  /** Longitudinal force at that coupling over g, kg, positive when stretched; present wherever there is a coupling. */
  readonly drawbar?: Influence;
  readonly groups: readonly GroupLoads[];
}

/** Support loads of every unit (by index); every coefficient is a finite number. */
export interface SupportSolution {
  readonly units: readonly SupportLoads[];
  readonly assumptions: readonly StaticAssumption[];
  /** Moment of the weight-distribution device over g, kg m, if there is one. */
  readonly deviceMoment?: Influence;
}

/** What a unit puts on the hitch of the one ahead: vertical load and forward push, kg. */
interface HitchLoad {
  readonly load: Influence;
  readonly push: Influence;
}

/** All that stands on a unit: sum of loads (kg), of their pitching moments, nose down (kg m), and push ahead (kg). */
interface Resultant {
  readonly total: Influence;
  readonly moment: Influence;
  readonly push: Influence;
}

/** A unit with all that stands on it, and the vertical load on its coupling, if that carries any. */
interface LoadedUnit {
  readonly unit: Unit;
  readonly index: number;
  readonly supports: UnitSupports;
  readonly standing: Resultant;
  readonly coupling?: Influence;
}

/** A combination made ready: the field-independent part. */
interface Chain {
  readonly combination: Combination;
  readonly supports: readonly UnitSupports[];
}

/** Body forces per kilogram over g: downward onto the road, and forward along it. */
interface BodyForce {
  readonly down: number;
  readonly forward: number;
}

const AT_REST: BodyForce = { down: 1, forward: 0 };

export function isStaticsProblem(result: SupportSolution | StaticsProblem): result is StaticsProblem {
  return 'problem' in result;
}

/**
 * The loads on all supports of a combination in a quasi-static state, loads normal to the road over g in kg.
 *
 * Every unit is rigid and stands as drawn: its masses keep their places whatever its springs and its hitch do. Solved
 * from the rear unit forward; what a unit puts on its coupling stands on the unit ahead at its hitch, so that loads of
 * the vehicle have terms from the masses of every unit behind it. On a grade or under braking each kilogram also
 * pushes along the road at its height. When that push is forward (descending, braking) every towed unit holds back its
 * `brakeShare` of its own at the ground; the rest passes through the coupling to the unit ahead and in the end to the
 * vehicle's tyres. When it is backward (climbing) the vehicle alone drives. Forces at a coupling act at the height of
 * the hitch that holds it; for a trailer standing alone, at the height of its coupling.
 *
 * Never throws: what cannot be solved comes back as a `StaticsProblem`.
 */
export function solveSupports(combination: Combination, field: Field): SupportSolution | StaticsProblem {
  const problem = findProblem(combination, field);
  if (problem !== undefined) return problem;
  const supports: UnitSupports[] = [];
  for (const [index, unit] of combination.units.entries()) {
    const found = findSupports(unit, jointHeight(combination, index) - (unit.coupling?.z ?? 0));
    if ('problem' in found) return { ...found, unit: index };
    supports.push(found);
  }
  const chain: Chain = { combination, supports };
  const deviceMoment = findDeviceMoment(chain);
  if (deviceMoment !== undefined && 'problem' in deviceMoment) return deviceMoment;
  const force = bodyForce(field);
  const units = loadChain(chain, force, deviceMoment).map((each) => supportLoads(each, force.down));
  if (!units.every(hasFiniteLoads)) return { problem: 'overflow' };
  return {
    units,
    assumptions: supports.flatMap((each, index) => assumptionsOf(combination, each, index)),
    deviceMoment,
  };
}

function bodyForce(field: Field): BodyForce {
  const slope = Math.hypot(1, field.grade);
  return { down: 1 / slope, forward: field.deceleration / STANDARD_GRAVITY - field.grade / slope };
}

/** Height above the ground of the joint at a unit's front, m: of the hitch that holds it, or its own if none does. */
function jointHeight(combination: Combination, index: number): number {
  const holder: CouplingPoint | undefined = combination.units[index - 1]?.hitch;
  return holder?.z ?? combination.units[index]?.coupling?.z ?? 0;
}

/** What stands on every unit, found from the rear unit forward; by unit index. */
function loadChain(chain: Chain, force: BodyForce, deviceMoment: Influence | undefined): LoadedUnit[] {
  const { units } = chain.combination;
  const loaded: LoadedUnit[] = [];
  let behind: HitchLoad | undefined;
  for (let index = units.length - 1; index >= 0; index--) {
    const unit = units[index];
    const supports = chain.supports[index];
    if (unit === undefined || supports === undefined) continue;
    const standing = withDevice(resultant(chain, unit, index, force, behind), index, deviceMoment);
    const coupling = supports.coupling && rowLoad(supports.coupling, standing);
    loaded.unshift({ unit, index, supports, standing, coupling });
    behind = { load: coupling ?? constantInfluence(units.length, 0), push: standing.push };
  }
  return loaded;
}

function supportLoads({ unit, index, supports, standing, coupling }: LoadedUnit, down: number): SupportLoads {
  return {
    coupling,
    drawbar: unit.coupling && scaleInfluence(standing.push, -1),
    groups: groupLoads({ unit, index, supports, down, loads: supports.axles.map((row) => rowLoad(row, standing)) }),
  };
}

function resultant(
  chain: Chain,
  unit: Unit,
  index: number,
  force: BodyForce,
  behind: HitchLoad | undefined,
): Resultant {
  const count = chain.combination.units.length;
  let total = unitInfluence(count, index, { one: force.down });
  let moment = unitInfluence(count, index, { x: force.down, z: force.forward });
  const held = force.forward > 0 ? unit.brakeShare : 0;
  let push =
    unit.coupling === undefined
      ? constantInfluence(count, 0)
      : unitInfluence(count, index, { one: (1 - held) * force.forward });
  if (behind !== undefined && unit.hitch !== undefined) {
    total = addInfluences(total, behind.load);
    moment = blendInfluences(moment, 1, behind.load, unit.hitch.x);
    moment = blendInfluences(moment, 1, behind.push, unit.hitch.z);
    if (unit.coupling !== undefined) push = addInfluences(push, behind.push);
  }
  if (unit.coupling !== undefined) moment = blendInfluences(moment, 1, push, -jointHeight(chain.combination, index));
  return { total, moment, push };
}

/** The device turns the vehicle's nose down and the first trailer's nose up by one moment. */
function withDevice(standing: Resultant, index: number, deviceMoment: Influence | undefined): Resultant {
  if (deviceMoment === undefined || index > 1) return standing;
  return { ...standing, moment: blendInfluences(standing.moment, 1, deviceMoment, index === 0 ? 1 : -1) };
}

function rowLoad(row: SupportRow, standing: Resultant): Influence {
  const load = blendInfluences(standing.total, row.total, standing.moment, row.moment);
  return row.constant === 0 ? load : { ...load, constant: load.constant + row.constant };
}

/**
 * The moment of the weight-distribution device over g, kg m. A restored share is set on level ground, as one does it
 * with the rig loaded and standing, and that moment then stays in any other field. With `lost` the front group's load
 * lost per kg on the hitch, V the coupling load without the device and u the coupling load shed per unit of moment:
 * the front group gains (its own row's moment + lost·u) per unit of moment and is to regain share·lost·V.
 */
function findDeviceMoment(chain: Chain): Influence | StaticsProblem | undefined {
  const device = chain.combination.weightDistribution;
  if (device === undefined) return undefined;
  const count = chain.combination.units.length;
  if (device.kind === 'moment') return constantInfluence(count, device.moment / STANDARD_GRAVITY);
  const front = frontGroupRow(chain.supports[0]);
  const lost = -(front.total + front.moment * (chain.combination.units[0]?.hitch?.x ?? 0));
  const gain = front.moment + lost * (chain.supports[1]?.coupling?.moment ?? 0);
  if (!(lost > 1e-9 && gain > 0)) return { problem: 'nothing-to-restore', unit: 0 };
  const coupling = loadChain(chain, AT_REST, undefined)[1]?.coupling ?? constantInfluence(count, 0);
  return scaleInfluence(coupling, (device.share * lost) / gain);
}

function frontGroupRow(supports: UnitSupports | undefined): SupportRow {
  const row = { total: 0, moment: 0, constant: 0 };
  for (const support of supports?.axles ?? []) {
    if (support.group !== 0) continue;
    row.total += support.total;
    row.moment += support.moment;
  }
  return row;
}

function assumptionsOf(combination: Combination, supports: UnitSupports, unit: number): StaticAssumption[] {
  const assumptions: StaticAssumption[] = [];
  const groups = combination.units[unit]?.groups ?? [];
  if (supports.equalRatesAssumed) {
    for (const [group, { axles }] of groups.entries()) {
      if (axles.some((axle) => axle.rate === undefined))
        assumptions.push({ assumption: 'equal-spring-rates', unit, group });
    }
  }
  if (supports.hitchHeightIgnored) assumptions.push({ assumption: 'hitch-height-ignored', unit });
  if (supports.coupling === undefined) {
    assumptions.push({ assumption: 'roll-moment-by-longitudinal-share', unit });
  } else {
    assumptions.push({ assumption: 'roll-moment-on-own-axles', unit });
    const severalAxles = groups.reduce((sum, { axles }) => sum + axles.length, 0) > 1;
    if (severalAxles) assumptions.push({ assumption: 'roll-moment-by-axle-load', unit });
  }
  return assumptions;
}

function hasFiniteLoads(loads: SupportLoads): boolean {
  const all = [loads.coupling, loads.drawbar, ...loads.groups.map((group) => group.load)];
  for (const { axles } of loads.groups) for (const axle of axles) all.push(axle.left, axle.right);
  let sum = 0;
  for (const influence of all) {
    if (influence === undefined) continue;
    sum += Math.abs(influence.constant);
    for (const { one, x, y, z, xy } of influence.units) {
      sum += Math.abs(one) + Math.abs(x) + Math.abs(y) + Math.abs(z) + Math.abs(xy);
    }
  }
  return Number.isFinite(sum);
}
