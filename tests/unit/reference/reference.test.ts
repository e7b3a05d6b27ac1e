import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, test } from 'vitest';
import { FLUIDS } from '../../../language/catalogue/fluids.ts';
import { analyse, openDocument } from '../../../language/index.ts';
import { COMPUTED_NAMES } from '../../../language/reference/computed-names.ts';
import { catalogueEntries } from '../../../language/reference/diagnostic-pages.ts';
import { ebnfRules } from '../../../language/reference/ebnf.ts';
import { diagnosticPages, languageReference, referencePages } from '../../../language/reference/index.ts';
import { CLEAR_SPELLINGS, NUMBER_FORMS } from '../../../language/reference/quantities.ts';
import { fragment } from '../../../language/reference/text.ts';
import { KEYWORD_CLASSES } from '../../../language/syntax/tokens.ts';
import { type Context, STATEMENTS } from '../../../language/syntax/vocabulary.ts';
import { DIMENSIONLESS, type Dimension, INERTIA, LENGTH, MASS } from '../../../language/units/dimension.ts';
import { parseNumber } from '../../../language/units/number.ts';
import { UNITS } from '../../../language/units/unit-table.ts';
import { parseUnit } from '../../../language/units/units.ts';
import { diagnosticsOf, frameDiagnostics } from './frames.ts';

const FOLDER = 'language/reference/pages';
const REMEDY = 'run "npm run docs" and commit what it writes';

const page = languageReference();

interface CodeBlock {
  readonly language: string;
  readonly context: string;
  readonly text: string;
}

function codeBlocks(markdown: string): CodeBlock[] {
  return [...markdown.matchAll(/^```(\w+) ?(\w*)\n(.*?)^```$/gms)].map(
    ([, language = '', context = '', text = '']) => ({
      language,
      context,
      text,
    }),
  );
}

const blocks = codeBlocks(page).filter(({ language }) => language === 'rig');

describe('the pages in the repository', () => {
  const committed = readdirSync(FOLDER, { recursive: true, encoding: 'utf8' })
    .map((file) => file.replaceAll(path.sep, '/'))
    .filter((file) => file.endsWith('.md'));

  test('are those that the language makes', () => {
    expect(committed.toSorted(), REMEDY).toEqual([...referencePages().keys()].toSorted());
  });

  test.each([...referencePages()])('%s is up to date', (file, text) => {
    expect(readFileSync(path.join(FOLDER, file), 'utf8') === text, `${file} is out of date: ${REMEDY}`).toBe(true);
  });

  test('there is one for every code', () => {
    expect([...diagnosticPages().keys()]).toEqual(catalogueEntries().map(([, { code }]) => code));
  });

  test('come with the extension', () => {
    expect(readFileSync('.vscodeignore', 'utf8').split('\n')).toContain(`!${FOLDER}/**`);
  });

  test('hold no link that leads nowhere', () => {
    const pages = referencePages();
    const broken: string[] = [];
    for (const [file, text] of pages) {
      for (const [, target = ''] of text.matchAll(/\]\(([^)]+)\)/g)) {
        const [other = '', anchor] = target.split('#');
        const linked = other === '' ? file : path.posix.join(path.posix.dirname(file), other);
        const body = pages.get(linked);
        if (body === undefined || (anchor !== undefined && !fragmentsOf(body).includes(anchor))) {
          broken.push(`${file}: ${target}`);
        }
      }
    }
    expect(broken).toEqual([]);
  });

  test('reach no heading by the fragment of another', () => {
    const fragments = fragmentsOf(page);
    expect(fragments.length).toBeGreaterThan(STATEMENTS.length);
    expect(fragments.filter((found, index) => fragments.indexOf(found) !== index)).toEqual([]);
  });
});

