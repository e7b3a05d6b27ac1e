import { finding } from '../diagnostics/create.ts';
import type { Finding } from '../diagnostics/finding.ts';
import { WEIGHINGS } from '../diagnostics/weighing.ts';
import type { FoundTare, LackingUnit } from '../diagnostics/weighing-wording.ts';
import { SIGNIFICANCE } from '../mechanics/weighing/reconciliation.ts';
import { systemOfRig } from '../semantics/display-system.ts';
import type { RigResult } from '../semantics/state.ts';
import { stateOf } from '../semantics/weighing/observations.ts';
import {
  reconcileWeighings,
  type WeighedReading,
  type WeighedTare,
  type WeighingResult,
} from '../semantics/weighing/weighing-result.ts';
import type { Rule } from './rule.ts';

/** Slips against the computed loads, and their readings against each other. */
export const weighings: Rule = {
  keys: ['reading-contradicts', 'slip-disagrees', 'slip-open'],
  *check(result) {
    for (const slip of reconcileWeighings(result)) {
      yield* contradiction(result, slip);
      yield* disagreement(result, slip);
      yield* nothingDetermined(slip);
    }
  },
};

function* contradiction(
  { rig }: RigResult,
  { weighing, suspects, reconciliation }: WeighingResult,
): Generator<Finding> {
  const [worst, ...alike] = suspects;
  if (worst === undefined) return;
  const { reading, fittedResidual, redundancy } = worst;
  // A reading pulls the fit towards itself; without it the others would put it this far away.
  const other = reading.value - fittedResidual / redundancy;
  const parameters = {
    weighing: weighing.name,
    reading: { name: nameOf(worst), read: reading.value, other },
    alike: alike.map(nameOf),
    othersAgree: reconciliation.contradiction?.othersAgree !== false,
    system: systemOfRig(rig),
  };
  yield finding(
    'reading-contradicts',
    WEIGHINGS['reading-contradicts'],
    parameters,
    reading.location,
    alike.map(pointAt),
  );
}

function* disagreement(result: RigResult, slip: WeighingResult): Generator<Finding> {
  const { weighing, readings, suspects, tares } = slip;
  const beyond = readings
    .filter(({ verdict }) => verdict === 'beyond tolerance')
    .sort((a, b) => Math.abs(b.residual) / b.tolerance - Math.abs(a.residual) / a.tolerance);
  const [worst] = beyond;
  if (worst === undefined) return;
  const state = stateOf(result, worst.pass);
  const parameters = {
    weighing: weighing.name,
    state: worst.pass.case === undefined || state === undefined ? '' : state.label,
    beyond: beyond.length,
    count: readings.length,
    worst: { name: nameOf(worst), read: worst.reading.value, other: worst.predicted },
    tolerance: worst.tolerance,
    found: foundTares(tares),
    lacking: lackingUnits(tares, 'mass'),
    contradiction: suspects.length > 0,
    system: systemOfRig(result.rig),
  };
  yield finding('slip-disagrees', WEIGHINGS['slip-disagrees'], parameters, weighing.location, beyond.map(pointAt));
}

function* nothingDetermined({ weighing, tares }: WeighingResult): Generator<Finding> {
  const isDetermined = ({ mass, x, y, z }: WeighedTare) =>
    [mass, x, y, z].some(({ standardError }) => standardError !== undefined);
  if (tares.length === 0 || tares.some(isDetermined)) return;
  const parameters = { weighing: weighing.name, lacking: lackingUnits(tares, 'place') };
  yield finding('slip-open', WEIGHINGS['slip-open'], parameters, weighing.location);
}

/** What a slip says of tares that are off: of what is heavier or lighter, and of what has its centre elsewhere. */
export function foundTares(tares: readonly WeighedTare[]): readonly FoundTare[] {
  return tares.flatMap((tare): readonly FoundTare[] => {
    const { of, unlisted } = tare;
    if (unlisted === undefined) return displacedTares(tare);
    const { mass, x, y, z } = unlisted;
    return [
      {
        unit: of.name,
        unlisted: mass,
        ...(x === undefined ? {} : { x }),
        ...(y === undefined || Math.abs(y.value) < SIGNIFICANCE * y.standardError ? {} : { y }),
        ...(z === undefined ? {} : { z }),
      },
    ];
  });
}

function displacedTares(tare: WeighedTare): readonly FoundTare[] {
  return (['x', 'y', 'z'] as const).flatMap((axis) => {
    const { filed, value, standardError } = tare[axis];
    if (standardError === undefined || !(Math.abs(value - filed) > SIGNIFICANCE * standardError)) return [];
    return [{ unit: tare.of.name, axis, filed, found: { value, standardError } }];
  });
}

/** Units of which readings are missing to know the mass of the tare, or also its place along the unit. */
export function lackingUnits(tares: readonly WeighedTare[], wanted: 'mass' | 'place' | 'all'): readonly LackingUnit[] {
  return tares.flatMap(({ of, missing }) => {
    const asked = missing.filter(
      (reading) => wanted === 'all' || reading === 'total' || (wanted === 'place' && reading === 'longitudinal'),
    );
    return asked.length === 0 ? [] : [{ unit: of.name, kind: of.kind, missing: asked }];
  });
}

/** How messages name a reading: that of a unit alone is told from the same of the coupled rig. */
export function nameOf({ pass, reading }: Pick<WeighedReading, 'pass' | 'reading'>): string {
  return pass.kind === 'coupled' ? reading.name : `${reading.name} ${pass.kind}`;
}

const pointAt = (weighed: WeighedReading) => ({
  location: weighed.reading.location,
  message: `The reading of ${nameOf(weighed)}.`,
});
