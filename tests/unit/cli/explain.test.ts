import { describe, expect, test } from 'vitest';
import { catalogueByCode } from '../../../language/levels/rule-codes.ts';
import { displayWidth } from '../../../server/cli/text.ts';
import { rigwright } from './support.ts';

const explain = (...args: string[]) => rigwright('/', ['explain', ...args]);

describe('rigwright explain', () => {
  test('prints the page of a code as plain text', async () => {
    const { out, code, error } = await explain('RW801');
    expect({ code, error }).toEqual({ code: 0, error: '' });
    expect(out).toMatch(
      /^RW801: The coupling carries less than the road rules ask for\n\nError · coupling-load-minimum\n/,
    );
    expect(out).toContain('\n    rig Delivery in DE {\n      tow Truck\n');
    expect(out).toContain(
      '\nSource\n\nStVZO § 44(3).\n\nAuthority: a regulation.\n\nMarkets: DE (Germany, on the road).\n',
    );
    expect(out).toContain('\nCaution\n\nThe lower of the coupling limits');
    expect(out).not.toMatch(/\*\*|```|<!--|\]\(|^#/m);
  });

  test.each(['rw603', 'RW603', 'coupling-share-high'])('takes %s', async (written) => {
    expect((await explain(written)).out).toMatch(/^RW603: /);
  });

  test.each([
    ['RW6O3', 'did you mean RW603?'],
    ['RW60', 'did you mean RW601?'],
    ['603', 'did you mean RW603?'],
    ['nonsense', 'codes look like RW603'],
    ['a\nb', 'explain a b: no diagnostic has this code; codes look like RW603'],
  ])('%j: %s', async (written, help) => {
    const { out, code, error } = await explain(written);
    expect({ out, code }).toEqual({ out: '', code: 2 });
    expect(error).toContain(help);
  });

  test('asks for a code', async () => {
    const { code, error } = await explain();
    expect(code).toBe(2);
    expect(error).toContain('explain --help');
  });

  test('has a page for every code, without marks of Markdown, as wide as the terminal but for code', async () => {
    for (const code of catalogueByCode().keys()) {
      const { out } = await rigwright('/', ['explain', code], {
        isTerminal: true,
        columns: 72,
        environment: { NO_COLOR: '1' },
      });
      const prose = out.split('\n').filter((line) => !line.startsWith('    '));
      expect(prose[0], code).toMatch(new RegExp(`^${code}: `));
      expect(
        prose.filter((line) => displayWidth(line) > 72),
        code,
      ).toEqual([]);
      expect(
        prose.filter((line) => /\*\*|\]\(|^#|^```/.test(line)),
        code,
      ).toEqual([]);
    }
  });

  test('sets headings off on a terminal', async () => {
    expect((await explain('RW603', '--color', 'always')).out).toContain('\u001b[1mHow to mend it\u001b[22m');
  });
});
