import { COUPLING_TEXTS } from '../../diagnostics/markets/couplings.ts';
import { dValue, fifthWheelDValue, greatestTrailerMass } from '../../mechanics/coupling-values.ts';
import type { UnitModel } from '../../semantics/model.ts';
import { formatMass } from '../../units/display.ts';
import type { Assessment, LimitRule } from '../limits/limit-rule.ts';
import {
  assessMarks,
  couplingSubject,
  type Joint,
  jointsOf,
  missingOf,
  type Needed,
  type NotKnown,
  needsHeavyValues,
  permissible,
  trailerKind,
  unstated,
} from './joints.ts';

const QUANTITY = 'the D value needed';

/** The D value of ball, drawbar and fifth-wheel couplings, where UN R55 binds. */
export const couplingDValue: LimitRule<'coupling-D-value'> = {
  key: 'coupling-D-value',
  definition: COUPLING_TEXTS['coupling-D-value'],
  markets: ['EU', 'UK'],
  assess: ({ rig }) => jointsOf(rig).flatMap(assess),
};

function assess(joint: Joint): Assessment[] {
  if (needsHeavyValues(joint)) return [];
  const { ahead, trailer, coupling } = joint;
  const open = (missing: string) => [unstated(couplingSubject(trailer), QUANTITY, missing)];
  if (ahead.kind === 'trailer')
    return open(`a tow vehicle directly ahead of ${trailer.name} (the text speaks of no other)`);
  const kind = trailerKind(coupling);
  if (kind === 'gooseneck')
    return open(`a kingpin or a drawbar of ${trailer.name} (the text has no formula for a gooseneck)`);
  return assessMarks(joint, 'D', QUANTITY, kind === 'semi' ? fifthWheelNeeds(joint) : drawbarNeeds(joint));
}

function drawbarNeeds(joint: Joint): Needed | NotKnown {
  const { ahead, trailer } = joint;
  const vehicle = permissible(ahead, 'GVM', joint);
  const towed = permissible(trailer, 'ATM', joint);
  if ('missing' in vehicle || 'missing' in towed) return missingOf(vehicle, towed);
  const advice = (marked: number) =>
    `It suffices for an ATM of up to ${formatMass(greatestTrailerMass(marked, vehicle.value))}.`;
  return { value: dValue(vehicle.value, towed.value), from: [vehicle.from, towed.from], advice };
}

function fifthWheelNeeds(joint: Joint): Needed | NotKnown {
  const { ahead, trailer } = joint;
  const vehicle = permissible(ahead, 'GVM', joint);
  const towed = permissible(trailer, 'ATM', joint);
  const imposed = imposedLoad(trailer);
  if ('missing' in vehicle || 'missing' in towed || 'missing' in imposed) return missingOf(vehicle, towed, imposed);
  const value = fifthWheelDValue(vehicle.value, towed.value, imposed.value);
  return { value, from: [vehicle.from, towed.from] };
}

/** U, kg: what the semi-trailer puts on the fifth wheel at its permissible mass. */
function imposedLoad({ name, limits, coupling }: UnitModel): { readonly value: number } | NotKnown {
  const { ATM, GTM } = limits;
  if (ATM !== undefined && GTM !== undefined && ATM.value >= GTM.value) return { value: ATM.value - GTM.value };
  const limit = limits.coupling ?? coupling?.rating;
  return (
    limit ?? { missing: `a GTM among the limits of ${name}, which with the ATM gives the load on the fifth wheel` }
  );
}
