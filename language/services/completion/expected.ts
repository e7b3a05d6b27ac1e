import type { IToken } from 'chevrotain';
import { KIND_DIMENSIONS } from '../../semantics/kinds.ts';
import * as T from '../../syntax/tokens.ts';
import type { QuantityKind } from '../../syntax/vocabulary.ts';
import { type Dimension, LENGTH, MASS, sameDimension } from '../../units/dimension.ts';
import { parseUnit } from '../../units/units.ts';
import { argumentSpec, holdsReadings, type PathStep } from '../statements.ts';

const VALUE_KEYWORDS: ReadonlySet<string> = new Set([T.ValueKeyword, T.HeadOrValue, T.At].map(({ name }) => name));
const PLACE_KEYWORDS: ReadonlySet<string> = new Set(['at', 'from', 'floor']);

/** The keyword whose value is being written at the end of some tokens of a statement; undefined for a bare value. */
export function governingKeyword(tokens: readonly IToken[]): string | undefined {
  for (let index = tokens.length - 1; index > 0; index--) {
    const token = tokens[index];
    if (token === undefined || ends(token)) return undefined;
    if (VALUE_KEYWORDS.has(token.tokenType.name)) return token.image;
  }
  return undefined;
}

/** Tokens that end a value, so that what follows is not of the keyword before them. */
function ends({ tokenType }: IToken): boolean {
  return tokenType === T.Comma || tokenType === T.DirectionWord || tokenType === T.Flag || tokenType === T.NamesKeyword;
}

/** Dimensions that the value at the end of some tokens may have, the likeliest first. */
export function expectedDimensions(step: PathStep, tokens: readonly IToken[]): readonly Dimension[] {
  const keyword = governingKeyword(tokens);
  const dimensions = kindsOf(step, keyword, tokens).map((kind) => KIND_DIMENSIONS[kind]);
  return dimensions.filter((dimension, index) => dimensions.findIndex((d) => sameDimension(d, dimension)) === index);
}

function kindsOf(
  { statement, spec, context }: PathStep,
  keyword: string | undefined,
  tokens: readonly IToken[],
): readonly QuantityKind[] {
  if (statement.subject || spec === undefined) return [holdsReadings(context) ? 'mass' : 'ratio'];
  if (keyword === 'at') return spec.keyword.startsWith('tyre') ? ['pressure'] : ['length'];
  if (keyword !== undefined) return argumentSpec(keyword)?.quantity ?? [];
  const own = spec.value ?? [];
  if (spec.place !== true || own.length === 0) return spec.place === true ? ['length'] : own;
  // A bare value behind another one is a place; readings (`1180 kg on front, 940 kg on rear`) are masses again.
  const second = tokens.some(({ tokenType }) => tokenType === T.UnitToken || tokenType === T.Comma);
  if (!second) return own;
  return tokens.some(({ image }) => image === 'on') ? [...own, 'length'] : ['length', ...own];
}

/** Dimension of the unit that the last value ends with. */
function lastDimension(tokens: readonly IToken[]): Dimension | undefined {
  const last = tokens.at(-1);
  return last?.tokenType === T.UnitToken ? parseUnit(last.image)?.dimension : undefined;
}

/** Whether a direction may follow the length that the tokens end with. */
export function takesDirection({ spec }: PathStep, tokens: readonly IToken[]): boolean {
  if (!endsWith(tokens, LENGTH)) return false;
  const keyword = governingKeyword(tokens);
  // The body has extents and no place.
  if (spec?.place !== true) return keyword === 'from';
  return keyword === undefined || PLACE_KEYWORDS.has(keyword);
}

/** Whether the tokens end with a reading, which may say what it stands on. */
export function takesSupport({ spec }: PathStep, tokens: readonly IToken[]): boolean {
  return spec?.keyword === 'tare' && governingKeyword(tokens) === undefined && endsWith(tokens, MASS);
}

function endsWith(tokens: readonly IToken[], dimension: Dimension): boolean {
  const last = lastDimension(tokens);
  return last !== undefined && sameDimension(last, dimension);
}

/** Whether the value that the tokens end with may be the lower end of a range. */
export function takesRange({ statement, spec, context }: PathStep, tokens: readonly IToken[]): boolean {
  const last = tokens.at(-1)?.tokenType;
  if (last !== T.UnitToken && last !== T.NumberToken) return false;
  const keyword = governingKeyword(tokens);
  const ranges =
    keyword === undefined
      ? statement.subject !== undefined && !holdsReadings(context)
      : argumentSpec(keyword)?.range === true;
  const started = tokens.findLastIndex(({ tokenType }) => tokenType === T.To);
  const opened = tokens.findLastIndex(({ image }) => image === keyword);
  return ranges && spec?.keyword !== 'require' && started <= opened;
}
