import type { StaticsProblem, StaticsProblemKind } from '../../mechanics/problems.ts';
import type { StaticAssumption, StaticAssumptionKind } from '../../mechanics/statics.ts';
import type { UnitModel } from '../model.ts';

const PROBLEM_TEXT: Readonly<Record<StaticsProblemKind, string>> = {
  'no-units': 'there is no unit',
  'no-axles': 'a group has no axle',
  'place-not-finite': 'a place is no number',
  'track-not-positive': 'a track is not more than zero',
  'rate-not-positive': 'a spring rate is not more than zero',
  'brake-share-out-of-range': 'the share of the brakes is negative',
  'no-coupling': 'it has no coupling',
  'no-hitch': 'it has no hitch for the unit behind it',
  'coupling-at-axle': 'its axles are right at the coupling, which leaves no lever',
  'axle-ahead-of-coupling': 'its axles are ahead of the coupling',
  'single-support': 'it stands on one axle group only and nothing else carries it',
  'supports-coincide': 'its axle groups are all at one place',
  'weight-distribution-without-trailer': 'there is a weight-distribution device but no trailer',
  'weight-distribution-without-vehicle': 'there is a weight-distribution device but no tow vehicle',
  'weight-distribution-on-hinged-drawbar': 'a weight-distribution device cannot work on a hinged drawbar',
  'weight-distribution-not-finite': 'the weight-distribution device has no finite strength',
  'nothing-to-restore':
    'the front axle loses nothing to the trailer, so there is no share to restore; give the moment of the device',
  'field-not-finite': 'a grade or deceleration is no number',
  overflow: 'the numbers are too large to compute with',
};

/** The problem as a clause that names the unit and group. */
export function describeStaticsProblem(problem: StaticsProblem, units: readonly UnitModel[]): string {
  const unit = problem.unit === undefined ? undefined : units[problem.unit];
  const group = unit === undefined || problem.group === undefined ? undefined : unit.groups[problem.group];
  const where = unit === undefined ? '' : ` (${unit.name}${group ? `, ${group.name}` : ''})`;
  return PROBLEM_TEXT[problem.problem] + where;
}

const ASSUMPTION_TEXT: Readonly<Record<StaticAssumptionKind, { text: string; basis: string }>> = {
  'equal-spring-rates': {
    text: 'spring rates not stated: equal rates taken for all axles',
    basis: 'statically indeterminate: state `rate` for each axle',
  },
  'hitch-height-ignored': {
    text: 'hitch and coupling heights differ; without spring rates the effect on the axles is left out',
    basis: 'state `rate` for each axle',
  },
  'roll-moment-on-own-axles': {
    text: 'the coupling lets the unit roll: its own axles carry all of its side-to-side moment',
    basis: 'ball, pin and kingpin couplings give way in roll (common practice, no source)',
  },
  'roll-moment-by-axle-load': {
    text: 'the axles share the side-to-side moment as they share the load',
    basis: 'equal roll stiffness per load (common practice, no source)',
  },
  'roll-moment-by-longitudinal-share': {
    text: 'each mass counts left and right on the axles that carry it',
    basis: 'a body that is soft in torsion (common practice, no source)',
  },
};

/** The assumption in words, with what it rests on. */
export function describeStaticAssumption(
  found: StaticAssumption,
  units: readonly UnitModel[],
): { text: string; basis: string } {
  const { text, basis } = ASSUMPTION_TEXT[found.assumption];
  const unit = units[found.unit];
  const group = unit === undefined || found.group === undefined ? undefined : unit.groups[found.group];
  return { text: `${unit?.name ?? ''}${group ? `.${group.name}` : ''}: ${text}`, basis };
}

/** Assumptions that decide only left and right: listed in hovers and reports, not as diagnostics of their own. */
export const LATERAL_ASSUMPTIONS: ReadonlySet<StaticAssumptionKind> = new Set([
  'roll-moment-on-own-axles',
  'roll-moment-by-axle-load',
  'roll-moment-by-longitudinal-share',
]);
