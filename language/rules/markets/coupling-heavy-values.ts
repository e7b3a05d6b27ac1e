import { COUPLING_TEXTS } from '../../diagnostics/markets/couplings.ts';
import { dcValue, greatestTrailerMass, VERTICAL_ACCELERATION, vValue } from '../../mechanics/coupling-values.ts';
import type { UnitModel } from '../../semantics/model.ts';
import { ACCELERATION } from '../../units/dimension.ts';
import { formatLength, formatMass, formatValue } from '../../units/display.ts';
import type { LimitRule } from '../limits/limit-rule.ts';
import {
  assessMarks,
  type Joint,
  jointsOf,
  missingOf,
  type Needed,
  type NotKnown,
  needsHeavyValues,
  permissible,
} from './joints.ts';

/** The Dc value of the couplings of centre-axle trailers over 3.5 t, where UN R55 binds. */
export const couplingDcValue: LimitRule<'coupling-Dc-value'> = {
  key: 'coupling-Dc-value',
  definition: COUPLING_TEXTS['coupling-Dc-value'],
  markets: ['EU', 'UK'],
  assess: ({ rig }) =>
    jointsOf(rig)
      .filter(needsHeavyValues)
      .flatMap((joint) => assessMarks(joint, 'Dc', 'the Dc value needed', dcNeeds(joint))),
};

/** The V value of the same couplings. */
export const couplingVValue: LimitRule<'coupling-V-value'> = {
  key: 'coupling-V-value',
  definition: COUPLING_TEXTS['coupling-V-value'],
  markets: ['EU', 'UK'],
  assess: ({ rig }) =>
    jointsOf(rig)
      .filter(needsHeavyValues)
      .flatMap((joint) => assessMarks(joint, 'V', `the V value needed ${springing(joint).words}`, vNeeds(joint))),
};

function dcNeeds(joint: Joint): Needed | NotKnown {
  const { ahead, trailer } = joint;
  const vehicle = permissible(ahead, 'GVM', joint);
  const axles = permissible(trailer, 'GTM', joint);
  if ('missing' in vehicle || 'missing' in axles) return missingOf(vehicle, axles);
  const advice = (marked: number) =>
    `It suffices for a GTM of up to ${formatMass(greatestTrailerMass(marked, vehicle.value))}.`;
  return { value: dcValue(vehicle.value, axles.value), from: [vehicle.from, axles.from], advice };
}

function vNeeds(joint: Joint): Needed | NotKnown {
  const { trailer } = joint;
  const axles = permissible(trailer, 'GTM', joint);
  const { body } = trailer;
  const distance = axleDistance(trailer);
  if ('missing' in axles || body === undefined || !(distance > 0)) {
    const outline = { missing: `a body of ${trailer.name}, whose length counts as its loading area` };
    return missingOf(
      axles,
      body === undefined ? outline : {},
      distance > 0 ? {} : { missing: `axles behind the coupling of ${trailer.name}` },
    );
  }
  const length = body.front - body.rear;
  const { acceleration } = springing(joint);
  const message = `Body of ${trailer.name}, taken as its loading area: ${formatLength(length)} on axles ${formatLength(distance)} behind the coupling.`;
  return {
    value: vValue(acceleration, { axles: axles.value, length, distance }),
    from: [axles.from, { location: body.location, message }],
  };
}

/** a of the formula for V, and the words that say whence it is. */
function springing({ ahead }: Joint): { readonly acceleration: number; readonly words: string } {
  const air = ahead.groups.at(-1)?.airSuspension === true;
  const acceleration = air ? VERTICAL_ACCELERATION.air : VERTICAL_ACCELERATION.other;
  const stated = air ? 'air suspension' : 'no air_suspension stated';
  return {
    acceleration,
    words: `with ${formatValue(acceleration, ACCELERATION)} (${stated} at the rear of ${ahead.name})`,
  };
}

/** From the coupling to the middle of all axles, m; 0 without axles. */
function axleDistance({ groups }: UnitModel): number {
  const places = groups.flatMap(({ axles }) => axles.map(({ x }) => -x));
  return places.length === 0 ? 0 : places.reduce((sum, place) => sum + place, 0) / places.length;
}
