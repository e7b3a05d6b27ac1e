import { finding } from '../diagnostics/create.ts';
import type { Finding } from '../diagnostics/finding.ts';
import { WEIGHINGS } from '../diagnostics/weighing.ts';
import type { ChangedTare, FoundTare, LackingUnit } from '../diagnostics/weighing-wording.ts';
import { SIGNIFICANCE } from '../mechanics/weighing/reconciliation.ts';
import { systemOfRig } from '../semantics/display-system.ts';
import type { RigResult } from '../semantics/state.ts';
import { type JointSlip, type JointWeighing, joinWeighings } from '../semantics/weighing/joint.ts';
import { stateOf } from '../semantics/weighing/observations.ts';
import type { WeighingModel } from '../semantics/weighing/weighing-model.ts';
import {
  reconcileWeighings,
  type WeighedReading,
  type WeighedTare,
  type WeighingResult,
} from '../semantics/weighing/weighing-result.ts';
import type { Rule } from './rule.ts';

/** Slips against the computed loads, and their readings against each other. */
export const weighings: Rule = {
  keys: ['reading-contradicts', 'slip-disagrees', 'slip-open', 'slips-disagree'],
  *check(result) {
    const joint = joinWeighings(result);
    for (const slip of reconcileWeighings(result)) {
      yield* contradiction(result, slip);
      yield* disagreement(result, slip, joint);
      yield* nothingDetermined(slip, joint);
    }
    yield* betweenSlips(result, joint);
  },
};

function* contradiction(
  { rig }: RigResult,
  { weighing, suspects, reconciliation }: WeighingResult,
): Generator<Finding> {
  const [worst, ...alike] = suspects;
  // What some readings of one pass cannot add up to has been told where they are read.
  if (worst === undefined || suspects.some(({ reading }) => weighing.impossible.includes(reading))) return;
  const { reading, fittedResidual, redundancy } = worst;
  // A reading pulls the fit towards itself; without it the others would put it this far away.
  const other = reading.value - fittedResidual / redundancy;
  const parameters = {
    weighing: weighing.name,
    reading: { name: nameOf(worst, weighing), read: reading.value, other },
    alike: alike.map((each) => namedReading(each, weighing)),
    othersAgree: reconciliation.contradiction?.othersAgree !== false,
    system: systemOfRig(rig),
  };
  yield finding(
    'reading-contradicts',
    WEIGHINGS['reading-contradicts'],
    parameters,
    reading.location,
    alike.map((each) => pointAt(each, weighing)),
  );
}

function* disagreement(result: RigResult, slip: WeighingResult, joint: JointWeighing | undefined): Generator<Finding> {
  const { weighing, readings, suspects } = slip;
  const { tares, together } = estimateOf(slip, joint);
  const beyond = readings
    .filter(({ verdict }) => verdict === 'beyond tolerance')
    .sort((a, b) => Math.abs(b.residual) / b.tolerance - Math.abs(a.residual) / a.tolerance);
  const [worst] = beyond;
  if (worst === undefined) return;
  const state = stateOf(result, worst.pass);
  const stoodThere = ({ unit }: WeighedTare) => worst.pass.unit === undefined || worst.pass.unit === unit;
  const parameters = {
    weighing: weighing.name,
    state: worst.pass.case === undefined || state === undefined ? '' : state.label,
    beyond: beyond.length,
    count: readings.length,
    worst: { name: nameOf(worst, weighing), read: worst.reading.value, other: worst.predicted },
    tolerance: worst.tolerance,
    ...(weighing.scale.kind === 'assumed' ? { assumedDivision: weighing.scale.value } : {}),
    ...(together === undefined ? {} : { together: together.map(slipName) }),
    found: foundTares(tares),
    lacking: lackingUnits(tares.filter(stoodThere), 'mass'),
    contradiction: suspects.length > 0,
    system: systemOfRig(result.rig),
  };
  const related = beyond.map((each) => pointAt(each, weighing));
  yield finding('slip-disagrees', WEIGHINGS['slip-disagrees'], parameters, weighing.location, related);
}

