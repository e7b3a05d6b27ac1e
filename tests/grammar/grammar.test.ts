import { readFileSync } from 'node:fs';
import { globSync } from 'tinyglobby';
import { describe, expect, it } from 'vitest';
import { parseGrammarTestCase, runGrammarTestCase } from 'vscode-tmgrammar-test/dist/unit/index.js';
import {
  ARGUMENTS,
  DIRECTIONS,
  FLAGS,
  GRAMMAR_WORDS,
  RELATIONS,
  STATEMENTS,
} from '../../language/syntax/vocabulary.ts';
import { UNITS } from '../../language/units/unit-table.ts';
import { createTokenizer, grammarWords, registry } from './tokenizer.ts';

const tokenize = await createTokenizer();

const statementWords = STATEMENTS.flatMap(({ keyword, synonyms = [] }) => [keyword, ...synonyms]);
const argumentWords = [...Object.keys(ARGUMENTS), ...GRAMMAR_WORDS];
const flagWords = Object.values(FLAGS).flatMap((group) => Object.keys(group));
const directionWords = [...Object.keys(DIRECTIONS), ...Object.keys(RELATIONS)];

/** Scopes of the token that starts with the text; the text may go on in it. */
function scopesOf(line: string, text: string): string {
  const start = line.indexOf(text);
  const token = tokenize(line).find(({ from, to }) => from <= start && start < to);
  return token ? token.scopes.join(' ') : '';
}

describe('scopes marked in the sample files', () => {
  const files = globSync('tests/grammar/*.rig');
  it.each(files)('%s', async (file) => {
    const testCase = parseGrammarTestCase(readFileSync(file, 'utf8'));
    expect(testCase.assertions.length).toBeGreaterThan(10);
    expect(await runGrammarTestCase(registry, testCase)).toEqual([]);
  });
});

/** Those of the words whose token, found in the line made from the word, has other scopes than expected. */
function miscoloured(words: readonly string[], line: (word: string) => string, expected: RegExp): string[] {
  return words.filter((word) => !expected.test(scopesOf(line(word), word)));
}

describe('the vocabulary of the language', () => {
  const statement = / (storage\.type|keyword\.(control|other\.statement))\.rig$/;

  it('colours every statement', () => {
    expect(miscoloured(statementWords, (word) => `  ${word} `, statement)).toEqual([]);
  });

  it('colours every argument', () => {
    const argument = / keyword\.other\.(argument|statement)\.rig$/;
    expect(miscoloured(argumentWords, (word) => `tank fresh ${word} `, argument)).toEqual([]);
  });

  it('colours every flag', () => {
    expect(miscoloured(flagWords, (word) => `coupling ${word} `, / variable\.other\.enummember\.rig$/)).toEqual([]);
  });

  it('colours every direction, also behind a number without a unit', () => {
    const direction = / support\.type\.direction\.rig$/;
    expect(miscoloured(directionWords, (word) => `  at 300 mm ${word} axles`, direction)).toEqual([]);
    expect(miscoloured(directionWords, (word) => `  at 300 ${word} axles`, direction)).toEqual([]);
  });

  it('colours every unit as a whole', () => {
    const spellings = UNITS.flatMap(({ symbol, synonyms }) => [symbol, ...synonyms]);
    const wrong = spellings.filter((spelling) => {
      const unit = tokenize(`let a = 2 ${spelling}`).find(({ scopes }) => scopes.includes('keyword.other.unit.rig'));
      return unit?.text !== spelling;
    });
    expect(wrong).toEqual([]);
  });

  it('colours every sign', () => {
    const operator = /keyword\.operator\.\w+\.rig$/;
    const signs = ['±', '+/-', '>=', '≥', '>', '<=', '≤', '<', '+', '-', '−', '*', '·', '/', '='];
    expect(miscoloured(signs, (sign) => `require mass ${sign} 2 kg`, operator)).toEqual([]);
    const whole = signs.filter((sign) => tokenize(`require mass ${sign} 2 kg`).every(({ text }) => text !== sign));
    expect(whole).toEqual([]);
    expect(miscoloured([',', ';'], (sign) => `holds 2 kg${sign} left`, / punctuation\.separator\.rig$/)).toEqual([]);
  });

  it('colours every form of number as a whole', () => {
    const numbers = ['1850', '3.5', '.5', '1_850', '1\u202f850', '1e3', '1e-3', '3/4', '3 3/4'];
    const wrong = numbers.filter((number) => {
      const found = tokenize(`let a = ${number} kg`).find(({ scopes }) => scopes.includes('constant.numeric.rig'));
      return found?.text !== number;
    });
    expect(wrong).toEqual([]);
  });

  it('colours the first word of every example', () => {
    const examples = STATEMENTS.map(({ example }) => example);
    const wrong = examples.filter((example) => !statement.test(scopesOf(example, example.match(/^\w+/)?.[0] ?? '')));
    expect(wrong).toEqual([]);
  });

  it('is all that the grammar colours', () => {
    const known = new Set<string>([...statementWords, ...argumentWords, ...flagWords, ...directionWords]);
    const coloured = grammarWords();
    expect(coloured.length).toBeGreaterThan(80);
    expect(coloured.filter((word) => !known.has(word))).toEqual([]);
  });
});
