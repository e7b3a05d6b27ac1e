import type { QuantityKind, StatementSpec } from '../../syntax/vocabulary.ts';
import { bold, code, enumerate, fence, paragraphs } from '../markdown.ts';
import { argumentSpec, flagDocumentation } from '../statements.ts';

/** The documentation of a statement, with an example. */
export function statementHover(head: string, spec: StatementSpec): string {
  const synonym = head === spec.keyword ? '' : ` (read as ${code(spec.keyword)})`;
  return paragraphs(`${bold(head)}${synonym} — ${spec.documentation}`, takesWords(spec), fence(spec.example));
}

/** One line of documentation, for a statement whose figures stand above it. */
export function statementNote(spec: StatementSpec): string {
  return `${code(spec.keyword)}: ${spec.documentation}`;
}

function takesWords({ arguments: keywords = [], value = [] }: StatementSpec): string | undefined {
  const parts = [...value.map((kind) => kindWords(kind)), ...keywords.map(code)];
  return parts.length > 0 ? `Takes ${enumerate(parts)}.` : undefined;
}

/** `a mass`, `an acceleration`, `a share in %`. */
export function kindWords(kind: QuantityKind): string {
  if (kind === 'ratio') return 'a share in %';
  return `${/^[aeiou]/.test(kind) ? 'an' : 'a'} ${kind}`;
}

/** The documentation of a word that introduces a value or names. */
export function argumentHover(keyword: string): string | undefined {
  const spec = argumentSpec(keyword);
  if (spec === undefined) return undefined;
  const kinds = spec.quantity?.map((kind) => kindWords(kind)) ?? [];
  return paragraphs(
    `${bold(keyword)} — ${spec.documentation}`,
    kinds.length > 0 ? `Takes ${kinds.join(' or ')}${spec.range ? ', or a range with `to`' : ''}.` : undefined,
  );
}

export function flagHover(word: string): string | undefined {
  const documentation = flagDocumentation(word);
  return documentation && `${bold(word)} — ${documentation}`;
}

const FROM_DATUM =
  "from the unit's datum (a trailer's coupling centre, a vehicle's front axle, at road level on the middle line), or with `of` from a named thing";

/** Words of place and of the grammar, by what they mean. */
const WORDS: Readonly<Record<string, string>> = {
  back: `Towards the rear, ${FROM_DATUM}.`,
  ahead: `Towards the front, ${FROM_DATUM}.`,
  left: `To the left in the direction of travel, ${FROM_DATUM}. Alone in a locker: against the left side wall.`,
  right: `To the right in the direction of travel, ${FROM_DATUM}. Alone in a locker: against the right side wall.`,
  up: `Upwards, ${FROM_DATUM}.`,
  down: `Downwards, ${FROM_DATUM}.`,
  behind: 'Towards the rear from a named thing: `300 mm behind axles`.',
  above: 'Upwards from a named thing: `120 mm above floor_tank`.',
  below: 'Downwards from a named thing: `200 mm below bed`.',
  on: 'What a reading stands on: `1260 kg on axles, 125 kg on coupling`.',
  to: 'Joins the ends of a range: `0 % to 40 %`.',
  and: 'Joins the ends of a limit: `between 8 % and 12 %`.',
  between: 'Both ends of a limit: `between 8 % and 12 %`.',
  least: 'The lower end of a limit: `at least 8 %`.',
  most: 'The upper end of a limit: `at most 12 %`.',
  x: 'Joins a count and a thing, or the sides of a size: `2 x awning`, `900 x 450 x 240 mm`.',
};

export function wordHover(word: string): string | undefined {
  const documentation = Object.hasOwn(WORDS, word) ? WORDS[word] : undefined;
  return documentation && `${bold(word)} — ${documentation}`;
}

/** The first sentence of what a word of place means: for completion. */
export function wordDocumentation(word: string): string | undefined {
  return Object.hasOwn(WORDS, word) ? WORDS[word] : undefined;
}
