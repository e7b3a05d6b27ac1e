/** A class of coupling devices that a marking names. */
export type CouplingClass = UNClass | SAEClass;

/** UN Regulation No. 55. */
export interface UNClass {
  readonly text: 'UN R55';
  readonly letter: UNClassLetter;
  /** Diameter of ball, pin or eye as marked, mm. */
  readonly diameter?: number;
}

/** SAE J684: number of the class and the heaviest trailer it is for, kg. */
export interface SAEClass {
  readonly text: 'SAE J684';
  readonly number: string;
  readonly trailer: number;
}

/** What a device of a class is, and the letter of what it couples with where the class leaves one only. */
interface ClassOfDevices {
  readonly device: string;
  readonly mate?: string;
}

/** UN Regulation No. 55, 2.6: A to D and G [read]; the others and what couples with what from memory. */
export const UN_CLASSES = {
  A: { device: 'a coupling ball', mate: 'B' },
  B: { device: 'a coupling head', mate: 'A' },
  C: { device: 'a drawbar coupling', mate: 'D' },
  D: { device: 'a drawbar eye', mate: 'C' },
  E: { device: 'a drawbar' },
  F: { device: 'a drawbeam' },
  G: { device: 'a fifth wheel', mate: 'H' },
  H: { device: 'a fifth wheel pin', mate: 'G' },
  J: { device: 'a mounting plate' },
  K: { device: 'a hook coupling', mate: 'L' },
  L: { device: 'a toroidal drawbar eye', mate: 'K' },
  S: { device: 'a device of no other class' },
  T: { device: 'a dedicated coupling' },
} as const satisfies Readonly<Record<string, ClassOfDevices>>;

export type UNClassLetter = keyof typeof UN_CLASSES;

const POUND = 0.45359237;

/** SAE J684: gross trailer weight of each class [read through COMAR 11.13.08.04]. */
const SAE_CLASSES: readonly SAEClass[] = [
  { text: 'SAE J684', number: 'I', trailer: 2000 * POUND },
  { text: 'SAE J684', number: 'II', trailer: 3500 * POUND },
  { text: 'SAE J684', number: 'III', trailer: 5000 * POUND },
  { text: 'SAE J684', number: 'IV', trailer: 10_000 * POUND },
];

const SAE_BY_MARKING: ReadonlyMap<string, SAEClass> = new Map(
  SAE_CLASSES.flatMap((each, index) => [
    [each.number, each],
    [String(index + 1), each],
  ]),
);

/** The markings that are understood, as messages list them. */
export const KNOWN_CLASSES = `letters of UN R55 (${Object.keys(UN_CLASSES).join(', ')}; A50-X) and classes I to IV of SAE J684`;

const UN_MARKING = /^([A-Z])(?:(\d{2,3})(?:-?[A-Z0-9]{1,2})?|-X)?$/;

/** Reads `A`, `A50-X`, `C50-4`, `III` or `3`, in capitals or small letters; undefined for anything else. */
export function parseCouplingClass(marking: string): CouplingClass | undefined {
  const text = marking.trim().toUpperCase();
  const sae = SAE_BY_MARKING.get(text);
  if (sae !== undefined) return sae;
  const [, letter = '', diameter] = UN_MARKING.exec(text) ?? [];
  if (!isLetter(letter)) return undefined;
  return { text: 'UN R55', letter, ...(diameter === undefined ? {} : { diameter: Number(diameter) }) };
}

function isLetter(text: string): text is UNClassLetter {
  return Object.hasOwn(UN_CLASSES, text);
}

/** Why the devices of two classes do not couple; undefined where they do or the classes do not say. */
export function classesDiffer(ahead: UNClass, behind: UNClass): string | undefined {
  const one: ClassOfDevices = UN_CLASSES[ahead.letter];
  const other: ClassOfDevices = UN_CLASSES[behind.letter];
  if (one.mate === undefined || other.mate === undefined) return undefined;
  if (one.mate !== behind.letter) return `${one.device} does not couple with ${other.device}`;
  const sizes = [ahead.diameter, behind.diameter];
  const [first, second] = sizes;
  if (first === undefined || second === undefined || first === second) return undefined;
  return `${one.device} of ${first} mm does not couple with ${other.device} of ${second} mm`;
}
