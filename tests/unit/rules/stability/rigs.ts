import { checkStability } from '../../../../language/rules/stability/index.ts';
import {
  evaluateStability,
  type RigStability,
  type StabilityResult,
} from '../../../../language/semantics/stability/evaluate-stability.ts';
import { fail, read } from '../../semantics/support.ts';

/** An invented car and tourer, for the rules on lateral stability. */
export interface Weekend {
  /** kg on the front and the rear axle of the car. */
  readonly kerb?: readonly [front: number, rear: number];
  readonly ratings?: readonly [front: number, rear: number];
  /** mm behind the coupling. */
  readonly tare?: number;
  readonly brakes?: string;
  /** Lines of the tourer, of the rig and of the file. */
  readonly tourer?: string;
  readonly rig?: string;
  readonly file?: string;
}

export function weekend({
  kerb = [780, 620],
  ratings = [900, 1000],
  tare = 3450,
  brakes = 'overrun',
  tourer = '',
  rig = '',
  file = '',
}: Weekend): string {
  return `${file}
vehicle Runabout {
  wheelbase 2500 mm, track 1500 mm
  kerb ${kerb[0]} kg on front, ${kerb[1]} kg on rear, 560 mm up, inertia 2300 kg·m²
  axle front rating ${ratings[0]} kg
  axle rear rating ${ratings[1]} kg
  hitch ball at 850 mm behind rear, 430 mm up
}
trailer Tourer {
  coupling ball 50 mm, 430 mm up
  axles single at 3900 mm back, track 1860 mm, rating 1100 kg
  tare 800 kg at ${tare} mm back, 720 mm up, inertia 1700 kg·m²
  brakes ${brakes}
  ${tourer}
}
rig Weekend {
  tow Runabout
  haul Tourer
  ${rig}
  case empty { }
}
`;
}

export function stabilityOf(text: string, rig = 'Weekend'): RigStability {
  return evaluateStability(read(text).result(rig)) ?? fail(`${rig} tows nothing`);
}

export const findingsOf = (text: string) => checkStability(stabilityOf(text));

export const keysOf = (text: string) => findingsOf(text).map(({ key }) => key);

export function firstResult({ results }: RigStability): StabilityResult {
  return results[0] ?? fail('no result');
}
