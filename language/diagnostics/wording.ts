/** Turns of phrase that the messages of several catalogue entries share. */

import { type DisplaySystem, formatMass } from '../units/display.ts';

/** A further state that breaks the same limit, and by how much. */
export interface AlsoIn {
  readonly state: string;
  readonly by: number;
}

/** Where a limit is broken: the worst state, the other ones worst first, and a sentence on what would help. */
export interface Breach {
  /** Label of the state, such as `case departing`. */
  readonly state: string;
  readonly also: readonly AlsoIn[];
  readonly help?: string;
}

/** A breach told in masses and lengths, in the units that the rig is shown in. */
export interface LoadBreach extends Breach {
  readonly system: DisplaySystem;
}

/** A load over a limit; masses in kg. */
export interface OverLimit extends LoadBreach {
  /** `Rear axle of YardTruck`. */
  readonly subject: string;
  readonly value: number;
  readonly limit: number;
  /** `its rating`, `the GVM`. */
  readonly limitName: string;
}

/** More than this are counted, not named. */
const MOST_NAMED = 3;

/** ` in case departing`, or nothing for a state without a label. */
export function inState(state: string): string {
  return state === '' ? '' : ` in ${state}`;
}

/** What every message on a broken limit ends with: ` Also in case homebound (+12 kg).` and what would help. */
export function breachEnd({ also, help }: Breach, format: (by: number) => string): string {
  return alsoIn(also, format) + helpSentence(help);
}

function alsoIn(also: readonly AlsoIn[], format: (by: number) => string): string {
  if (also.length === 0) return '';
  return ` Also in ${firstFew(also.map(({ state, by }) => `${state} (${format(by)})`))}.`;
}

/** What would help, as a sentence behind another one, or nothing. */
export function helpSentence(help: string | undefined): string {
  return help === undefined ? '' : ` ${help}`;
}

/** `Rear axle of YardTruck: 1 934 kg is 84 kg over its rating of 1 850 kg in case departing.` and what would help. */
export function overLimit(parameters: OverLimit): string {
  const { subject, value, limit, limitName, state, system } = parameters;
  const mass = (kilograms: number) => formatMass(kilograms, system);
  const over = `${mass(value)} is ${mass(value - limit)} over ${limitName} of ${mass(limit)}`;
  return `${subject}: ${over}${inState(state)}.${breachEnd(parameters, (by) => `+${mass(by)}`)}`;
}

/** The first few of some words and how many more there are: `a and b`, `a, b, c and 4 more`. */
export function firstFew(words: readonly string[]): string {
  const more = words.length - MOST_NAMED;
  return listed(more > 0 ? [...words.slice(0, MOST_NAMED), `${more} more`] : words);
}

/** `a`, `a and b`, `a, b and c`. */
export function listed(words: readonly string[]): string {
  const last = words.at(-1) ?? '';
  return words.length < 2 ? last : `${words.slice(0, -1).join(', ')} and ${last}`;
}

/** `222 kg (its rating)`; a reason with brackets of its own behind a comma: `222 kg, 12 % of the mass (common practice)`. */
export function withReason(figure: string, reason: string): string {
  return reason.includes('(') ? `${figure}, ${reason}` : `${figure} (${reason})`;
}
