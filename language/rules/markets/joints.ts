import type { RelatedFinding } from '../../diagnostics/finding.ts';
import type { ForceMark } from '../../semantics/coupling-marks.ts';
import { systemOfRig } from '../../semantics/display-system.ts';
import type { Coupling, LimitName, RigModel, UnitModel } from '../../semantics/model.ts';
import { FORCE } from '../../units/dimension.ts';
import { type DisplaySystem, formatMass, formatQuantity } from '../../units/display.ts';
import type { Assessment, Unstated } from '../limits/limit-rule.ts';
import { limitToWrite, markToWrite } from '../limits/to-write.ts';
import { carriesLoad } from '../subjects.ts';

/** A trailer on the unit ahead of it. */
export interface Joint {
  readonly ahead: UnitModel;
  readonly trailer: UnitModel;
  readonly coupling: Coupling;
  /** The units of the rig. */
  readonly system: DisplaySystem;
}

/** One of the two devices of a joint. */
export interface Half {
  /** As a message begins: `Hitch of Truck`. */
  readonly subject: string;
  /** Undefined where the unit ahead has no hitch. */
  readonly device: Coupling | undefined;
}

/** The joints of a rig, front to rear. */
export function jointsOf(rig: RigModel): readonly Joint[] {
  const { units } = rig;
  const system = systemOfRig(rig);
  return units.flatMap((trailer, index) => {
    const ahead = units[index - 1];
    const { coupling } = trailer;
    return ahead === undefined || coupling === undefined ? [] : [{ ahead, trailer, coupling, system }];
  });
}

/** The hitch and the coupling of a joint: both have to hold, so that the weaker governs. */
export function halvesOf({ ahead, trailer, coupling }: Joint): readonly [hitch: Half, coupling: Half] {
  return [
    { subject: `Hitch of ${ahead.name}`, device: ahead.hitch },
    { subject: couplingSubject(trailer), device: coupling },
  ];
}

export function couplingSubject({ name }: UnitModel): string {
  return `Coupling of ${name}`;
}

/** How UN R55 tells trailers apart. */
export type TrailerKind = 'full' | 'centre-axle' | 'semi' | 'gooseneck';

export function trailerKind(coupling: Coupling): TrailerKind {
  if (!carriesLoad(coupling)) return 'full';
  if (coupling.kind === 'kingpin') return 'semi';
  return coupling.kind === 'gooseneck' ? 'gooseneck' : 'centre-axle';
}

/** kg. Centre-axle trailers of more than this have Dc and V in place of D [from memory]. */
const HEAVY_TRAILER = 3500;

/** Whether a joint is that of a tow vehicle and a centre-axle trailer of more than 3.5 t. */
export function needsHeavyValues({ ahead, trailer, coupling }: Joint): boolean {
  const mass = trailer.limits.ATM?.value;
  return (
    ahead.kind === 'vehicle' && trailerKind(coupling) === 'centre-axle' && mass !== undefined && mass > HEAVY_TRAILER
  );
}

/** kN, as the trade marks these values. */
export const SHOWN_IN = 'kN';

export function formatForce(newtons: number, significant = 3): string {
  return formatQuantity({ value: newtons, dimension: FORCE }, SHOWN_IN, { significant, maximumDecimals: 3 });
}

/** A force that has to be reached: what is shown, marked so, suffices. */
export function formatNeeded(newtons: number): string {
  return formatForce(Math.ceil(newtons / 10 - 1e-6) * 10, 6);
}

/** What a characteristic value comes to. */
export interface Needed {
  /** N */
  readonly value: number;
  /** What it was computed from, with the places. */
  readonly from: readonly RelatedFinding[];
  /** What would mend a marked value (N) that is less. */
  readonly advice?: (marked: number) => string;
}

/** A value that cannot be computed, with what the file would have to say. */
export interface NotKnown {
  readonly missing: string;
}

/** A permissible mass among the limits of a unit, kg, with its place; or what is missing. */
export function permissible(
  unit: UnitModel,
  name: LimitName,
  { system }: Joint,
): { value: number; from: RelatedFinding } | NotKnown {
  const limit = unit.limits[name];
  if (limit === undefined) return { missing: limitToWrite(unit, name, system) };
  const message = `${name} of ${unit.name}: ${formatMass(limit.value)}.`;
  return { value: limit.value, from: { location: limit.location, message } };
}

/** Several things that are missing, as one. */
export function missingOf(...parts: readonly (object | NotKnown)[]): NotKnown {
  return { missing: parts.flatMap((part) => ('missing' in part ? [part.missing] : [])).join(' and ') };
}

/** What a text asks of the marks of both devices of a joint, as the table and the messages have it. */
export function assessMarks(joint: Joint, mark: ForceMark, quantity: string, needed: Needed | NotKnown): Assessment[] {
  const halves = halvesOf(joint);
  if ('missing' in needed) return [unstated(halves[1].subject, quantity, needed.missing)];
  return halves.map((half): Assessment => {
    const { subject, device } = half;
    const marked = device?.marks?.forces[mark];
    const value = formatNeeded(needed.value);
    if (marked === undefined) {
      const line = half === halves[0] ? 'hitch' : 'coupling';
      return unstated(subject, quantity, markToWrite(`${mark} value`, subject, value, mark, line));
    }
    const others = halves.flatMap((each): RelatedFinding[] => {
      const other = each.device?.marks?.forces[mark];
      if (other === undefined || each === half) return [];
      return [{ location: other.location, message: `${each.subject}: ${mark} ${formatForce(other.value)}.` }];
    });
    const advice = needed.advice?.(marked.value);
    return {
      kind: 'limited',
      subject,
      quantity,
      sense: 'at most',
      dimension: FORCE,
      unit: SHOWN_IN,
      limitName: `the ${mark} value marked on it`,
      compare: () => ({ value: needed.value, limit: marked.value }),
      fixed: true,
      location: marked.location,
      related: [...others, ...needed.from],
      ...(advice === undefined ? {} : { advice }),
    };
  });
}

export function unstated(subject: string, quantity: string, missing: string): Unstated {
  return { kind: 'unstated', subject, quantity, missing };
}
