import { MARKETS } from '../catalogue/markets.ts';

/** The markets that a rig may name, with what their codes stand for. */
export const MARKET_NAMES: ReadonlyMap<string, string> = new Map(MARKETS.map(({ name, title }) => [name, title]));