/** Told of a slip that is in order in all else: other findings on it say what is missing themselves. */
function* nothingDetermined(slip: WeighingResult, joint: JointWeighing | undefined): Generator<Finding> {
  const { weighing, readings, tares } = slip;
  if (!weighing.complete || readings.some(({ verdict }) => verdict !== 'agrees')) return;
  const isDetermined = ({ mass, x, y, z }: WeighedTare) =>
    [mass, x, y, z].some(({ standardError }) => standardError !== undefined);
  if (tares.length === 0 || estimateOf(slip, joint).tares.some(isDetermined)) return;
  const parameters = { weighing: weighing.name, lacking: lackingUnits(tares, 'place') };
  yield finding('slip-open', WEIGHINGS['slip-open'], parameters, weighing.location);
}

function* betweenSlips({ rig }: RigResult, joint: JointWeighing | undefined): Generator<Finding> {
  if (joint?.disagreement === undefined) return;
  const { odd, changes, suspects } = joint.disagreement;
  const own = joint.slips.filter(({ of }) => of === undefined);
  const at = odd !== undefined && own.includes(odd) ? odd : own.at(-1);
  if (at === undefined) return;
  const parameters = {
    slips: joint.slips.map(slipName),
    ...(odd === undefined ? {} : { odd: slipName(odd) }),
    changes: changes.map(
      ({ of, figure, one, other, change }): ChangedTare => ({
        unit: of.name,
        figure,
        one: slipName(one),
        other: slipName(other),
        change,
      }),
    ),
    suspects: suspects.map(({ slip, ...reading }) => {
      const { name, read } = namedReading(reading, slip.weighing);
      return { name: `${name} of ${slipName(slip)}`, read };
    }),
    system: systemOfRig(rig),
  };
  const related = joint.slips
    .filter((slip) => slip !== at)
    .map((slip) => ({ location: slip.weighing.location, message: `The slip ${slipName(slip)}.` }));
  yield finding('slips-disagree', WEIGHINGS['slips-disagree'], parameters, at.weighing.location, related);
}

/** What is known of the tares from a slip: with all others where they agree, else by it alone. */
export function estimateOf(
  { weighing, tares }: Pick<WeighingResult, 'weighing' | 'tares'>,
  joint: JointWeighing | undefined,
): { readonly tares: readonly WeighedTare[]; readonly together?: readonly JointSlip[] } {
  const isJoined = joint?.slips.some((slip) => slip.weighing === weighing);
  if (joint === undefined || isJoined !== true || joint.disagreement !== undefined) return { tares };
  return { tares: joint.tares, together: joint.slips };
}

/** How messages name a slip: `november`, or that of a unit by itself `gate of Hauler`. */
export function slipName({ weighing, of }: JointSlip): string {
  return of === undefined ? weighing.name : `${weighing.name} of ${of.name}`;
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

type NamedReading = Pick<WeighedReading, 'pass' | 'reading'>;

/**
 * How messages name a reading: that of a unit alone is told from the same of the coupled rig, and that of another case
 * from the same in the case of the slip.
 */
export function nameOf({ pass, reading }: NamedReading, weighing: Pick<WeighingModel, 'case'>): string {
  const standing = pass.kind === 'coupled' ? reading.name : `${reading.name} ${pass.kind}`;
  return pass.case === undefined || pass.case === weighing.case ? standing : `${standing} in ${pass.case}`;
}

function namedReading(of: NamedReading, weighing: WeighingModel): { readonly name: string; readonly read: number } {
  return { name: nameOf(of, weighing), read: of.reading.value };
}

const pointAt = (weighed: NamedReading, weighing: WeighingModel) => ({
  location: weighed.reading.location,
  message: `The reading of ${nameOf(weighed, weighing)}.`,
});
