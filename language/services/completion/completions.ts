import type { IToken } from 'chevrotain';
import type { Analysis } from '../../semantics/analysis.ts';
import { systemOf } from '../../semantics/display-system.ts';
import { LIMITS_OF } from '../../semantics/unit/limits.ts';
import * as T from '../../syntax/tokens.ts';
import type { Context } from '../../syntax/vocabulary.ts';
import { unitKind } from '../names.ts';
import { holdsReadings, namesAfter } from '../statements.ts';
import { type Caret, readCaret } from './caret.ts';
import type { CompletionEntry, Proposal } from './entry.ts';
import { expectedDimensions, governingKeyword, takesDirection, takesRange, takesSupport } from './expected.ts';
import { fileEntries } from './files.ts';
import { datumProposals, NAME_PROVIDERS, type NameScope, tankProposals } from './names.ts';
import { ALL_DIMENSIONS, computedProposals, letProposals, unitsForRequirement } from './quantities.ts';
import { endProposals, readingProposals } from './readings.ts';
import {
  argumentProposals,
  directionProposals,
  flagProposals,
  statementProposals,
  unitProposals,
  wordProposal,
} from './words.ts';

/** What fits at an offset, the likeliest first; works on text that is still being written. */
export function completions(analysis: Analysis, uri: string, offset: number): readonly CompletionEntry[] {
  const caret = readCaret(analysis, uri, offset);
  if (caret === undefined) return [];
  if (!('tokens' in caret)) return caret.head === 'use' ? fileEntries(analysis, uri, caret) : [];
  const { declaration, start: declarationStart } = caret.placed;
  const name = declaration.statement?.name?.text ?? '';
  const scope: NameScope = { analysis, caret, here: { name, uri, declaration, start: declarationStart } };
  return place(proposalsAt(scope), caret);
}

/** Gives proposals their range; of dotted names only what follows the part already written. */
function place(proposals: readonly Proposal[], { qualifier, start, end }: Caret): readonly CompletionEntry[] {
  const entries = new Map<string, CompletionEntry>();
  for (const proposal of proposals) {
    if (!proposal.label.startsWith(qualifier)) continue;
    const label = proposal.label.slice(qualifier.length);
    if (!entries.has(label)) entries.set(label, { ...proposal, label, start, end });
  }
  return [...entries.values()];
}

function proposalsAt(scope: NameScope): readonly Proposal[] {
  const { step, mayStart, tokens, apart } = scope.caret;
  const before = tokens.at(-1);
  if (step === undefined || before === undefined) return starts(scope);
  const within = inStatement(scope, before);
  return mayStart && apart && endsValue(before) ? [...within, ...starts(scope)] : within;
}

/** What may start at the caret: statements of the block, in blocks of levels also the tanks they speak of. */
function starts(scope: NameScope): readonly Proposal[] {
  const { context } = scope.caret;
  if (context === undefined) return [];
  const statements = scope.caret.qualifier === '' ? statementsFor(scope, context) : [];
  if (context === 'case' || context === 'reachable') return [...tankProposals(scope), ...statements];
  return holdsReadings(context) ? [...readingProposals(scope), ...statements] : statements;
}

/** The statements of a block; of limits those that the kind of unit around them has. */
function statementsFor(scope: NameScope, context: Context): readonly Proposal[] {
  const kind = context === 'limits' ? unitKind(scope.analysis, scope.here) : undefined;
  const limits: readonly string[] | undefined = kind && LIMITS_OF[kind];
  return statementProposals(contextsFor(scope, context), ({ keyword }) => limits?.includes(keyword) ?? true);
}

/** A variant's block holds its own lines and those of the kind of unit it varies. */
function contextsFor({ analysis, here }: NameScope, context: Context): readonly Context[] {
  if (context !== 'variant') return [context];
  const kind = unitKind(analysis, here);
  return kind === undefined ? ['variant', 'vehicle', 'trailer'] : ['variant', kind];
}

const OPERATORS: ReadonlySet<string> = new Set(
  [T.Plus, T.Minus, T.Star, T.Slash, T.LeftParenthesis, T.Equals, T.Least, T.Most, T.AtLeast, T.AtMost].map(
    ({ name }) => name,
  ),
);
const VALUE_OPENERS: ReadonlySet<string> = new Set(
  [T.ValueKeyword, T.HeadOrValue, T.At, T.To, T.PlusMinus].map(({ name }) => name),
);
const VALUE_ENDS: ReadonlySet<string> = new Set(
  [T.UnitToken, T.RightParenthesis, T.TextToken, T.Flag, T.DirectionWord, T.Word, T.Comma].map(({ name }) => name),
);

const endsValue = ({ tokenType }: IToken): boolean => VALUE_ENDS.has(tokenType.name);

