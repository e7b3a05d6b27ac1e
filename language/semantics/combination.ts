import type { Combination, Unit, WeightDistribution } from '../mechanics/combination.ts';
import type { UnitModel, WeightDistributionDevice } from './model.ts';

/** The geometry of units in the form that statics takes. */
export function toMechanics(units: readonly UnitModel[], device?: WeightDistributionDevice): Combination {
  return {
    units: units.map(toUnit),
    ...(device ? { weightDistribution: toDevice(device) } : {}),
  };
}

function toDevice(device: WeightDistributionDevice): WeightDistribution {
  return device.kind === 'moment'
    ? { kind: 'moment', moment: device.moment }
    : { kind: 'restored', share: device.share };
}

/** The geometry of one unit in the form that statics takes. */
export function toUnit(unit: UnitModel): Unit {
  const { coupling, hitch } = unit;
  return {
    groups: unit.groups.map(({ axles, suspension }) => ({ axles, suspension })),
    couplingCarries: coupling !== undefined && coupling.kind !== 'drawbar',
    // A braked trailer holds itself back; one without brakes is held by the unit ahead.
    brakeShare: unit.kind === 'trailer' && unit.brakes !== 'unbraked' ? 1 : 0,
    ...(coupling ? { coupling: { x: coupling.x, z: coupling.z } } : {}),
    ...(hitch ? { hitch: { x: hitch.x, z: hitch.z } } : {}),
  };
}
