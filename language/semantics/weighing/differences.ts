import {
  couplingLoadByDifference,
  type Measured,
  towedMassByDifference,
} from '../../mechanics/weighing/differences.ts';
import type { RigResult } from '../state.ts';
import { stateOf } from './observations.ts';
import { type KnownLoad, knownLoads } from './sums.ts';
import type { PassModel, WeighingModel } from './weighing-model.ts';

/** A load that no scale read by itself but two passes give. */
export interface PassDifference extends Measured {
  /** Name of the computed quantity, or several joined by ` + `. */
  readonly quantity: string;
  /** How it is made: `axles of YardTruck coupled up less YardTruck alone`. */
  readonly basis: string;
  /** Case of the passes; absent where the rig has none. */
  readonly case?: string;
  /** The same as computed, kg. */
  readonly predicted: number;
}

/**
 * What the difference of each coupled pass and of the vehicle alone gives: the load on the first coupling and the mass
 * of all that is towed. Only where both were taken in one case, since what is in the vehicle must not change.
 */
export function differencesOf(result: RigResult, { passes }: WeighingModel): readonly PassDifference[] {
  return passes.flatMap((pass) => (pass.kind === 'coupled' ? differencesIn(result, passes, pass) : []));
}

function differencesIn(result: RigResult, passes: readonly PassModel[], coupled: PassModel): readonly PassDifference[] {
  const { units } = result.rig;
  const [vehicle, first, ...others] = units;
  if (vehicle?.kind !== 'vehicle' || first === undefined) return [];
  const alone = aloneIn(passes, coupled);
  const state = stateOf(result, coupled);
  if (alone === undefined || state === undefined) return [];
  const together = knownLoads(coupled.readings, { kind: 'coupled', units });
  const single = knownLoads(alone.readings, { kind: 'solo', units: [vehicle] });
  const mass = single.get('rig.mass');
  if (mass === undefined) return [];
  const found: PassDifference[] = [];
  const add = (quantities: readonly string[], basis: string, measured: Measured) => {
    const computed = quantities.map((name) => state.quantities.get(name)?.value ?? Number.NaN);
    const predicted = computed.reduce((sum, value) => sum + value, 0);
    if (!Number.isFinite(predicted)) return;
    const of = coupled.case === undefined ? {} : { case: coupled.case };
    found.push({ ...measured, quantity: quantities.join(' + '), basis, predicted, ...of });
  };
  const axles = together.get(`${vehicle.name}.axles_total`);
  const carried = first.coupling !== undefined && first.coupling.kind !== 'drawbar';
  if (axles !== undefined && carried) {
    const basis = `axles of ${vehicle.name} coupled up less ${vehicle.name} alone`;
    add([`${first.name}.coupling.load`], basis, couplingLoadByDifference(measured(axles), measured(mass)));
  }
  const whole = together.get('rig.mass');
  if (whole !== undefined) {
    const towed = [first, ...others].map(({ name }) => `${name}.mass`);
    add(
      towed,
      `all axles coupled up less ${vehicle.name} alone`,
      towedMassByDifference(measured(whole), measured(mass)),
    );
  }
  return found;
}

const measured = ({ readings }: KnownLoad): readonly Measured[] => readings;

/** The pass of the vehicle alone in the case of the coupled one. */
function aloneIn(passes: readonly PassModel[], coupled: PassModel): PassModel | undefined {
  return passes.find((pass) => pass.kind === 'solo' && pass.unit === 0 && pass.case === coupled.case);
}
