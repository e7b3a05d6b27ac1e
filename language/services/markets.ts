import { MARKETS } from '../semantics/rig.ts';

/** Countries and unions by the code of their market. */
const NAMES: Readonly<Record<string, string>> = {
  US: 'United States',
  CA: 'Canada',
  AU: 'Australia',
  NZ: 'New Zealand',
  EU: 'European Union',
  UK: 'United Kingdom',
  DE: 'Germany',
};

/** The markets that a rig may name, with what their codes stand for. */
export const MARKET_NAMES: ReadonlyMap<string, string> = new Map(MARKETS.map((code) => [code, NAMES[code] ?? code]));
