/** What an editor asks about a document: plain data in and out, with absolute UTF-16 offsets. */

export { completions } from './completion/completions.ts';
export type { CompletionEntry, CompletionKind } from './completion/entry.ts';
export { definition } from './definition.ts';
export type { Fix, FixEdit } from './fixes/fix.ts';
export { fixes } from './fixes/fixes.ts';
export { type Hover, hover } from './hover/hover.ts';
export { documentSymbols, type SymbolEntry } from './symbols.ts';
