import type { DisplaySystem } from '../units/display.ts';

/** A market by the name that `in` states. */
export type MarketName = 'US' | 'CA' | 'AU' | 'NZ' | 'EU' | 'UK' | 'DE';

/** A place whose texts bind a rig, with the units its trade shows. */
export interface Market {
  readonly name: MarketName;
  readonly title: string;
  readonly system: DisplaySystem;
  /** Markets whose texts bind there as well. */
  readonly within: readonly MarketName[];
}

export const MARKETS: readonly Market[] = [
  { name: 'US', title: 'United States', system: 'US', within: [] },
  { name: 'CA', title: 'Canada', system: 'metric', within: [] },
  { name: 'AU', title: 'Australia', system: 'metric', within: [] },
  { name: 'NZ', title: 'New Zealand', system: 'metric', within: [] },
  { name: 'EU', title: 'European Union', system: 'metric', within: [] },
  { name: 'UK', title: 'United Kingdom', system: 'metric', within: [] },
  { name: 'DE', title: 'Germany, on the road', system: 'metric', within: ['EU'] },
];

const BY_NAME: ReadonlyMap<string, Market> = new Map(MARKETS.map((market) => [market.name, market]));

/** The market of a name; undefined for a name that is none. */
export function marketNamed(name: string): Market | undefined {
  return BY_NAME.get(name);
}

/** The markets whose texts bind where a rig of `markets` is used: those named and those that these lie within. */
export function bindingMarkets(markets: readonly MarketName[]): ReadonlySet<MarketName> {
  return new Set(markets.flatMap((name) => [name, ...(BY_NAME.get(name)?.within ?? [])]));
}
