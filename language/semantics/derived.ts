import { evaluateLoadValue, payloadInfluence } from '../mechanics/influence.ts';
import type { MassProperties } from '../mechanics/mass.ts';
import { DIMENSIONLESS, type Dimension, INERTIA, LENGTH, MASS } from '../units/dimension.ts';
import type { RigModel } from './model.ts';
import { massInRunningOrder } from './running-order.ts';
import type { Computed, StateResult } from './state.ts';

/** Masses, places and shares that follow from the loads. */
export function addDerived(
  rig: RigModel,
  sources: StateResult['sources'],
  units: readonly MassProperties[],
  quantities: Map<string, Computed>,
  soloFront: number | undefined,
): void {
  const figure = (name: string) => quantities.get(name)?.value;
  const add = (name: string, value: number | undefined, dimension: Dimension) => {
    if (value !== undefined && Number.isFinite(value)) quantities.set(name, { name, value, dimension });
  };
  rig.units.forEach((unit, index) => {
    const { name } = unit;
    const whole = units[index];
    const mass = figure(`${name}.mass`) ?? 0;
    const influence = payloadInfluence(rig.units.length, index);
    const payload = `${name}.payload`;
    quantities.set(payload, {
      name: payload,
      value: evaluateLoadValue(influence, sources),
      dimension: MASS,
      influence,
    });
    add(`${name}.mass_in_running_order`, massInRunningOrder(unit), MASS);
    if (whole?.centre !== undefined) {
      add(`${name}.cg.back`, -whole.centre.x, LENGTH);
      add(`${name}.cg.left`, whole.centre.y, LENGTH);
      add(`${name}.cg.up`, whole.centre.z, LENGTH);
      add(`${name}.yaw_inertia`, whole.inertia.zz, INERTIA);
    }
    const coupling = figure(`${name}.coupling.load`);
    if (coupling !== undefined && mass > 0) add(`${name}.coupling.share`, coupling / mass, DIMENSIONLESS);
    unit.groups.forEach((group, position) => {
      const load = figure(`${name}.${group.name}.load`);
      const left = figure(`${name}.${group.name}.left`);
      const right = figure(`${name}.${group.name}.right`);
      if (load !== undefined && left !== undefined && right !== undefined && load > 0) {
        add(`${name}.${group.name}.imbalance`, Math.abs(left - right) / load, DIMENSIONLESS);
      }
      if (index === 0 && position === 0 && soloFront !== undefined && soloFront > 0 && load !== undefined) {
        add(`${name}.${group.name}.lost`, 1 - load / soloFront, DIMENSIONLESS);
      }
    });
  });
  const [first, ...others] = rig.units;
  if (first?.kind === 'vehicle' && others.length > 0) {
    const vehicle = figure(`${first.name}.mass`) ?? 0;
    const trailers = others.reduce((sum, { name }) => sum + (figure(`${name}.mass`) ?? 0), 0);
    if (vehicle > 0) add('rig.mass_ratio', trailers / vehicle, DIMENSIONLESS);
  }
}
