import { finding } from '../diagnostics/create.ts';
import type { Location } from '../diagnostics/finding.ts';
import { LOADS } from '../diagnostics/loads.ts';
import type { RigModel, UnitModel } from '../semantics/model.ts';
import type { StateResult } from '../semantics/state.ts';
import type { Comparison } from './limits/limit-rule.ts';
import { limitPlace, ownPlace, pointAt } from './places.ts';
import type { Rule } from './rule.ts';
import { breachOf, levelStates, quantityOf, ROUNDING, worstOf } from './states.ts';

/** What a weight-distribution device does to the front axle of a tow vehicle. */
export interface Restoration {
  readonly vehicle: UnitModel;
  /** Where the device is stated. */
  readonly location: Location;
  /** Share of the load lost to the trailer that it brings back, where stated. */
  readonly share: number | undefined;
  /** Load of the front axle with the trailer, kg, and without: at 100 % they are the same. */
  readonly compare: (state: StateResult) => Comparison | undefined;
}

/** The restoration of a rig with such a device; undefined without one. */
export function restorationOf(rig: RigModel): Restoration | undefined {
  const vehicle = rig.units[0];
  const front = vehicle?.groups[0];
  const device = rig.weightDistribution ?? vehicle?.weightDistribution;
  if (vehicle?.kind !== 'vehicle' || front === undefined || device === undefined) return undefined;
  const prefix = `${vehicle.name}.${front.name}`;
  return {
    vehicle,
    location: device.location,
    share: device.kind === 'restored' ? device.share : undefined,
    compare: (state) => {
      const lost = quantityOf(state, `${prefix}.lost`);
      const value = quantityOf(state, `${prefix}.load`);
      return lost === undefined || value === undefined || lost >= 1 ? undefined : { value, limit: value / (1 - lost) };
    },
  };
}

/** A weight-distribution device that puts more on the front axle than the trailer takes off, on level ground. */
export const restoresTooMuch: Rule = {
  keys: ['restores-too-much'],
  *check(result) {
    const restoration = restorationOf(result.rig);
    if (restoration === undefined) return;
    const { vehicle, location, share, compare } = restoration;
    const gainedIn = (state: StateResult): number | undefined => {
      const loads = compare(state);
      return loads && loads.value - loads.limit;
    };
    const worst = worstOf(levelStates(result), gainedIn, ROUNDING);
    if (worst === undefined) return;
    const { state, by: gained } = worst;
    const place = ownPlace(result, location, limitPlace(result, state));
    const parameters = { unit: vehicle.name, share, gained, ...breachOf(worst) };
    yield finding('restores-too-much', LOADS['restores-too-much'], parameters, place, [
      ...pointAt(place, location, 'weight-distribution device'),
    ]);
  },
};
