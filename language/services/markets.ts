import { type Concept, MARKET_TERMS, MARKETS, type MarketName, marketTerm, type Term } from '../catalogue/markets.ts';
import { isSemiTrailer } from '../rules/subjects.ts';
import type { RigModel, UnitModel } from '../semantics/model.ts';

/** The markets that a rig may name, with what their codes stand for. */
export const MARKET_NAMES: ReadonlyMap<string, string> = new Map(MARKETS.map(({ name, title }) => [name, title]));

/** A thing that markets have a word for. */
export interface Named {
  /** In the language. */
  readonly name: string;
  readonly concept?: Concept;
}

/** The word for a thing in the markets of a rig: theirs where they agree on one, else the language's. */
export function wordFor({ name, concept }: Named, { markets }: Pick<RigModel, 'markets'>): string {
  return (concept && marketTerm(markets, concept)?.short) ?? name;
}

/** Which concept the load on the coupling of a trailer is. */
export function couplingConcept({ coupling }: UnitModel): Concept {
  return coupling !== undefined && isSemiTrailer(coupling) ? 'kingpin load' : 'coupling load';
}

/** The words of a market that differ from the language's, with the language's name for each. */
export function ownTerms(market: MarketName): readonly (readonly [name: string, term: Term])[] {
  return Object.entries(MARKET_TERMS[market]).filter(([name, { short }]) => name !== short);
}
