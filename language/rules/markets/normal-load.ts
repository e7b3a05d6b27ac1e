import { UNITED_STATES } from '../../diagnostics/markets/united-states.ts';
import { evaluateLoadValue, type MassSource } from '../../mechanics/influence.ts';
import { pointBody } from '../../mechanics/mass.ts';
import { systemOfRig } from '../../semantics/display-system.ts';
import type { AxleGroup, Seat, UnitModel } from '../../semantics/model.ts';
import { tankBody } from '../../semantics/sources.ts';
import { MASS } from '../../units/dimension.ts';
import type { DisplaySystem } from '../../units/display.ts';
import type { Assessment, LimitRule } from '../limits/limit-rule.ts';
import { seatsToWrite, typeToWrite } from '../limits/to-write.ts';
import { influenceOf } from '../states.ts';
import { groupSubject, withinSentence } from '../subjects.ts';
import { derated, deratesPassengerTyres, isPassengerTyre } from '../tyre-rating.ts';
import { isOperating, OCCUPANT, unstated } from './certified-weights.ts';

/** Share of the rating of a passenger tyre that the normal load may take. */
export const NORMAL_LOAD_SHARE = 0.94;

/** kg; heavier vehicles come under 49 CFR 571.120. */
const HEAVIEST = 4536;

/** Passenger tyres under the vehicle with its usual occupants, no cargo and no trailer. */
export const normalLoad: LimitRule<'normal-load-over-tyre'> = {
  key: 'normal-load-over-tyre',
  definition: UNITED_STATES['normal-load-over-tyre'],
  markets: ['US'],
  assess: ({ rig }) => rig.units.flatMap((unit, index) => assessUnit(unit, index, systemOfRig(rig))),
};

/** Occupants of a vehicle in its normal state: 2 of 2 to 4 seats, 3 of 5 to 10; undefined for other numbers of seats. */
export function normalOccupants(seats: number): number | undefined {
  if (seats < 2 || seats > 10) return undefined;
  return seats < 5 ? 2 : 3;
}

function assessUnit(unit: UnitModel, index: number, system: DisplaySystem): Assessment[] {
  if (unit.kind !== 'vehicle' || (unit.limits.GVM?.value ?? 0) > HEAVIEST) return [];
  return unit.groups.flatMap((group) => assessGroup(unit, index, group, system));
}

function assessGroup(unit: UnitModel, index: number, group: AxleGroup, system: DisplaySystem): Assessment[] {
  const { tyres } = group;
  if (tyres?.capacity === undefined || tyres.count < 1 || !isPassengerTyre(tyres)) return [];
  const subject = `Tyres of ${withinSentence(groupSubject(unit, group))}`;
  const quantity = 'the load of each with the normal occupants and no cargo';
  if (unit.vehicleType === undefined) return [unstated(subject, quantity, typeToWrite(unit))];
  const occupants = normalOccupants(unit.seats.length);
  if (occupants === undefined) {
    return [unstated(subject, quantity, seatsToWrite(unit, system, ', two to ten of them'))];
  }
  const { count, capacity } = tyres;
  const isDerated = deratesPassengerTyres(unit);
  const limit = NORMAL_LOAD_SHARE * (isDerated ? derated(capacity) : capacity);
  const masses = normalMasses(unit, index, occupants);
  return [
    {
      kind: 'limited',
      subject,
      quantity,
      sense: 'at most',
      dimension: MASS,
      limitName: isDerated ? '94 % of its capacity divided by 1.10' : '94 % of its capacity',
      fixed: true,
      location: tyres.location,
      compare: (state) => {
        const influence = influenceOf(state, [`${unit.name}.${group.name}.load`]);
        if (influence === undefined) return undefined;
        // What springs and devices add under a trailer is no part of the vehicle's own load.
        return { value: evaluateLoadValue({ ...influence, constant: 0 }, masses) / count, limit };
      },
    },
  ];
}

/** The masses of a vehicle with full fuel and its normal occupants, who sit as far ahead as they can. */
function normalMasses(unit: UnitModel, index: number, occupants: number): MassSource<string>[] {
  const bodies = [
    ...unit.parts.map(({ name, body }) => ({ id: name, body })),
    ...unit.tanks.map((tank) => ({
      id: tank.name,
      body: tankBody(tank, isOperating(tank) ? (tank.fluid.maximumFill ?? 1) : 0),
    })),
    ...foremost(unit.seats, occupants).map(({ name, centre }) => ({ id: name, body: pointBody(OCCUPANT, centre) })),
  ];
  return bodies.map(({ id, body }) => ({ id, unit: index, mass: body.mass, centre: body.centre }));
}

function foremost(seats: readonly Seat[], count: number): readonly Seat[] {
  return seats.toSorted((a, b) => b.centre.x - a.centre.x).slice(0, count);
}
