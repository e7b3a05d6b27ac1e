import { describe, expect, it } from 'vitest';
import { parseDeclaration } from '../../../language/syntax/parser.ts';
import { type Context, STATEMENTS, type StatementSpec } from '../../../language/syntax/vocabulary.ts';
import { fail, read, trailer, uriOf, vehicle } from './support.ts';

const CATALOGUE = `use "items.rig"
item gas_bottle 15 kg
material sandwich_30 6.4 kg/m²
material channel_100 10.6 kg/m
`;
const USED = { 'items.rig': 'item awning 38 kg\n' };

const TRUCK = (lines = '') => vehicle(`seat driver 80 kg at 1350 mm back, 700 mm up\n  ${lines}`, 'YardTruck');
const BODY = 'body from 0 mm to 6 m back, width 2 m';
const BED = 'locker bed from 300 mm to 2400 mm back, floor 500 mm up';
const TANKS =
  'tank fresh 40 L of water at 1200 mm back, 500 mm up\n  tank waste 40 L of grey_water at 2200 mm back, 500 mm up';
const HAULER = (lines = '') => trailer(`${BED}\n  ${TANKS}\n  ${lines}`);
const RIG = (lines: string) =>
  `rig Delivery {\n  tow YardTruck\n  haul Hauler\n  stow awning in Hauler.bed\n  weight_distribution moment 100 N·m\n  ${lines}\n}\n`;

/** Lines of the wrappers that make way for an example of the same head, and for `tank fresh` and `seat driver`. */
const GIVES_WAY: Readonly<Record<string, RegExp>> = {
  vehicle: /\n {2}(wheelbase|kerb|hitch|tare|body|seat) .*/g,
  trailer: /\n {2}(coupling|axles|tare|brakes|body|tank) .*/g,
};

/** The example in a trailer or vehicle; a line that may stand once takes the place of the one that is there. */
function inUnit(kind: 'vehicle' | 'trailer', spec: StatementSpec): string {
  const unit = kind === 'trailer' ? HAULER(`${BODY}\n  #here`) : TRUCK(`${BODY}\n  #here`);
  const own = kind === 'vehicle' && spec.keyword === 'tare' ? 'kerb' : spec.keyword;
  const cleared = unit.replace(GIVES_WAY[kind] ?? /^$/, (line, head) => (head === own ? '' : line));
  // A group of axles more is a support more, which readings would leave open; the example of the hitch stands on `rear`.
  const fitting =
    kind === 'vehicle'
      ? cleared.replace('1180 kg on front, 940 kg on rear', own === 'axles' ? '2120 kg at 1500 mm back' : '$&')
      : cleared.replace('axles single', own === 'hitch' ? 'axles rear single' : '$&');
  return fitting.replace('#here', spec.example);
}

/** A file in which the example stands in the context, and nothing else is wrong. */
function wrap(spec: StatementSpec, context: Context): string {
  const { example, keyword } = spec;
  const units = TRUCK() + HAULER();
  switch (context) {
    case 'file':
      if (keyword === 'vehicle' || keyword === 'trailer') return CATALOGUE + example;
      if (keyword === 'use') return example;
      if (keyword === 'rig' || keyword === 'variant') return `${CATALOGUE}${units}${example}`;
      return example;
    case 'trailer':
    case 'vehicle':
      return CATALOGUE + TRUCK().repeat(context === 'vehicle' ? 0 : 1) + inUnit(context, spec);
    case 'axles':
      return `${CATALOGUE}${trailer().replace('track 1500 mm', `track 1500 mm {\n ${example} }`)}`;
    case 'limits':
      return CATALOGUE + (['GVM', 'GCM', 'OCCC'].includes(keyword) ? TRUCK : HAULER)(`limits { ${example} }`);
    case 'group':
      return CATALOGUE + HAULER(`group g {\n ${example}\n }`);
    case 'variant':
      return `${CATALOGUE}${HAULER('fitting fridge 31 kg at 2350 mm back, 780 mm up\n growth 3 %')}variant V of Hauler {\n  ${example}\n}\n`;
    case 'rig': {
      const rig = RIG(`#here`);
      const cleared = ['tow', 'haul', 'weight_distribution'].includes(keyword)
        ? rig.replace(new RegExp(`\\n  ${keyword} .*`), '')
        : rig;
      return CATALOGUE + units + cleared.replace('#here', example);
    }
    case 'case':
      return `${CATALOGUE}${units}${RIG(`case c {\n ${example}\n }`)}`;
    case 'reachable':
      return `${CATALOGUE}${units}${RIG(`reachable {\n ${example}\n }`)}`;
    case 'weighing':
      return `${CATALOGUE}${units}${RIG(`case loaded { }\n weighing w {\n total 2400 kg\n ${example}\n }`)}`;
    case 'pass':
      return `${CATALOGUE}${units}${RIG(`weighing w {\n solo Hauler {\n ${example}\n }\n }`)}`;
  }
}

/** Findings on the loads, not on the reading: an example need not be a sound rig. */
const ABOUT_LOADS = /^RW[5-9]/;

describe('every example of the vocabulary', () => {
  const examples = STATEMENTS.flatMap((spec) =>
    spec.contexts
      .filter((context) => spec.keyword !== 'limits' || context === 'trailer') // the example states a trailer's limits
      .map((context) => [spec.keyword, context, spec] as const),
  );

  it.each(examples)('%s in %s parses and is read without findings', (_keyword, context, spec) => {
    const text = wrap(spec, context);
    const { analysis, diagnostics } = read(text, USED);
    const found = diagnostics.filter(({ code, severity }) => severity !== 'information' && !ABOUT_LOADS.test(code));
    expect(found.map(({ message }) => message)).toEqual([]);
    expect(analysis.diagnostics(uriOf('items.rig'))).toEqual([]);
    expect(text).toContain(spec.example);
  });

  it.each(STATEMENTS.map((spec) => [spec.keyword, spec] as const))(
    '%s starts with its keyword or a synonym',
    (_, spec) => {
      const head = parseDeclaration(spec.example).statement?.head.text ?? fail('no statement');
      const subject = spec.keyword === 'case' ? 'case' : head;
      expect([spec.keyword, ...(spec.synonyms ?? [])]).toContain(subject);
    },
  );

  it.each(STATEMENTS.flatMap((spec) => (spec.synonyms ?? []).map((word) => [word, spec] as const)))(
    'the synonym %s reads like its keyword',
    (word, spec) => {
      const context = spec.contexts[0] ?? fail('no context');
      const renamed = { ...spec, example: spec.example.replace(new RegExp(`^${spec.keyword}\\b`), word) };
      const keys = (each: StatementSpec) =>
        read(wrap(each, context), USED).messages.map((text) => text.replaceAll(word, spec.keyword));
      expect(keys(renamed)).toEqual(keys(spec));
    },
  );
});
