import type { Position, Size } from '../mechanics/vector.ts';
import type { AxleGroup, LevelRange } from '../semantics/model.ts';
import type { Computed } from '../semantics/state.ts';
import { DIMENSIONLESS, MASS, sameDimension } from '../units/dimension.ts';
import {
  type DisplaySystem,
  formatLength,
  formatNumber,
  formatQuantity,
  formatShare,
  formatValue,
} from '../units/display.ts';

/** Computed quantities without a dimension that are shares of a whole; the others are plain ratios. */
const SHARES: ReadonlySet<string> = new Set(['share', 'imbalance', 'lost']);

/** A computed quantity: shares in per cent, everything else in the system's unit. */
export function formatComputed({ name, value, dimension }: Computed, system: DisplaySystem): string {
  const last = name.slice(name.lastIndexOf('.') + 1);
  if (SHARES.has(last) && sameDimension(dimension, DIMENSIONLESS)) return formatShare(value);
  return formatValue(value, dimension, system);
}

/** A figure that says its direction: `+31 kg`, `-4 kg`, `0 kg`. */
export function signed(text: string): string {
  return text.startsWith('-') || /^0(?![.\d])/.test(text) ? text : `+${text}`;
}

/** A change or contribution in kg, to a tenth of a kilogram: finer digits say nothing about a load. */
export function formatContribution(kilograms: number, system: DisplaySystem): string {
  return signed(formatQuantity({ value: kilograms, dimension: MASS }, undefined, { maximumDecimals: 1, system }));
}

/** kg of load per kg of mass: a plain number, the same in every system. */
export function formatPerKilogram(influence: number): string {
  return signed(formatNumber(influence, 3, 2));
}

/** How readers speak of an axle group: `front axle`, `rear axles`, `axles`. */
export function axleWords({ name, axles }: AxleGroup): string {
  if (name === 'axles') return axles.length > 1 ? 'axles' : 'axle';
  return `${name} ${axles.length > 1 ? 'axles' : 'axle'}`;
}

/** The directions of a position in words, with the datum left to the context: `2 600 mm back, 350 mm left, 410 mm up`. */
export function placeWords(centre: Position, system: DisplaySystem): string {
  const along = `${formatLength(Math.abs(centre.x), system)} ${centre.x > 0 ? 'ahead' : 'back'}`;
  const across =
    Math.abs(centre.y) < 0.0005
      ? 'on the middle line'
      : `${formatLength(Math.abs(centre.y), system)} ${centre.y > 0 ? 'left' : 'right'}`;
  const height = `${formatLength(Math.abs(centre.z), system)} ${centre.z < 0 ? 'down' : 'up'}`;
  return `${along}, ${across}, ${height}`;
}

/** `900 mm x 450 mm x 240 mm`: length, width, height; an extent of nothing is left out. */
export function sizeWords({ length, width, height }: Size, system: DisplaySystem): string {
  return [length, width, height]
    .filter((extent) => extent > 0)
    .map((extent) => formatLength(extent, system))
    .join(' x ');
}

/** `60 %`; a range with the level that is taken: `0 % to 40 % (20 % taken)`. */
export function levelWords({ value, least, most }: LevelRange): string {
  if (least === most) return formatShare(value);
  return `${formatShare(least)} to ${formatShare(most)} (${formatShare(value)} taken)`;
}
