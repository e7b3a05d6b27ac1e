import { COUPLINGS } from '../diagnostics/couplings.ts';
import { finding } from '../diagnostics/create.ts';
import type { Finding } from '../diagnostics/finding.ts';
import { scaleInfluence } from '../mechanics/influence.ts';
import { systemOfRig } from '../semantics/display-system.ts';
import type { AxleGroup, Tyres, UnitModel } from '../semantics/model.ts';
import type { RigResult } from '../semantics/state.ts';
import { formatMass } from '../units/display.ts';
import { lessOf } from './goal.ts';
import { helpFor } from './moves.ts';
import { contributors, limitPlace, pointAt } from './places.ts';
import type { Rule } from './rule.ts';
import { breachOf, influenceOf, levelStates, quantityOf, ROUNDING, type Worst, worstOf } from './states.ts';
import { axlesOf, withinSentence } from './subjects.ts';
import { type TyreRating, tyreRatingOf } from './tyre-rating.ts';

/** The tyres of the heaviest wheel of each axle group, on level ground. */
export const tyreOverloaded: Rule = {
  keys: ['tyre-overloaded'],
  *check(result) {
    for (const unit of result.rig.units) {
      for (const group of unit.groups) {
        const { tyres } = group;
        const rating = tyres && tyreRatingOf(result.rig, unit, tyres);
        if (tyres === undefined || rating === undefined || tyres.count < 1) continue;
        const found = checkTyres(result, unit, group, tyres, rating);
        if (found !== undefined) yield found;
      }
    }
  },
};

interface Wheel {
  readonly name: string;
  readonly subject: string;
}

function checkTyres(
  result: RigResult,
  unit: UnitModel,
  group: AxleGroup,
  tyres: Tyres,
  { capacity, name: limitName }: TyreRating,
): Finding | undefined {
  const perWheel = tyres.count / (2 * group.axles.length);
  const heaviest = heaviestWheel(result, wheelsOf(unit, group), perWheel, capacity);
  if (heaviest === undefined) return undefined;
  const { name, subject, worst } = heaviest;
  const { state, by } = worst;
  const influence = influenceOf(state, [name]);
  const help = influence && helpFor(state, lessOf(scaleInfluence(influence, 1 / perWheel), by));
  const place = limitPlace(result, state, { value: capacity, location: tyres.location });
  const parameters = { subject, value: capacity + by, limit: capacity, limitName, ...breachOf(worst, help) };
  return finding('tyre-overloaded', COUPLINGS['tyre-overloaded'], parameters, place, [
    ...pointAt(
      place,
      tyres.location,
      `${tyres.marking} carries ${formatMass(tyres.capacity ?? capacity, systemOfRig(result.rig))} ${tyres.dual ? 'dual' : 'single'}`,
    ),
    ...contributors(state, influence),
  ]);
}

function wheelsOf(unit: UnitModel, group: AxleGroup): Wheel[] {
  return axlesOf(unit, group).flatMap(({ prefix, subject }) =>
    (['left', 'right'] as const).map((side) => ({
      name: `${prefix}.${side}`,
      subject: `Each ${side} tyre of ${withinSentence(subject)}`,
    })),
  );
}

/** The wheel whose tyres are furthest over their capacity in any case. */
function heaviestWheel(
  result: RigResult,
  wheels: readonly Wheel[],
  perWheel: number,
  capacity: number,
): (Wheel & { readonly worst: Worst }) | undefined {
  let heaviest: (Wheel & { readonly worst: Worst }) | undefined;
  for (const wheel of wheels) {
    const over = (state: Worst['state']) => (quantityOf(state, wheel.name) ?? 0) / perWheel - capacity;
    const worst = worstOf(levelStates(result), over, ROUNDING);
    if (worst !== undefined && worst.by > (heaviest?.worst.by ?? 0) + ROUNDING) heaviest = { ...wheel, worst };
  }
  return heaviest;
}
