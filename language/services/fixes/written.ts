import type { Span } from '../../syntax/tree.ts';
import type { DisplaySystem } from '../../units/display.ts';

/** A change of the text of a declaration; the span is relative to it. */
export interface WrittenEdit extends Span {
  readonly text: string;
}

/** What a quick fix writes into one declaration. */
export interface WrittenChange {
  readonly title: string;
  readonly edits: readonly WrittenEdit[];
}

const KILOGRAMS_PER_POUND = 0.45359237;
const METRES_PER_INCH = 0.0254;

/** A mass in kg as an author writes it, to a step that its standard error warrants: `1427 kg`. */
export function writtenMass(kilograms: number, standardError: number, system: DisplaySystem): string {
  const [unit, size] = system === 'US' ? (['lb', KILOGRAMS_PER_POUND] as const) : (['kg', 1] as const);
  return `${roundedTo(kilograms / size, roundStep(standardError / size))} ${unit}`;
}

/** A length in m as an author writes it: `3205 mm`, `126.5 in`. */
export function writtenLength(metres: number, standardError: number, system: DisplaySystem): string {
  const [unit, size] = system === 'US' ? (['in', METRES_PER_INCH] as const) : (['mm', 0.001] as const);
  return `${roundedTo(metres / size, roundStep(standardError / size))} ${unit}`;
}

/** The largest of 1, 2, 5, 10, … and their tenths that is at most half a standard error; a tenth at least. */
function roundStep(standardError: number): number {
  const steps = [500, 200, 100, 50, 20, 10, 5, 2, 1, 0.5, 0.2, 0.1];
  return steps.find((step) => step <= standardError / 2) ?? 0.1;
}

function roundedTo(value: number, step: number): string {
  const decimals = step < 1 ? 1 : 0;
  return String(Number((Math.round(value / step) * step).toFixed(decimals)));
}
