import { boxInertia } from '../mechanics/inertia.ts';
import { type MassSource, TARE } from '../mechanics/influence.ts';
import { type Body, combine, pointBody } from '../mechanics/mass.ts';
import { fluidBody } from '../mechanics/tank.ts';
import type { CaseModel, LevelRange, RigModel, Stowed, Tank, UnitModel } from './model.ts';
import type { Source } from './state.ts';

/** Level of a tank in a case: as the case states it, as the tank does, or full. */
export function levelOf(unit: UnitModel, tank: Tank, state: CaseModel): LevelRange {
  return (
    state.levels.get(`${unit.name}.${tank.name}`) ??
    tank.level ?? { value: 1, least: 1, most: 1, location: tank.location }
  );
}

/** Items on board in a case. */
export function stowedIn(rig: RigModel, state: CaseModel): readonly Stowed[] {
  return [...rig.stowed.filter(({ item }) => !state.absent.has(item.name)), ...state.stowed];
}

/** Every mass of the rig in a case, by unit. */
export function sourcesOf(rig: RigModel, state: CaseModel): MassSource<Source>[] {
  const sources: MassSource<Source>[] = [];
  const add = (source: Source, unit: number, own: Pick<MassSource, 'sort' | 'bounds'>) => {
    const { mass, centre } = source.body;
    sources.push({ id: source, unit, mass, centre, ...own });
  };
  const occupants = new Set(state.occupants ?? rig.occupants);
  rig.units.forEach((unit, index) => {
    for (const part of unit.parts) {
      const { kind, location, body } = part;
      add({ name: `${unit.name}.${part.name}`, kind, location, body }, index, { sort: TARE });
    }
    for (const tank of unit.tanks) {
      const level = levelOf(unit, tank, state);
      const bounds =
        level.least < level.most
          ? { min: tank.empty + tank.content * level.least, max: tank.empty + tank.content * level.most }
          : undefined;
      add(
        { name: `${unit.name}.${tank.name}`, kind: 'tank', location: tank.location, body: tankBody(tank, level.value) },
        index,
        { sort: tankSort(tank), ...(bounds && { bounds }) },
      );
    }
    for (const seat of unit.seats) {
      if (!occupants.has(`${unit.name}.${seat.name}`)) continue;
      add(
        {
          name: `${unit.name}.${seat.name}`,
          kind: 'seat',
          location: seat.location,
          body: pointBody(seat.mass, seat.centre),
        },
        index,
        { sort: SEAT },
      );
    }
  });
  for (const stowed of stowedIn(rig, state)) {
    add(
      {
        name: stowedName(rig.units, stowed),
        kind: 'item',
        location: stowed.location,
        stowed,
        body: stowedBody(stowed),
      },
      stowed.unit,
      { sort: ITEM },
    );
  }
  return sources;
}

/** The sorts of mass that people and stowed things are. */
export const SEAT = 'seat';
export const ITEM = 'item';

/** The sort of mass that a tank is with its content, by its fluid. */
export function tankSort({ fluid }: Pick<Tank, 'fluid'>): string {
  return `tank of ${fluid.name}`;
}

/** The content of a tank at a level with the tank's own mass. */
export function tankBody(tank: Tank, level: number): Body {
  const content = fluidBody(tank.shape, tank.capacity, tank.fluid.density, level, tank.centre);
  if (tank.empty === 0) return content;
  const whole = combine([content, pointBody(tank.empty, tank.centre)]);
  return whole.centre === undefined ? content : whole;
}

/** How a stowed item is called among the sources: `awning in Tourer.boot`. */
export function stowedName(units: readonly UnitModel[], { item, unit, locker }: Stowed): string {
  const owner = units[unit]?.name;
  return `${item.name} in ${locker === undefined ? owner : `${owner}.${locker.name}`}`;
}

/** The pieces of a stowed item as one body. */
export function stowedBody({ item, count, centre }: Stowed): Body {
  const mass = item.mass * count;
  return item.size === undefined ? pointBody(mass, centre) : { mass, centre, inertia: boxInertia(mass, item.size) };
}
