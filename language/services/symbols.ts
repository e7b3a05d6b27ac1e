import type { Analysis, Entity, PlacedEntity } from '../semantics/analysis.ts';
import type { Declaration, Statement } from '../syntax/tree.ts';
import { systemShown } from './resolve.ts';
import { canonicalHead } from './statements.ts';
import { declarationDetail, symbolDetail } from './symbol-details.ts';

/** A declaration or a line of one. Ranges are absolute; the name's lies inside the symbol's. */
export interface SymbolEntry {
  readonly name: string;
  /** The key figure: a mass, a volume, loads. */
  readonly detail: string;
  /** The keyword of its statement: `trailer`, `tank`. */
  readonly kind: string;
  readonly start: number;
  readonly end: number;
  readonly nameStart: number;
  readonly nameEnd: number;
  readonly children: readonly SymbolEntry[];
}

/** Lines without a name that are worth finding. */
const LISTED_HEADS: ReadonlySet<string> = new Set([
  'axles',
  'coupling',
  'hitch',
  'wheelbase',
  'tare',
  'limits',
  'reachable',
]);

/** Of more declarations than this the details are what is written: the loads of all of them would have to be computed. */
const MOST_COMPUTED = 1000;

/** The symbol of each declaration with offsets relative to it, as long as the declaration says the same. */
const known = new WeakMap<Declaration, { readonly entity: Entity | undefined; readonly symbol: SymbolEntry }>();

/** The declarations of a document with what is in them, in text order; also of broken text. */
export function documentSymbols(analysis: Analysis, uri: string): readonly SymbolEntry[] {
  const document = analysis.workspace.documents.get(uri);
  if (document?.kind !== 'text') return [];
  const { declarations } = document.syntax;
  const listed = declarations.length > MOST_COMPUTED ? declarations : analysis.entities(uri);
  return listed.flatMap((placed) => {
    const { statement } = placed.declaration;
    if (statement === undefined || (statement.name === undefined && statement.block === undefined)) return [];
    return shift(relativeSymbol(placed, statement), placed.start);
  });
}

function relativeSymbol({ declaration, entity }: PlacedEntity, statement: Statement): SymbolEntry {
  const before = known.get(declaration);
  if (before !== undefined && before.entity === entity) return before.symbol;
  const detail = declarationDetail(declaration, statement, entity);
  const symbol = symbolOf(statement, declaration.text, detail, childrenOf(declaration, entity, statement));
  known.set(declaration, { entity, symbol });
  return symbol;
}

function shift(symbol: SymbolEntry, by: number): SymbolEntry {
  return {
    ...symbol,
    start: symbol.start + by,
    end: symbol.end + by,
    nameStart: symbol.nameStart + by,
    nameEnd: symbol.nameEnd + by,
    children: symbol.children.map((child) => shift(child, by)),
  };
}

function symbolOf(statement: Statement, text: string, detail: string, children: readonly SymbolEntry[]): SymbolEntry {
  const name = statement.name ?? statement.head;
  return {
    name: text.slice(name.start, name.end),
    detail,
    kind: canonicalHead(statement.head.text),
    start: statement.start,
    end: Math.max(statement.end, name.end),
    nameStart: name.start,
    nameEnd: name.end,
    children,
  };
}

/** The lines of a declaration that have a name or a place of their own. */
function childrenOf(
  declaration: Declaration,
  entity: Entity | undefined,
  parent: Statement,
  prefix = '',
): readonly SymbolEntry[] {
  // Only computed figures are shown in a system of units.
  const system = entity === undefined ? 'metric' : systemShown(declaration, entity);
  return (parent.block?.statements ?? []).flatMap((statement) => {
    const head = canonicalHead(statement.head.text);
    if (statement.subject || (statement.name === undefined && !LISTED_HEADS.has(head))) return [];
    const name = prefix + (statement.name?.text ?? head);
    const inner = head === 'group' ? childrenOf(declaration, entity, statement, `${name}.`) : [];
    const detail = symbolDetail({ head, name, statement, text: declaration.text }, entity, system);
    return symbolOf(statement, declaration.text, detail, inner);
  });
}
