import { createRequire } from 'node:module';
import { buildSync } from 'esbuild';
import { expect, it } from 'vitest';

it('a bundle groups as Object.groupBy does, without having it', () => {
  const source = 'export default (items, keyOf) => Object.groupBy(items, keyOf);';
  const { outputFiles } = buildSync({
    stdin: { contents: source },
    write: false,
    bundle: true,
    format: 'cjs',
    define: { 'Object.groupBy': 'objectGroupBy' },
    inject: ['server/scripts/object-group-by.mjs'],
  });
  const text = outputFiles[0]?.text ?? '';
  expect(text).not.toContain('Object.groupBy(');
  const loaded: { exports: { default?: (items: Iterable<number>, keyOf: (item: number) => string) => unknown } } = {
    exports: {},
  };
  new Function('module', 'require', text)(loaded, createRequire(import.meta.url));
  const group = loaded.exports.default;
  const keyOf = (item: number): string => (item % 2 === 0 ? 'even' : 'odd');
  expect(group?.([1, 2, 3, 4], keyOf)).toEqual({ even: [2, 4], odd: [1, 3] });
  expect(group?.([], keyOf)).toEqual({});
});
