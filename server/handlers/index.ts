import { codeAction } from './code-action.ts';
import { completion } from './completion.ts';
import { definition } from './definition.ts';
import { diagnostic } from './diagnostic.ts';
import { documentSymbol } from './document-symbol.ts';
import type { Handler } from './handler.ts';
import { hover } from './hover.ts';

/** One handler for each request: what is in this table is answered and advertised, and nothing else. */
export const HANDLERS: readonly Handler[] = [codeAction, completion, definition, diagnostic, documentSymbol, hover];