/** Fragments of the headings of a page; `#` lines of code are no headings. */
function fragmentsOf(markdown: string): string[] {
  const prose = markdown.replace(/^```.*?^```$/gms, '');
  return [...prose.matchAll(/^#+ (.+)$/gm)].map(([, heading = '']) => fragment(heading));
}

describe('the code of the language reference', () => {
  test('is on the page for every statement', () => {
    expect(blocks.length).toBeGreaterThanOrEqual(STATEMENTS.length);
  });

  test.each(
    blocks.map((block, index) => [`${index + 1} ${block.context}: ${block.text.split('\n')[0]}`, block] as const),
  )('%s', (_, { text, context }) => {
    const found = isContext(context) ? frameDiagnostics(text, context) : fileDiagnostics(text);
    expect(found.filter(({ severity }) => severity === 'error')).toEqual([]);
  });
});

const CONTEXTS = new Set<string>(STATEMENTS.flatMap(({ contexts }) => contexts));

function isContext(text: string): text is Context {
  return CONTEXTS.has(text);
}

/** A file that lacks what it names, such as an example of one declaration, is tried in its frame. */
function fileDiagnostics(text: string) {
  const alone = diagnosticsOf(text);
  return alone.some(({ key }) => key === 'unknown-name') ? frameDiagnostics(text, 'file') : alone;
}

describe('the language reference', () => {
  test('has every keyword on it', () => {
    const missing = [...KEYWORD_CLASSES.keys()].filter((word) => !page.includes(`\`${word}\``));
    expect(missing).toEqual([]);
  });

  test('has the example of every statement', () => {
    const shown = blocks.map(({ text }) => squeezed(text));
    expect(STATEMENTS.filter(({ example }) => !shown.includes(squeezed(example)))).toEqual([]);
  });

  test('has every unit and every fluid', () => {
    const names = [
      ...UNITS.flatMap(({ symbol, synonyms }) => [symbol, ...synonyms]),
      ...FLUIDS.map(({ name }) => name),
    ];
    expect(names.filter((name) => !page.includes(`\`${name}\``))).toEqual([]);
  });

  test('reads numbers as it says', () => {
    expect(NUMBER_FORMS.map(([written]) => parseNumber(written))).toEqual(NUMBER_FORMS.map(([, value]) => value));
  });

  test('reads the spellings that could be taken for another as it says', () => {
    expect(CLEAR_SPELLINGS.map(([spelling]) => parseUnit(spelling)?.text)).toEqual(
      CLEAR_SPELLINGS.map(([, unit]) => parseUnit(unit)?.text),
    );
  });
});

const squeezed = (text: string): string => text.trim().replace(/\s+/g, ' ');

describe('the grammar', () => {
  const rules = ebnfRules();
  /** What stands between quotes or in brackets is text, and what stands in a comment is no symbol. */
  const symbolsOf = (body: string): string[] =>
    body.replace(/'[^']*'|\[[^\]]*\]|\/\*.*?\*\//g, ' ').match(/[A-Za-z][\w-]*/g) ?? [];

  test('defines every symbol that it uses, once', () => {
    const names = rules.map(({ name }) => name);
    const used = rules.flatMap(({ body }) => symbolsOf(body));
    expect(used.length).toBeGreaterThan(50);
    expect(used.filter((symbol) => !names.includes(symbol))).toEqual([]);
    expect(names.filter((name, index) => names.indexOf(name) !== index)).toEqual([]);
  });

  test('uses every symbol but the file', () => {
    const used = new Set(rules.flatMap(({ body }) => symbolsOf(body)));
    expect(rules.map(({ name }) => name).filter((name) => !used.has(name))).toEqual(['file']);
  });

  test('has every keyword', () => {
    const text = rules.map(({ body }) => body).join('\n');
    expect([...KEYWORD_CLASSES.keys()].filter((word) => !text.includes(`'${word}'`))).toEqual([]);
  });
});

describe('the names of computed quantities', () => {
  const MEASURES: Readonly<Record<(typeof COMPUTED_NAMES)[number]['measure'], Dimension>> = {
    mass: MASS,
    length: LENGTH,
    'moment of inertia': INERTIA,
    share: DIMENSIONLESS,
  };
  const text = `vehicle Truck {
  wheelbase 3200 mm, track 1680 mm
  kerb 1180 kg on front, 940 kg on rear, 680 mm up
  hitch ball at 1150 mm behind rear, 430 mm up
}
trailer Hauler {
  coupling ball 50 mm, 430 mm up
  axles tandem at 3000 mm back, spacing 800 mm, track 1500 mm, equalised
  tare 640 kg at 2800 mm back, 520 mm up
}
rig Delivery { tow Truck  haul Hauler }
`;
  const uri = 'file:///yard/names.rig';
  const found = analyse({ documents: new Map([[uri, { kind: 'text', syntax: openDocument(text) }]]) });
  const rig = found.entities(uri).flatMap(({ entity }) => (entity?.kind === 'rig' ? [entity] : []))[0];
  const quantities = [...(rig?.result.states[0]?.quantities.values() ?? [])];

  /** `Hauler.axles.axle1.load` as `U.G.A.load`. */
  const patternOf = (name: string): string =>
    name
      .replace(/^(?:Truck|Hauler)\./, 'U.')
      .replace(/^U\.(?:front|rear|axles)\./, 'U.G.')
      .replace(/^U\.G\.axle\d\./, 'U.G.A.');

  test('are those of the page', () => {
    const patterns = new Set(quantities.map(({ name }) => patternOf(name)));
    expect([...patterns].toSorted()).toEqual(COMPUTED_NAMES.map(({ pattern }) => pattern).toSorted());
  });

  test('stand for what the page says', () => {
    for (const { name, dimension } of quantities) {
      const entry = COMPUTED_NAMES.find(({ pattern }) => pattern === patternOf(name));
      expect(entry && MEASURES[entry.measure], name).toEqual(dimension);
    }
  });
});
