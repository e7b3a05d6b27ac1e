import { AUSTRALIA } from '../../diagnostics/markets/australia.ts';
import { systemOfRig } from '../../semantics/display-system.ts';
import type { Limit, LimitName, RigModel, UnitModel } from '../../semantics/model.ts';
import { MASS } from '../../units/dimension.ts';
import type { Assessment, LimitRule } from '../limits/limit-rule.ts';
import { limitToWrite } from '../limits/to-write.ts';
import { carriesLoad } from '../subjects.ts';
import { axleRatings } from './certified-weights.ts';

/** Australia: with its axles at the GTM, a trailer at its ATM puts the rest on its coupling. */
export const couplingBelowPlates: LimitRule<'coupling-below-plates'> = {
  key: 'coupling-below-plates',
  definition: AUSTRALIA['coupling-below-plates'],
  markets: ['AU'],
  assess: ({ rig }) =>
    rig.units
      .filter(({ coupling }) => coupling !== undefined && carriesLoad(coupling))
      .map((unit) => platesOf(rig, unit)),
};

function platesOf(rig: RigModel, unit: UnitModel): Assessment {
  const { name, limits } = unit;
  const { ATM, GTM } = limits;
  const figure = { subject: `Coupling of ${name}`, quantity: 'its limit' };
  const open = (limit: LimitName): Assessment => ({
    kind: 'unstated',
    ...figure,
    missing: limitToWrite(unit, limit, systemOfRig(rig)),
  });
  if (ATM === undefined) return open('ATM');
  if (GTM === undefined) return open('GTM');
  const own = couplingLimit(unit);
  if (own === undefined) return open('coupling');
  return {
    kind: 'limited',
    ...figure,
    sense: 'at least',
    dimension: MASS,
    limitName: 'what is left for it between ATM and GTM',
    location: own.location,
    fixed: true,
    toldElsewhere: () => isShortOfAxleRatings(unit, ATM.value - own.value),
    compare: () => ({ value: own.value, limit: Math.max(0, ATM.value - GTM.value) }),
  };
}

/** Whether the axle ratings cannot carry so many kg either: that is told as a contradiction of ratings. */
function isShortOfAxleRatings(unit: UnitModel, rest: number): boolean {
  const axles = axleRatings(unit);
  return axles !== undefined && axles < rest;
}

/** The lower of the limits that the trailer states for its own coupling. */
function couplingLimit({ limits, coupling }: UnitModel): Limit | undefined {
  const [first, second] = [limits.coupling, coupling?.rating].flatMap((limit) => limit ?? []);
  return second === undefined || (first !== undefined && first.value <= second.value) ? first : second;
}
