import { type Breach, breachEnd, inState } from './wording.ts';

/** A figure beyond a limit, in the units that the rig is shown in. */
export interface LimitBreach extends Breach {
  /** `Coupling of TourerB`. */
  readonly subject: string;
  /** `the coupling load`. */
  readonly quantity: string;
  readonly value: number;
  readonly limit: number;
  readonly sense: 'at most' | 'at least';
  /** `its plate`. */
  readonly limitName: string;
  /** Shows a figure of the same dimension. */
  readonly format: (value: number) => string;
}

/**
 * `Coupling of TourerB: the coupling load of 55 kg is 20 kg under the least that StVZO § 44(3) asks for, 75 kg, in case
 * departing.` and what would help.
 */
export function limitBreach(parameters: LimitBreach): string {
  const { subject, quantity, value, limit, sense, limitName, state, format } = parameters;
  const beyond = sense === 'at most' ? `${format(value - limit)} over` : `${format(limit - value)} under`;
  const sign = sense === 'at most' ? '+' : '−';
  const where = inState(state);
  return `${subject}: ${quantity} of ${format(value)} is ${beyond} ${limitName}, ${format(limit)}${where === '' ? '' : `,${where}`}.${breachEnd(parameters, (by) => `${sign}${format(by)}`)}`;
}