/** What fits behind a token of the statement being written. */
function inStatement(scope: NameScope, before: IToken): readonly Proposal[] {
  const { caret } = scope;
  const { step, tokens } = caret;
  if (step === undefined) return [];
  const head = step.spec?.keyword ?? '';
  const type = before.tokenType;
  // Names are the author's to choose.
  if (tokens.length === 1 && type === T.Declares) return [];
  if (type === T.NumberToken)
    return caret.apart ? [...numberUnits(scope), ...continuations(scope)] : numberUnits(scope);
  if (!caret.apart && endsValue(before)) return [];
  if (type === T.RelationWord) return datumProposals(scope, before.image === 'on');
  if (type === T.Of && tokens.at(-2)?.tokenType === T.DirectionWord) return datumProposals(scope, false);
  const listed = listedNames(scope, head);
  if (listed !== undefined) return type === T.Comma ? [...listed, ...continuations(scope)] : listed;
  if (head === 'require' && tokens.length === 1) return [...computedProposals(scope), ...letProposals(scope)];
  if (head === 'require' && type === T.At) return ['least', 'most'].map(wordProposal);
  if (type === T.Times && governingHead(tokens) === 'tyres') return NAME_PROVIDERS.tyre(scope);
  if (OPERATORS.has(type.name) || type === T.Between || type === T.And || type === T.Times) {
    return [...letProposals(scope), ...(head === 'require' ? computedProposals(scope) : [])];
  }
  if (tokens.length > 1 && VALUE_OPENERS.has(type.name)) return valueNames(scope, before);
  return continuations(scope);
}

function numberUnits(scope: NameScope): readonly Proposal[] {
  const { step, tokens, apart, placed } = scope.caret;
  if (step === undefined || tokens.length < 2) return [];
  const system = systemOf(placed.declaration);
  if (step.spec?.keyword === 'require') return unitProposals(unitsForRequirement(scope), system, apart);
  if (step.spec?.keyword === 'let') return unitProposals(ALL_DIMENSIONS, system, apart);
  // The count of what is listed has no unit.
  if (tokens.at(-2)?.tokenType === T.Lists) return [];
  return unitProposals(expectedDimensions(step, tokens), system, apart);
}

/** Names behind a keyword or head that lists some, also behind a comma of the list. */
function listedNames(scope: NameScope, head: string): readonly Proposal[] | undefined {
  const { tokens, step } = scope.caret;
  const last = tokens.at(-1)?.tokenType;
  if (last === undefined || last === T.Word || (last !== T.Comma && last !== T.Times && !introducesNames(last))) {
    return undefined;
  }
  let index = tokens.length - 1;
  while (index >= 0 && isListPart(tokens[index])) index--;
  const opener = tokens[index];
  if (opener === undefined || !introducesNames(opener.tokenType)) return undefined;
  const kind =
    opener.tokenType === T.Lists || opener.tokenType === T.Rule ? step?.spec?.lists : namesAfter(opener.image, head);
  if (kind === undefined) return undefined;
  const taken = new Set(tokens.slice(index + 1).map(({ image }) => image));
  const proposals = kind === 'unit' && step?.context === 'weighing' ? endProposals(scope) : NAME_PROVIDERS[kind](scope);
  return proposals.filter(({ label }) => !taken.has(label));
}

function introducesNames(type: IToken['tokenType']): boolean {
  return type === T.Lists || type === T.Rule || type === T.NamesKeyword || type === T.Of || type === T.In;
}

function isListPart(token: IToken | undefined): boolean {
  if (token === undefined) return false;
  const { tokenType } = token;
  const isName = tokenType === T.Word || (tokenType.CATEGORIES ?? []).includes(T.Word);
  return (
    (isName && !introducesNames(tokenType)) ||
    tokenType === T.Comma ||
    tokenType === T.Dot ||
    tokenType === T.Times ||
    tokenType === T.NumberToken
  );
}

/** `tyres` where the value of that keyword or head is being written. */
function governingHead(tokens: readonly IToken[]): string | undefined {
  return governingKeyword(tokens) ?? tokens[0]?.image;
}

/** Names that may stand for the value behind a keyword. */
function valueNames(scope: NameScope, keyword: IToken): readonly Proposal[] {
  if (keyword.image === 'tyres') return NAME_PROVIDERS.tyre(scope);
  const lets = letProposals(scope);
  return keyword.tokenType === T.At ? [...datumProposals(scope, false), ...lets] : lets;
}

/** What may go on behind a finished value, name or flag. */
function continuations(scope: NameScope): readonly Proposal[] {
  const { step, tokens } = scope.caret;
  if (step === undefined) return [];
  const used = new Set(tokens.slice(1).map(({ image }) => image));
  const proposals: Proposal[] = [];
  if (takesDirection(step, tokens)) proposals.push(...directionProposals(used));
  if (takesSupport(step, tokens)) proposals.push(wordProposal('on'));
  if (takesRange(step, tokens)) proposals.push(wordProposal('to'));
  if (tokens.at(-1)?.tokenType === T.DirectionWord) {
    proposals.push({ label: 'of', kind: 'keyword', detail: 'of a named thing' });
  }
  const { spec } = step;
  if (spec === undefined) return proposals;
  if (spec.keyword === 'require') return [...proposals, ...requirementWords(used)];
  return [...proposals, ...argumentProposals(spec, used), ...flagProposals(spec, used)];
}

function requirementWords(used: ReadonlySet<string>): readonly Proposal[] {
  if (used.has('between') && !used.has('and')) return [wordProposal('and')];
  const compared = ['between', 'at', '>=', '<='].some((word) => used.has(word));
  if (compared) return used.has('in') ? [] : [{ label: 'in', kind: 'keyword', detail: 'cases it holds in' }];
  return [
    wordProposal('between'),
    { label: 'at least', kind: 'keyword', detail: 'lower limit' },
    { label: 'at most', kind: 'keyword', detail: 'upper limit' },
  ];
}
