import { COUPLINGS } from './couplings.ts';
import type { DiagnosticDefinition } from './define.ts';
import { EXTENTS } from './extents.ts';
import { GEOMETRY } from './geometry.ts';
import { LEVEL_LINES } from './levels.ts';
import { LOADS } from './loads.ts';
import { MARKET_TEXTS } from './markets/index.ts';
import { NAMES } from './names.ts';
import { QUANTITIES } from './quantities.ts';
import { RATINGS } from './ratings.ts';
import { REACH } from './reach.ts';
import { REQUIREMENTS } from './requirements.ts';
import { STABILITY } from './stability.ts';
import { SYNTAX } from './syntax.ts';
import { WEIGHINGS } from './weighing.ts';
import { WEIGHING_LINES } from './weighing-lines.ts';

const ENTRIES = {
  ...SYNTAX,
  ...NAMES,
  ...QUANTITIES,
  ...GEOMETRY,
  ...COUPLINGS,
  ...EXTENTS,
  ...LOADS,
  ...REQUIREMENTS,
  ...STABILITY,
  ...MARKET_TEXTS,
  ...RATINGS,
  ...REACH,
  ...LEVEL_LINES,
  ...WEIGHING_LINES,
  ...WEIGHINGS,
} as const;

export type CatalogueKey = keyof typeof ENTRIES;

/** Parameters of each diagnostic's message. */
export type CatalogueParameters = {
  readonly [K in CatalogueKey]: (typeof ENTRIES)[K] extends DiagnosticDefinition<infer P> ? P : never;
};

/** Every diagnostic there is, by its name in the code. Codes are grouped by range: see the files merged here. */
export const CATALOGUE: { readonly [K in CatalogueKey]: DiagnosticDefinition<CatalogueParameters[K]> } = ENTRIES;
