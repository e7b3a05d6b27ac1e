import fc from 'fast-check';
import { getNodeValue } from 'jsonc-parser';
import { describe, expect, test } from 'vitest';
import { readEditorLevels } from '../../../language/levels/editor-settings.ts';
import { type JsonPlace, membersOf, placeOf, readJson } from '../../../language/levels/json.ts';
import { readWorkspaceFile } from '../../../language/levels/workspace-file.ts';

const levelsOf = (text: string) => [...readWorkspaceFile(text).levels.values()];
/** Code, marked text and message of each problem. */
const problemsOf = (text: string) =>
  readWorkspaceFile(text).diagnostics.map(
    ({ code, start, end, message }) => `${code} ${text.slice(start, end)}: ${message}`,
  );

describe('a workspace file', () => {
  test('states levels with reasons', () => {
    const text =
      '{\n "levels": { "RW603": { "level": "off", "reason": "by \\u0064esign" }, "RW602": { "reason": "house", "level": "error" } }\n}\n';
    expect(problemsOf(text)).toEqual([]);
    expect(levelsOf(text)).toMatchObject([
      { code: 'RW603', level: 'off', reason: 'by design', origin: 'workspace file' },
      { code: 'RW602', level: 'error', reason: 'house', origin: 'workspace file' },
    ]);
  });

  test.each([
    ['', 'RW895 : The file ends where a value is expected. The levels that this file states are not heeded.'],
    ['{', "RW895 : The file ends where '}' is expected. The levels that this file states are not heeded."],
    [
      '{ "levels": { }, }',
      "RW895 }: '}' stands where a name between double quotes is expected. The levels that this file states are not heeded.",
    ],
    [
      '{ levels: 1 }',
      "RW895 levels: 'levels' stands where a name between double quotes is expected. The levels that this file states are not heeded.",
    ],
    [
      '[1, 2] x',
      "RW895 x: 'x' stands where the end of the file is expected. The levels that this file states are not heeded.",
    ],
    ['[]', 'RW896 []: The file holds a list: write an object with "levels".'],
    ['{ "level": 3 }', 'RW896 "level": "level" has no meaning here: write "levels".'],
    ['{ "levels": [] }', 'RW896 []: "levels" holds a list: write an object with an entry for each code.'],
    [
      '{ "levels": { "RW603": "off" } }',
      'RW896 "off": "RW603" holds text: write an object such as { "level": "off", "reason": "as on drawing 12" }.',
    ],
    [
      '{ "levels": { "RW603": { "reason": "x" } } }',
      'RW896 "RW603": The level of RW603 is missing: write for example "level": "off".',
    ],
    [
      '{ "levels": { "RW603": { "level": 0, "reason": "x" } } }',
      'RW896 0: The level of RW603 is a number: write text between double quotes.',
    ],
    [
      '{ "levels": { "RW603": { "level": "of", "reason": "x" } } }',
      `RW892 "of": 'of' is no level: write off, information, warning or error.`,
    ],
    [
      '{ "levels": { "RW603": { "level": "off" } } }',
      'RW893 "RW603": Why RW603 has another level is not said. Write, for example: "reason": "as on drawing 12"',
    ],
    [
      '{ "levels": { "RW63": { "level": "off", "reason": "x" } } }',
      `RW890 "RW63": No diagnostic has the code 'RW63'; the nearest is 'RW603'.`,
    ],
    ['{ "levels": { "RW101": { "level": "off", "reason": "x" } } }', 'RW891'],
    ['{ "levels": { "__proto__": { "level": "off", "reason": "x" } } }', 'RW890'],
    [
      '{ "levels": { "RW603": { "level": "off", "reason": "x", "until": 3 } } }',
      'RW896 "until": "until" has no meaning here: write "level" and "reason".',
    ],
    [
      '{ "levels": { "RW603": { "level": "off", "reason": "x" }, "RW603": { "level": "error", "reason": "y" } } }',
      'RW894 "RW603"',
    ],
  ])('%s is told at its place', (text, expected) => {
    const problems = problemsOf(text);
    expect(problems[0]?.slice(0, expected.length)).toBe(expected);
    expect(problems.filter((problem) => problem.startsWith(expected.slice(0, 5))).length).toBeGreaterThan(0);
  });

  test('keeps what is not wrong', () => {
    const text = '{ "levels": { "RW1": {}, "RW603": { "level": "off", "reason": "x" } }, "other": 1 }';
    expect(levelsOf(text).map(({ code }) => code)).toEqual(['RW603']);
    expect(readWorkspaceFile(text).diagnostics.map(({ code }) => code)).toEqual(['RW890', 'RW896']);
  });

  test('never throws, and places problems inside the text', () => {
    const pieces = fc.constantFrom(
      '{',
      '}',
      '[',
      ']',
      ':',
      ',',
      '"',
      '"levels"',
      '"RW603"',
      '"level"',
      '"off"',
      '\\',
      '/*',
      '1e',
      'null',
      '\n',
      '\u0000',
      '😀',
    );
    fc.assert(
      fc.property(
        fc.array(pieces, { maxLength: 25 }).map((parts) => parts.join('')),
        (text) => {
          for (const { start, end } of readWorkspaceFile(text).diagnostics) {
            expect(start).toBeLessThanOrEqual(end);
            expect(end).toBeLessThanOrEqual(text.length);
          }
        },
      ),
      { numRuns: 500, seed: 17 },
    );
  });

  test('nested without end is refused, not followed', () => {
    expect(problemsOf('['.repeat(100_000))[0]).toMatch(/^RW895/);
  });
});

