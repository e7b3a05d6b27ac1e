import { systemOf } from '../../semantics/display-system.ts';
import type { AxleGroup, LimitName, UnitModel } from '../../semantics/model.ts';
import type { DisplaySystem } from '../../units/display.ts';
import { groupSubject, withinSentence } from '../subjects.ts';

/**
 * What a file does not state, each as a phrase that stands on its own: what is missing, of what, and in brackets what to write, in
 * the units of the rig or, of a unit by itself, those that the unit is written in.
 */

/** Amounts to write in an example, of about the same size in both systems. */
export const AMOUNTS = {
  gross: { metric: '3000 kg', US: '6500 lb' },
  axle: { metric: '1550 kg', US: '3400 lb' },
  cargo: { metric: '500 kg', US: '1100 lb' },
  unloaded: { metric: '1400 kg', US: '3100 lb' },
  coupling: { metric: '120 kg', US: '260 lb' },
  seat: { metric: '80 kg', US: '175 lb' },
  pressure: { metric: '450 kPa', US: '65 psi' },
  outline: { metric: 'from 880 mm to 5680 mm back', US: 'from 35 in to 224 in back' },
  vehicleOutline: { metric: 'from 900 mm ahead to 5100 mm back', US: 'from 35 in ahead to 200 in back' },
  seatPlace: { metric: 'at 1350 mm back, 700 mm up', US: 'at 53 in back, 28 in up' },
  tare: { metric: '1400 kg at 2600 mm back, 600 mm up', US: '3100 lb at 102 in back, 24 in up' },
  speed: { metric: '100 km/h', US: '60 mph' },
} as const satisfies Readonly<Record<string, Readonly<Record<DisplaySystem, string>>>>;

type Amount = keyof typeof AMOUNTS;

const LIMIT_AMOUNTS: Readonly<Partial<Record<LimitName, Amount>>> = {
  CCC: 'cargo',
  UVW: 'unloaded',
  coupling: 'coupling',
  coupling_minimum: 'coupling',
};

const LIMIT_WORDS: Readonly<Partial<Record<LimitName, string>>> = {
  UVW: 'an unloaded vehicle weight as certified',
  ATM: 'an ATM',
  OCCC: 'an OCCC',
  coupling: 'a coupling load',
  coupling_minimum: 'a least coupling load',
  towing: 'a towing rating',
};

const systemOfUnit = ({ location }: UnitModel): DisplaySystem => systemOf(location.declaration);

/** `a GVM among the limits of Truck (GVM 3000 kg)`. */
export function limitToWrite(unit: UnitModel, name: LimitName, system = systemOfUnit(unit)): string {
  const amount = AMOUNTS[LIMIT_AMOUNTS[name] ?? 'gross'][system];
  return `${LIMIT_WORDS[name] ?? `a ${name}`} among the limits of ${unit.name} (${name} ${amount})`;
}

/** The gross rating of a unit: GVM of a vehicle, ATM of a trailer. */
export function grossToWrite(unit: UnitModel, system?: DisplaySystem): string {
  return limitToWrite(unit, unit.kind === 'vehicle' ? 'GVM' : 'ATM', system);
}

/** `a rating of the front axle of Truck (rating 1550 kg)`. */
export function axleRatingToWrite(unit: UnitModel, group: AxleGroup, system = systemOfUnit(unit)): string {
  return `a rating of ${withinSentence(groupSubject(unit, group))} (rating ${AMOUNTS.axle[system]})`;
}

export function everyAxleRatingToWrite(unit: UnitModel, system = systemOfUnit(unit)): string {
  return `a rating of every axle of ${unit.name} (rating ${AMOUNTS.axle[system]})`;
}

export function couplingRatingToWrite({ name }: UnitModel, system: DisplaySystem): string {
  return `a rating of the coupling of ${name} or of the hitch it is on (rating ${AMOUNTS.coupling[system]})`;
}

/** What is missing of the tyres of an axle or a group of axles. */
export function tyresToWrite(
  part: 'tyres' | 'load index' | 'speed symbol' | 'pressure' | 'reference pressure',
  unit: UnitModel,
  group: AxleGroup,
  system = systemOfUnit(unit),
): string {
  const axle = withinSentence(groupSubject(unit, group));
  const marked = 'tyres 2 x "195R14C 106/104Q"';
  const phrases = {
    tyres: `the tyres of ${axle} (${marked})`,
    'load index': `a marking of the tyres of ${axle} with a load index (${marked}), or a capacity`,
    'speed symbol': `a speed symbol in the marking of the tyres of ${axle} (${marked})`,
    pressure: `the pressure of the tyres of ${axle} (at ${AMOUNTS.pressure[system]})`,
    'reference pressure': `the reference pressure of the tyres of ${axle} (reference_pressure ${AMOUNTS.pressure[system]})`,
  } as const satisfies Readonly<Record<typeof part, string>>;
  return phrases[part];
}

/** What a vehicle or trailer is certified as, which its label's texts depend on. */
export function typeToWrite({ kind, name }: UnitModel): string {
  return kind === 'vehicle'
    ? `what ${name} is certified as (vehicle_type passenger_car, multipurpose_vehicle, truck or motor_home)`
    : `what ${name} is certified as (trailer_type recreation_trailer or utility_trailer)`;
}

export function seatsToWrite({ name }: UnitModel, system: DisplaySystem, count = ''): string {
  return `a seat line of ${name} for each designated seating position${count} (seat driver ${AMOUNTS.seat[system]} at …)`;
}

/** The outline of a unit, which its length is taken from. */
export function outlineToWrite(unit: UnitModel, system = systemOfUnit(unit)): string {
  const { [system]: outline } = unit.kind === 'vehicle' ? AMOUNTS.vehicleOutline : AMOUNTS.outline;
  return `the outline of ${unit.name} (body ${outline})`;
}

export function tareToWrite(unit: UnitModel, system = systemOfUnit(unit)): string {
  return `the tare of ${unit.name} (tare ${AMOUNTS.tare[system]})`;
}

/** `the D value marked on the hitch of Truck, 9.81 kN or more (D … kN on its hitch line)`. */
export function markToWrite(what: string, subject: string, needed: string, mark: string, line: string): string {
  return `the ${what} marked on ${withinSentence(subject)}, ${needed} or more (${mark} … kN on its ${line} line)`;
}
