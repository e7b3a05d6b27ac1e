import type { Span } from '../../mechanics/half-planes.ts';
import { MASS, VOLUME } from '../../units/dimension.ts';
import { type DisplaySystem, displayUnit, formatNumber } from '../../units/display.ts';
import { fromSI, parseUnit } from '../../units/parse-unit.ts';
import type { Chosen } from './choose.ts';

/** Where a figure that does not fit a step goes: a limit never gives way by being printed. */
export type Rounding = 'down' | 'up' | 'nearest';

/** Steps that amounts are printed in: the first of them that leaves something of a span. */
const STEPS = { tank: [0.01, 0.001, 0.0001], item: [1, 0.1, 0.01] } as const;

/** Narrower spans of levels are printed in finer steps. */
const NARROW = 0.05;

/** Relative to a step: nearer to a multiple is at it. */
const AT = 1e-6;

/** A figure moved to a multiple of a step. */
export function toStep(value: number, step: number, rounding: Rounding): number {
  const steps = value / step;
  const nearest = Math.round(steps);
  const whole =
    rounding === 'nearest' || Math.abs(steps - nearest) < AT
      ? nearest
      : rounding === 'down'
        ? Math.floor(steps)
        : Math.ceil(steps);
  // A quotient of two decimals is exact where a product of them is not.
  return step < 1 ? whole / Math.round(1 / step) : whole * step;
}

/** What lies inside a span in printed figures, and their step. */
export interface Printed extends Span {
  readonly step: number;
}

/** A span as it is printed: never more than there is. */
export function printed({ kind }: Pick<Chosen, 'kind'>, { least, most }: Span, whole: Span): Printed {
  const steps = STEPS[kind];
  const isNarrow = kind === 'tank' && most - least < NARROW && most - least < whole.most - whole.least;
  for (const step of isNarrow ? steps.slice(1) : steps) {
    const [from, to] = [toStep(least, step, 'up'), toStep(most, step, 'down')];
    if (from <= to) return { least: from, most: to, step };
  }
  return { least, most, step: steps[2] };
}

/** `55 %`, `2`. */
export function amountText({ kind }: Pick<Chosen, 'kind'>, amount: number): string {
  return kind === 'tank' ? `${formatNumber(100 * amount, 5, 2)} %` : formatNumber(amount, 5, 2);
}

/**
 * What an amount is in litres and kg: `38.5 L, 39.2 kg`; of items their mass. A full tank cannot be filled to more: as it is
 * shown elsewhere.
 */
export function amountFigures(chosen: Chosen, amount: number, system: DisplaySystem, rounding: Rounding): string[] {
  if (chosen.kind === 'item') return [figure(amount * chosen.item.mass, MASS, system, rounding)];
  const { capacity, content } = chosen.tank;
  const own = amount === 1 ? 'nearest' : rounding;
  return [figure(amount * capacity, VOLUME, system, own), figure(amount * content, MASS, system, own)];
}

function figure(value: number, dimension: typeof MASS, system: DisplaySystem, rounding: Rounding): string {
  const unit = displayUnit(dimension, system);
  const shown = fromSI(value, { factor: parseUnit(unit)?.factor ?? 1 });
  return `${formatNumber(toStep(shown, shown < 100 ? 0.1 : 1, rounding), 6, 1)} ${unit}`;
}

/** An amount with its figures: `55 % (38.5 L, 39.2 kg)`, `0 % (empty)`. */
export function amountInFull(chosen: Chosen, amount: number, system: DisplaySystem, rounding: Rounding): string {
  const text = amountText(chosen, amount);
  if (amount === 0) return chosen.kind === 'tank' ? `${text} (empty)` : 'none';
  return `${text} (${amountFigures(chosen, amount, system, rounding).join(', ')})`;
}

/** To the nearest tenth of a per cent or hundredth of a piece: for places to look at, not for rules. */
export function nearestAmount({ kind }: Pick<Chosen, 'kind'>, amount: number): number {
  return toStep(amount, kind === 'tank' ? 0.001 : 0.01, 'nearest');
}

/** Whether all amounts beyond one are meant too. */
export type Onward = 'more' | 'less';

/**
 * What there is: `fresh is empty`, `fresh is at 40 % or more`, `2 or fewer of 4 chair are on board`; `it is full` where a name
 * went before. Ends have nothing beyond them.
 */
export function stateWords(chosen: Chosen, amount: number, again = false, onward?: Onward): string {
  const { short, kind } = chosen;
  const name = again ? 'it' : short;
  if (kind === 'tank') {
    const is =
      amount === 0 ? 'empty' : amount === 1 ? 'full' : `at ${amountText(chosen, amount)}${beyond(onward, 'less')}`;
    return `${name} is ${is}`;
  }
  const { pieces } = chosen;
  const text = amountText(chosen, amount);
  if (pieces === 1 && (amount === 0 || amount === 1)) return `${name} is ${amount === 0 ? 'left behind' : 'on board'}`;
  return `${amount === 0 ? 'none' : amount === pieces ? 'all' : `${text}${beyond(onward, 'fewer')}`} of ${amountText(chosen, pieces)} ${again ? 'are' : `${short} are`} on board`;
}

const beyond = (onward: Onward | undefined, less: string): string =>
  onward === undefined ? '' : ` or ${onward === 'more' ? 'more' : less}`;
