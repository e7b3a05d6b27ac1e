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

/** The market that a name which is none was meant for: its short name, or the start of its title, in other letters. */
export function nearestMarket(name: string): Market | undefined {
  const written = name.toLowerCase().replaceAll('_', ' ');
  const [country] = MARKETS.filter(({ title }) => /^[^,]*/.exec(title.toLowerCase())?.[0] === written);
  return BY_NAME.get(name.toUpperCase()) ?? country;
}

/** The markets whose texts bind where a rig of `markets` is used: those named and those that these lie within. */
export function bindingMarkets(markets: readonly MarketName[]): ReadonlySet<MarketName> {
  return new Set(markets.flatMap((name) => [name, ...(BY_NAME.get(name)?.within ?? [])]));
}

/** What the markets call by names of their own, by the language's name for it; a kingpin load is the coupling load of a semi-trailer. */
export const CONCEPTS = [
  'GVM',
  'GCM',
  'ATM',
  'GTM',
  'axle rating',
  'coupling load',
  'kingpin load',
  'tare',
  'payload',
] as const;

export type Concept = (typeof CONCEPTS)[number];

/** A word of a market's trade. */
export interface Term {
  /** As plates and tables have it. */
  readonly short: string;
  /** Written out. */
  readonly full: string;
}

type Terms = Readonly<Partial<Record<Concept, Term>>>;

const term = (short: string, full = short): Term => ({ short, full });

/** 49 CFR 571.3(b), 567.4; the loads on hitches as the trade calls them. */
const NORTH_AMERICA: Terms = {
  GVM: term('GVWR', 'gross vehicle weight rating'),
  GCM: term('GCWR', 'gross combination weight rating'),
  ATM: term('GVWR', 'gross vehicle weight rating of the trailer'),
  'axle rating': term('GAWR', 'gross axle weight rating'),
  'coupling load': term('tongue load'),
  'kingpin load': term('pin load'),
  tare: term('unloaded vehicle weight'),
};

/** ADR definitions (those of GVM and GCM from memory); ball load is the trade's word. */
const AUSTRALASIA: Terms = {
  GVM: term('GVM', 'gross vehicle mass'),
  GCM: term('GCM', 'gross combination mass'),
  ATM: term('ATM', 'aggregate trailer mass'),
  GTM: term('GTM', 'gross trailer mass'),
  'axle rating': term('axle load rating'),
  'coupling load': term('ball load'),
  'kingpin load': term('coupling load'),
  tare: term('tare'),
};

/** (EU) 1230/2012 (from memory, but for the mass in running order). */
const EUROPEAN_UNION: Terms = {
  GVM: term('maximum laden mass', 'technically permissible maximum laden mass'),
  GCM: term('mass of the combination', 'technically permissible maximum laden mass of the combination'),
  ATM: term('maximum laden mass', 'technically permissible maximum laden mass'),
  'coupling load': term('coupling load', 'static vertical load on the coupling point'),
  'kingpin load': term('coupling load', 'static vertical load on the coupling point'),
  tare: term('mass in running order'),
  payload: term('user payload'),
};

/** As the trade calls them. */
const UNITED_KINGDOM: Terms = {
  GVM: term('MAM', 'maximum authorised mass'),
  GCM: term('gross train weight'),
  ATM: term('MTPLM', 'maximum technically permissible laden mass'),
  'coupling load': term('nose load'),
};

/** The words of each market; a concept for which it has none goes by its name in the language. */
export const MARKET_TERMS: Readonly<Record<MarketName, Terms>> = {
  US: NORTH_AMERICA,
  CA: NORTH_AMERICA,
  AU: AUSTRALASIA,
  NZ: AUSTRALASIA,
  EU: EUROPEAN_UNION,
  DE: EUROPEAN_UNION,
  UK: UNITED_KINGDOM,
};

/** What the markets of a rig call a concept; undefined where it names none, where one has no word or where they disagree. */
export function marketTerm(markets: readonly MarketName[], concept: Concept): Term | undefined {
  const [first, ...others] = markets.map((name) => MARKET_TERMS[name][concept]);
  return others.every((other) => other?.short === first?.short) ? first : undefined;
}
