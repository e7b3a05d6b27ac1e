import { combine } from '../../mechanics/mass.ts';
import { combinedDeviation, rectangularDeviation } from '../../mechanics/uncertainty.ts';
import type { Spread, TareGuess, WeighedSource } from '../../mechanics/weighing/observation.ts';
import type { Part, RigModel, UnitModel } from '../model.ts';
import { levelOf } from '../sources.ts';
import type { Source, StateResult } from '../state.ts';

/**
 * The masses of a state as a weighing takes them, by name. What the file says of how far they may be off counts:
 * tolerances and ranges of levels. A thing is off alike in all states and on all slips; where in its range a level was
 * is told apart by case and by `visit`. Those of the tare are in `tareGuess`.
 */
export function weighedSources(state: StateResult, visit: string): readonly WeighedSource[] {
  return state.sources.flatMap(({ id, unit, mass, centre, bounds }) => {
    const whole = { id: id.name, unit, mass, centre, ...spreadOf(ownTolerance(state, id)) };
    if (bounds === undefined) return [whole];
    const level = { id: `level of ${id.name} in ${state.case.name} on ${visit}`, unit, mass: 0, centre };
    return [whole, { ...level, ...spreadOf({ mass: (bounds.max - bounds.min) / 2 }) }];
  });
}

/** The deviations that go with half widths, kg and m. */
function spreadOf(halfWidths: Spread): Pick<WeighedSource, 'spread'> {
  const entries = Object.entries(halfWidths).filter(([, half]) => half > 0);
  if (entries.length === 0) return {};
  return { spread: Object.fromEntries(entries.map(([of, half]) => [of, rectangularDeviation(half)])) };
}

/**
 * Half widths of the stated tolerances of the mass and place of an item, who sits on a seat or the content of a tank, kg and m;
 * nothing for what is part of a tare.
 */
function ownTolerance({ rig, case: state }: StateResult, { kind, name, stowed }: Source): Spread {
  if (stowed !== undefined) return { mass: (stowed.item.tolerance ?? 0) * stowed.count, ...stowed.placeTolerance };
  for (const unit of rig.units) {
    const named = (own: string) => `${unit.name}.${own}` === name;
    const tank = kind === 'tank' ? unit.tanks.find((each) => named(each.name)) : undefined;
    if (tank !== undefined)
      return { mass: (tank.tolerance ?? 0) * levelOf(unit, tank, state).value, ...tank.placeTolerance };
    const seat = kind === 'seat' ? unit.seats.find((each) => named(each.name)) : undefined;
    if (seat !== undefined) return { mass: seat.tolerance ?? 0, ...seat.placeTolerance };
  }
  return {};
}

/** The tare of each unit of a rig as the file has it; units without mass have none. */
export function tareGuesses({ units }: Pick<RigModel, 'units'>): readonly TareGuess[] {
  return units.flatMap((unit, index) => tareGuess(unit, index) ?? []);
}

function tareGuess({ parts }: UnitModel, unit: number): TareGuess | undefined {
  const { mass, centre } = combine(parts.map(({ body }) => body));
  return centre && { unit, mass, centre, spread: tareSpread(parts, mass, centre) };
}

/** First order, masses and places of the parts independent of each other. */
function tareSpread(
  parts: readonly Part[],
  mass: number,
  centre: { readonly x: number; readonly y: number; readonly z: number },
): Spread {
  const masses = parts.map(({ tolerance = 0 }) => tolerance);
  const along = (axis: 'x' | 'y' | 'z') =>
    combinedDeviation(
      parts.flatMap(({ body, tolerance = 0, placeTolerance }) => [
        (tolerance * (body.centre[axis] - centre[axis])) / mass,
        (body.mass * (placeTolerance?.[axis] ?? 0)) / mass,
      ]),
    );
  return { mass: combinedDeviation(masses), x: along('x'), y: along('y'), z: along('z') };
}
