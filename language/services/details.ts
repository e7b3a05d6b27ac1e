import { levelStates } from '../rules/states.ts';
import type { UnitModel } from '../semantics/model.ts';
import type { RigResult, StateResult } from '../semantics/state.ts';
import { VOLUME } from '../units/dimension.ts';
import { type DisplaySystem, formatMass, formatValue } from '../units/display.ts';
import { rangeText, reachRange, type ShownReach, shownReach } from './reach-figures.ts';

/** `112 kg`, `98 kg to 112 kg`: a load over some states; the empty string where none of them has it. */
export function loadRange(states: readonly StateResult[], quantity: string, system: DisplaySystem): string {
  const values = states.flatMap((state) => state.quantities.get(quantity)?.value ?? []);
  if (values.length === 0) return '';
  const least = formatMass(Math.min(...values), system);
  const greatest = formatMass(Math.max(...values), system);
  return least === greatest ? least : `${least} to ${greatest}`;
}

/** `1 401 kg, coupling 96 kg`: what a unit comes to over the cases of a result, and in all that is reachable. */
export function unitDetail(unit: string, result: RigResult, system: DisplaySystem): string {
  const mass = loadAndReach(result, `${unit}.mass`, system);
  const coupling = loadAndReach(result, `${unit}.coupling.load`, system);
  return [...(mass ? [mass] : []), ...(coupling ? [`coupling ${coupling}`] : [])].join(', ');
}

/** `98 kg to 112 kg (90 – 131 kg reachable)`: a load over the cases of a result, and what else it can be. */
export function loadAndReach(result: RigResult, quantity: string, system: DisplaySystem): string {
  const load = loadRange(levelStates(result), quantity, system);
  return load === '' ? '' : withRemarks(load, reachableRange(shownReach(result), quantity, system));
}

/** `63.1 kg (12.3 %; 13.1 – 73.1 kg reachable)`: remarks that are not empty behind a figure. */
export function withRemarks(figure: string, ...remarks: readonly string[]): string {
  const told = remarks.filter((remark) => remark !== '');
  return told.length === 0 ? figure : `${figure} (${told.join('; ')})`;
}

/** `145 – 237 kg reachable`: between what a load lies; the empty string where it cannot change. */
export function reachableRange(shown: ShownReach | undefined, quantity: string, system: DisplaySystem): string {
  const range = shown && reachRange(shown, [quantity]);
  if (shown === undefined || range === undefined) return '';
  const [least, most] = [range.least, range.most].map(({ value }) => formatMass(value, system));
  if (least === undefined || most === undefined || least === most) return '';
  return `${rangeText(least, most)} ${shown.reach.case === undefined ? 'reachable' : 'in its ranges'}`;
}

export function findNamed<T extends { readonly name: string }>(things: readonly T[], name: string): T | undefined {
  return things.find((thing) => thing.name === name);
}

/** Whether a dotted name lies below another one: `TourerB.fresh` below `TourerB`. */
export function isBelow(name: string, owner: string): boolean {
  return name.startsWith(`${owner}.`);
}

/** A unit with its result; read only where a figure needs it, since it may have to be computed. */
export interface ComputedUnit {
  readonly unit: UnitModel;
  readonly result: RigResult;
}

type LineDetail = (computed: ComputedUnit, name: string, system: DisplaySystem) => string | undefined;

const partMass: LineDetail = ({ unit }, name, system) => {
  const part = findNamed(unit.parts, name);
  return part && formatMass(part.body.mass, system);
};

/** The key figure of a line of a unit, by the keyword of its head. */
const LINE_DETAILS: Readonly<Record<string, LineDetail>> = {
  tank: ({ unit }, name, system) => {
    const tank = findNamed(unit.tanks, name);
    return tank && `${formatValue(tank.capacity, VOLUME, system)}, ${formatMass(tank.content, system)} when full`;
  },
  locker: ({ unit }, name, system) => {
    const holds = findNamed(unit.lockers, name)?.holds;
    return holds && `holds ${formatMass(holds.value, system)}`;
  },
  seat: ({ unit }, name, system) => {
    const seat = findNamed(unit.seats, name);
    return seat && formatMass(seat.mass, system);
  },
  group: ({ unit }, name, system) => {
    const parts = unit.parts.filter((part) => isBelow(part.name, name));
    const mass = parts.reduce((sum, { body }) => sum + body.mass, 0);
    return formatMass(mass, system);
  },
  axles: ({ unit, result }, name, system) => loadRange(levelStates(result), `${unit.name}.${name}.load`, system),
  coupling: ({ unit, result }, _, system) => loadRange(levelStates(result), `${unit.name}.coupling.load`, system),
  tare: partMass,
  growth: partMass,
  fitting: partMass,
  panel: partMass,
  member: partMass,
};

/** The key figure of a line of a unit: `95 L, 95 kg when full`; the empty string where it has none. */
export function lineDetail(head: string, name: string, computed: ComputedUnit, system: DisplaySystem): string {
  return LINE_DETAILS[head]?.(computed, name, system) ?? '';
}
