import { kindWords, wordDocumentation } from '../services/hover/words.ts';
import { code, paragraphs, table } from '../services/markdown.ts';
import {
  ARGUMENTS,
  type ArgumentSpec,
  DIRECTIONS,
  FLAGS,
  type FlagGroup,
  GRAMMAR_WORDS,
  RELATIONS,
  STATEMENTS,
} from '../syntax/vocabulary.ts';
import { capital, joined } from './text.ts';

const WORD = { head: 'Word', align: 'left' } as const;
const MEANING = { head: 'Meaning', align: 'left' } as const;

/** The words that introduce a value or names. */
export function argumentTable(): string {
  return table(
    [WORD, { head: 'Takes', align: 'left' }, MEANING],
    Object.entries(ARGUMENTS).map(([keyword, spec]) => [code(keyword), takes(spec), spec.documentation]),
  );
}

function takes({ quantity, parts, range, text, quoted, names, list, sign }: ArgumentSpec): string {
  if (text) return 'a number, `x`, a marking or the name of a tyre';
  if (quoted) return 'text between quotes';
  if (names !== undefined) return list ? 'names with commas between them' : 'a name';
  if (parts !== undefined) return `${parts.join(' or ')} lengths joined by \`x\``;
  const kinds = joined((quantity ?? []).map(kindWords), 'or');
  const limit = sign === 'positive' ? ', more than zero' : '';
  return `${kinds}${range ? ' or a range of it' : ''}${limit}`;
}

const FLAG_HEADINGS: Readonly<Record<FlagGroup, string>> = {
  arrangement: 'number of axles',
  suspension: 'suspension',
  steering: 'steering',
  mounting: 'mounting of the tyres',
  coupling: 'kind of coupling',
  brakes: 'kind of brakes',
  shape: 'shape of a tank',
  level: 'level of a rule',
  orientation: 'how a panel, a member or a lying tank lies',
  springing: 'springs of the axle',
  vehicle_type: 'what a vehicle is certified as',
  trailer_type: 'what a trailer is certified as',
};

/** The words that stand alone, by what they say. */
export function flagTables(): string {
  return paragraphs(
    ...Object.entries(FLAGS).flatMap(([group, words]) => {
      if (!isFlagGroup(group)) return [];
      const users = STATEMENTS.filter(({ flags = [] }) => flags.includes(group)).map(({ keyword }) => code(keyword));
      return [
        `${capital(FLAG_HEADINGS[group])}, in ${joined([...new Set(users)])}:`,
        table(
          [WORD, MEANING],
          Object.entries(words).map(([word, documentation]) => [code(word), documentation]),
        ),
      ];
    }),
  );
}

function isFlagGroup(text: string): text is FlagGroup {
  return text in FLAGS;
}

/** Directions, and the words that need the thing they start from. */
export function directionTable(): string {
  return wordTable([...Object.keys(DIRECTIONS), ...Object.keys(RELATIONS)]);
}

/** The words of ranges and limits. */
export function grammarWordTable(): string {
  return wordTable(GRAMMAR_WORDS);
}

function wordTable(words: readonly string[]): string {
  return table(
    [WORD, MEANING],
    words.map((word) => [code(word), wordDocumentation(word) ?? '']),
  );
}