describe('JSON', () => {
  // Against the JSON reader of ECMA-262, JSON.parse: an implementation that is not ours.
  test('is read as the platform reads it', () => {
    fc.assert(
      fc.property(fc.jsonValue({ maxDepth: 4 }), fc.constantFrom(undefined, 1, '\t'), (value, space) => {
        const text = JSON.stringify(value, undefined, space);
        const read = readJson(text);
        expect('problem' in read ? read : JSON.stringify(getNodeValue(read))).toBe(JSON.stringify(JSON.parse(text)));
      }),
      { numRuns: 300, seed: 19 },
    );
  });

  test('is refused where the platform refuses it', () => {
    const pieces = fc.constantFrom(
      '{',
      '}',
      '[',
      ']',
      ':',
      ',',
      '"a"',
      '"',
      '1',
      '-',
      '.5',
      '01',
      'true',
      'nul',
      ' ',
      '\t',
      '\u00a0',
      '\ufeff',
      '// a',
      '/**/',
    );
    fc.assert(
      fc.property(
        fc.array(pieces, { minLength: 1, maxLength: 7 }).map((parts) => parts.join('')),
        (text) => {
          let isRead = true;
          try {
            JSON.parse(text.replace(/^\ufeff/, ''));
          } catch {
            isRead = false;
          }
          expect('problem' in readJson(text)).toBe(!isRead);
        },
      ),
      { numRuns: 3000, seed: 23 },
    );
  });

  test('keeps each member at its place, behind a byte order mark and under a name that is written twice', () => {
    const text = '\ufeff{ "a": [1], "\\u0061" : "b" }';
    const read = readJson(text);
    if ('problem' in read) return expect(read).toBeUndefined();
    const written = ({ start, end }: JsonPlace) => text.slice(start, end);
    expect(membersOf(read).map(({ name, value }) => [name.value, written(name), written(placeOf(value))])).toEqual([
      ['a', '"a"', '[1]'],
      ['a', '"\\u0061"', '"b"'],
    ]);
  });

  test.each([
    ['[1, 2', '', "']'"],
    ['{ "a": 1 ]', ']', "',' or '}'"],
    ['{ "a" 1 }', '1', "':'"],
    ['{ , }', ',', 'a name between double quotes'],
    ['{ "a": , }', ',', 'a value'],
    ['[{}, , 1]', ',', 'a value'],
    ['[1, yes]', 'yes', 'a value'],
    ['[1 yes]', 'yes', "',' or ']'"],
    ['[] // why', '// why', 'JSON without comments'],
    ['{ "a": "b\n}', '"b', 'text with a double quote at its end'],
    ['["\\x"]', '"\\x"', 'text with no other escapes than \\" \\\\ \\/ \\b \\f \\n \\r \\t and \\u'],
    ['["\\u12"]', '"\\u12"', 'text with four hexadecimal digits behind each \\u'],
    ['["\u0001"]', '"\u0001"', 'text without control characters'],
    ['[1., 2]', '1.', 'a number with digits behind its point or exponent'],
  ])('%s is refused where it goes wrong', (text, found, expected) => {
    const read = readJson(text);
    const problem = 'problem' in read ? read.problem : undefined;
    expect(problem).toMatchObject({ found, expected });
    expect(text.slice(problem?.start, problem?.end)).toBe(found);
  });

  test.each([
    ['[', ']'],
    ['{"a":', '}'],
  ])('%s is followed 64 deep and no deeper', (begin, end) => {
    const nested = (depth: number) => `${begin.repeat(depth - 1)}[]${end.repeat(depth - 1)}`;
    expect('problem' in readJson(nested(64))).toBe(false);
    expect(readJson(nested(65))).toMatchObject({ problem: { start: 64 * begin.length, found: '[' } });
    expect(readJson(begin.repeat(100_000))).toMatchObject({ problem: { expected: 'no deeper nesting than 64' } });
  });

  test('a message holds no more of a file than a line', () => {
    const read = readJson(`[/* ${'why\n'.repeat(50)} */]`);
    expect('problem' in read && read.problem.found).toBe(`/* ${'why '.repeat(9)}w…`);
  });
});

describe('the setting of an editor', () => {
  test('states levels, its own name as the reason', () => {
    const { levels, problems } = readEditorLevels({ RW603: 'off', RW602: 'error' });
    expect(problems).toEqual([]);
    expect([...levels.values()]).toMatchObject([
      { code: 'RW603', level: 'off', reason: 'setting rigwright.levels', origin: 'settings' },
      { code: 'RW602', level: 'error' },
    ]);
  });

  test.each([
    ['off', 'rigwright.levels holds no object with a level for each code'],
    [['RW603'], 'rigwright.levels holds no object with a level for each code'],
    [{ RW63: 'off' }, 'rigwright.levels: RW63 is not the code of a rule'],
    [{ RW603: 'hint' }, 'rigwright.levels: RW603 has no level that there is'],
    [{ RW603: { level: 'off' } }, 'rigwright.levels: RW603 has no level that there is'],
  ])('%j is passed over and told', (value, problem) => {
    expect(readEditorLevels(value)).toEqual({ levels: new Map(), problems: [problem] });
  });

  test.each([undefined, null, {}])('%j states nothing', (value) => {
    expect(readEditorLevels(value)).toEqual({ levels: new Map(), problems: [] });
  });
});
