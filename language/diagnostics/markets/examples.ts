import type { MarketName } from '../../catalogue/markets.ts';
import { BED, HITCH, hauler, sand, truck } from '../examples.ts';

/** What the blocks of {@link haulage} hold beside their usual lines. */
export interface Haulage {
  /** kg of sand in the bed; none unless said. */
  readonly sand?: number;
  readonly truck?: string;
  readonly hauler?: string;
  readonly brakes?: 'unbraked' | 'overrun';
  /** Place of the hauler's tare. */
  readonly tareAt?: string;
}

/** The truck with the hauler behind it, for a rig of a market. */
export function haulage(market: MarketName, parts: Haulage): string {
  const trailer = hauler(`${BED}${parts.hauler ?? ''}`)
    .replace('at 2400 mm back', `at ${parts.tareAt ?? '2400 mm'} back`)
    .replace('brakes overrun', `brakes ${parts.brakes ?? 'overrun'}`);
  const stow = parts.sand === undefined ? '' : '  stow sand in Hauler.bed\n';
  const items = parts.sand === undefined ? '' : sand(parts.sand);
  const rig = `rig Delivery in ${market} {\n  tow Truck\n  haul Hauler\n${stow}  case loaded { }\n}\n`;
  return `${items}${truck(`${HITCH}${parts.truck ?? ''}`)}${trailer}${rig}`;
}

/** A heavier trailer of a mass behind the truck, its coupling load 6 % of it unless its tare stands elsewhere. */
export function heavyHaulage(
  market: MarketName,
  mass: string,
  parts: { truck?: string; tareAt?: string } = {},
): string {
  return `${truck(`${HITCH}${parts.truck ?? ''}`)}trailer Tourer {
  coupling ball 50 mm, 430 mm up
  axles single at 3400 mm back, track 1860 mm
  tare ${mass} at ${parts.tareAt ?? '3200 mm'} back, 720 mm up, inertia 3900 kg·m²
  brakes overrun
}
rig Weekend in ${market} {
  tow Truck
  haul Tourer
  case empty { }
}
`;
}
