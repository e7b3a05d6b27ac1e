import type { Unit } from './combination.ts';
import { addInfluences, blendInfluences, type Influence, scaleInfluence, unitInfluence } from './influence.ts';
import type { AxleSupport, UnitSupports } from './supports.ts';

/** Loads of one axle, kg; left + right = load. */
export interface AxleLoads {
  readonly load: Influence;
  readonly left: Influence;
  readonly right: Influence;
}

/** Loads of an axle group and of its axles, kg. */
export interface GroupLoads {
  readonly load: Influence;
  readonly axles: readonly AxleLoads[];
}

/** A unit with the loads of its axle supports found; `down` is the load normal to the road per kilogram. */
export interface SupportedUnit {
  readonly unit: Unit;
  readonly index: number;
  readonly supports: UnitSupports;
  readonly loads: readonly Influence[];
  readonly down: number;
}

/**
 * Splits the support loads into axles and wheels.
 *
 * A unit on a coupling that carries load is free to roll about it (ball, pin, kingpin): its axles take all of its own
 * roll moment, in proportion to their constant shares of the axle load. On a unit without such a coupling the moment
 * of each mass goes to the supports in the shares in which they carry the mass itself on level ground. Joints lie in
 * the plane of symmetry and pass no roll moment, so only a unit's own masses move load across it.
 */
export function groupLoads(supported: SupportedUnit): GroupLoads[] {
  const { supports, loads } = supported;
  const groups: { load: Influence; axles: AxleLoads[] }[] = [];
  for (const [row, support] of supports.axles.entries()) {
    const load = loads[row];
    if (load === undefined) continue;
    const group = groups[support.group];
    const axles = splitSupport(supported, support, load);
    if (group === undefined) {
      groups.push({ load, axles });
    } else {
      group.load = addInfluences(group.load, load);
      group.axles.push(...axles);
    }
  }
  return groups;
}

function splitSupport(supported: SupportedUnit, support: AxleSupport, supportLoad: Influence): AxleLoads[] {
  const share = 1 / support.axleCount;
  const load = share === 1 ? supportLoad : scaleInfluence(supportLoad, share);
  const own = supported.unit.groups[support.group]?.axles ?? [];
  return own.slice(support.firstAxle, support.firstAxle + support.axleCount).map((axle) => {
    const shift = leftShift(supported, support, (share * supported.down) / axle.track);
    return { load, left: blendInfluences(load, 0.5, shift, 1), right: blendInfluences(load, 0.5, shift, -1) };
  });
}

/** The load that goes from the right to the left wheels; `perMoment` is that load per kg m of roll moment. */
function leftShift({ supports, loads, index }: SupportedUnit, support: AxleSupport, perMoment: number): Influence {
  const count = loads[0]?.units.length ?? 0;
  if (supports.coupling === undefined) {
    return unitInfluence(count, index, { y: support.total * perMoment, xy: support.moment * perMoment });
  }
  const onAxles = supports.axles.reduce((sum, { moment }) => sum + moment, 0);
  return unitInfluence(count, index, { y: (support.moment / onAxles) * perMoment });
}
