import type { DisplaySystem } from './display.ts';
import { displayUnit } from './display.ts';
import type { ParsedUnit } from './parse-unit.ts';
import { fromSI, parseUnit, toSI } from './parse-unit.ts';
import { UNITS } from './unit-table.ts';

/** Units that have a counterpart of their own size; the others have the unit that figures are shown in by default. */
const OF_LIKE_SIZE: Readonly<Partial<Record<string, string>>> = {
  m: 'ft',
  km: 'mi',
  ft: 'm',
  yd: 'm',
  mi: 'km',
  g: 'oz',
  oz: 'g',
  'm³': 'ft³',
  'ft³': 'm³',
  'cm³': 'in³',
  'in³': 'cm³',
  'cm²': 'in²',
  'mm²': 'in²',
  'in²': 'cm²',
  'm/s': 'ft/s',
  'ft/s': 'm/s',
  'kg/m³': 'lb/ft³',
  'lb/ft³': 'kg/m³',
  'N/rad': 'lbf/rad',
  'kN/rad': 'lbf/rad',
  'lbf/rad': 'N/rad',
};

const SYSTEM_OF: ReadonlyMap<string, DisplaySystem | undefined> = new Map(
  UNITS.map(({ symbol, system }) => {
    if (system === 'any') return [symbol, undefined];
    return [symbol, system === 'US' || system === 'imperial' ? 'US' : 'metric'];
  }),
);

/**
 * The unit that the other system, US customary or metric, usually has in the place of a unit of the table; undefined
 * where both share one, and for units composed by the author.
 */
export function counterpartOf(unit: ParsedUnit): ParsedUnit | undefined {
  const system = SYSTEM_OF.get(unit.text);
  if (system === undefined) return undefined;
  const other = system === 'US' ? 'metric' : 'US';
  const symbol = OF_LIKE_SIZE[unit.text] ?? displayUnit(unit.dimension, other);
  return SYSTEM_OF.get(symbol) === other ? parseUnit(symbol) : undefined;
}

/** A number rewritten in another unit. */
export interface Rewritten {
  /** As the language reads it. */
  readonly number: string;
  /** Whether it is the same value, within floating-point arithmetic. */
  readonly isExact: boolean;
  /** What the number is in the unit that it was written in. */
  readonly readBack: number;
}

/** An exact number has no more decimals than this; longer ones are rounded. */
const MOST_EXACT_DECIMALS = 4;
const MOST_DECIMALS = 12;
/** Relative; what arithmetic with exact factors may be off. */
const ARITHMETIC = 1e-12;
/** A rewritten number is off by at most this part of the last place written, and of the number itself. */
const PART_OF_LAST_PLACE = 1 / 20;
const PART_OF_NUMBER = 1 / 2000;

/**
 * An amount, written to a last place (`1` for 1850, `0.1` for 2.5), in another unit of the same dimension: exactly where
 * few decimals do, else with the fewest decimals that read back as the amount to the place written and one more.
 * Undefined where that takes more digits than a figure has.
 */
export function rewritten(amount: number, lastPlace: number, from: ParsedUnit, to: ParsedUnit): Rewritten | undefined {
  const value = fromSI(toSI(amount, from), to);
  if (!Number.isFinite(value) || Math.abs(value) >= 1e15) return undefined;
  const candidate = (decimals: number): Rewritten => {
    const number = value
      .toFixed(decimals)
      .replace(/(\.\d*?)0+$/, '$1')
      .replace(/\.$/, '');
    const readBack = fromSI(toSI(Number(number), to), from);
    return { number, readBack, isExact: Math.abs(readBack - amount) <= ARITHMETIC * Math.abs(amount) };
  };
  const exact = candidate(MOST_EXACT_DECIMALS);
  if (exact.isExact) return exact;
  const allowed = Math.min(lastPlace * PART_OF_LAST_PLACE, Math.abs(amount) * PART_OF_NUMBER);
  for (let decimals = 0; decimals <= MOST_DECIMALS; decimals++) {
    const found = candidate(decimals);
    if (Math.abs(found.readBack - amount) <= allowed) return found;
  }
  return undefined;
}

/** The place of the last digit of a number as written: 1 of `1850`, 0.01 of `3.25`, 1/4 of `3 3/4`. */
export function lastPlaceOf(text: string): number {
  const [, denominator] = /\/\s*(\d+)\s*$/.exec(text) ?? [];
  if (denominator !== undefined) return 1 / Number(denominator);
  const [, decimals = '', exponent = '0'] = /^[^.eE]*(?:\.([^eE]*))?(?:[eE](.*))?$/.exec(text.trim()) ?? [];
  return 10 ** (Number(exponent) - decimals.replace(/\D/g, '').length);
}
