import { Ajv } from 'ajv';
import { expect, test } from 'vitest';
import { LEVELS } from '../../../language/levels/level.ts';
import schema from '../../../language/levels/rigwright.schema.json' with { type: 'json' };
import { ruleCodes } from '../../../language/levels/rule-codes.ts';
import { readWorkspaceFile } from '../../../language/levels/workspace-file.ts';
import { FLAGS } from '../../../language/syntax/vocabulary.ts';
import manifest from '../../../package.json' with { type: 'json' };

const { patternProperties } = manifest.contributes.configuration.properties['rigwright.levels'];
const [[pattern, value] = ['', undefined]] = Object.entries(patternProperties);

test('the setting of the editor has the levels of the language, with what they mean', () => {
  expect(value?.enum).toEqual(LEVELS);
  expect(value?.enumDescriptions).toEqual(Object.values(FLAGS.level));
});

test('the setting takes the codes of all rules', () => {
  const codes = ruleCodes();
  expect(codes.length).toBeGreaterThan(30);
  expect(codes.filter((code) => !new RegExp(pattern).test(code))).toEqual([]);
  expect(Object.keys(schema.properties.levels.patternProperties)).toEqual([pattern]);
});

test('the schema of the workspace file takes what the language takes', () => {
  const validate = new Ajv({ strict: true }).compile(schema);
  const files: readonly unknown[] = [
    {},
    { levels: {} },
    ...LEVELS.map((level) => ({ levels: { RW603: { level, reason: 'house rule' } } })),
    [],
    { levels: [] },
    { other: 1 },
    { levels: { RW603: 'off' } },
    { levels: { RW603: { level: 'quiet', reason: 'x' } } },
    { levels: { RW603: { level: 'off' } } },
    { levels: { RW603: { level: 'off', reason: ' ' } } },
    { levels: { RW603: { level: 'off', reason: 3 } } },
    { levels: { RW603: { level: 'off', reason: 'x', until: 1 } } },
    { levels: { RW101: { level: 'off', reason: 'x' } } },
  ];
  const isClean = (file: unknown) => readWorkspaceFile(JSON.stringify(file)).diagnostics.length === 0;
  expect(files.map((file) => validate(file))).toEqual(files.map(isClean));
  expect(files.filter(isClean)).toHaveLength(2 + LEVELS.length);
});
