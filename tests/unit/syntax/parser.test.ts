import { describe, expect, it } from 'vitest';
import { DEEPEST_NESTING, parseDeclaration } from '../../../language/syntax/parser.ts';
import { parsed, problemsOf, statementOf, tell } from './support.ts';

/** The one line of a trailer's block. */
const line = (text: string): string =>
  parsed(`trailer T {\n  ${text}\n}`).slice('trailer | T | { '.length, -' }'.length);

describe('quantities', () => {
  it.each([
    ['11 ft 3 in', '11 ft & 3 in'],
    ['5 ft 11 1/2 in', '5 ft & 11 1/2 in'],
    ['3 3/4 in', '3 3/4 in'],
    ['1/2 in', '1/2 in'],
    ['1_850 kg', '1_850 kg'],
    ['35 psi', '35 psi'],
    ['16 ft-lb', '16 ft-lb'],
    ['1e3 kg', '1e3 kg'],
    ['1e999 kg', '1e999 kg'],
    ['.5 t', '.5 t'],
    ['1\u00a0850 kg', '1\u00a0850 kg'],
    ['-3 mm', '(-3 mm)'],
    ['--3 mm', '3 mm'],
    ['2 * 300 mm + 18 mm', '(+(*2 *300 mm) +18 mm)'],
    ['(a + 1 mm) / 2', '(*(+a +1 mm) /2)'],
    ['a.b.c - 3', '(+a.b.c -3)'],
    ['3 × 4', '3'],
  ])('let a = %s', (text, expected) => {
    expect(tell(statementOf(parseDeclaration(`let a = ${text}`)))).toBe(`let | a | ${expected}`);
  });

  it('less than one of the unit before, in a smaller unit, adds up; anything else is a new value', () => {
    expect(line('fitting f 2 kg 300 g at 3 m back')).toBe('fitting | f | 2 kg & 300 g | at: 3 m > back');
    expect(line('coupling ball 50 mm, 430 mm up')).toBe('coupling | !ball | 50 mm | 430 mm > up');
    expect(line('coupling ball 50 mm 430 mm up')).toBe('coupling | !ball | 50 mm | 430 mm > up');
    expect(line('coupling ball 2 in 430 mm up')).toBe('coupling | !ball | 2 in | 430 mm > up');
    expect(line('tank a 9 kg 8 L')).toBe('tank | a | 9 kg | 8 L');
  });

  it('a keyword behind a number is no unit, another word is', () => {
    expect(line('locker a from 1900 to 2700 mm back, left, floor 320 mm up')).toBe(
      'locker | a | from: 1900 to 2700 mm > back | !left | floor: 320 mm > up',
    );
    expect(parsed('item a 3 bananas')).toBe('item | a | 3 bananas');
    expect(parsed('fluid brine 1.15 kg/L')).toBe('fluid | brine | 1.15 kg/L');
    expect(parsed('tyre t "195R14C" at 3 in')).toBe('tyre | t | "195R14C" | at: 3 in');
  });
});

describe('values', () => {
  it.each([
    ['fitting f 4 x 1.2 kg at 3 m back', 'fitting | f | 4 x 1.2 kg | at: 3 m > back'],
    ['fitting f 4x1.2 kg at 3 m back', 'fitting | f | 4 x 1.2 kg | at: 3 m > back'],
    ['fitting f 3 kg ± 2 % at 3 m ± 5 mm back', 'fitting | f | 3 kg ± 2 % | at: 3 m ± 5 mm > back'],
    ['fitting f 3 kg +/- 1 kg at axles', 'fitting | f | 3 kg ± 1 kg | at: axles'],
    ['tank t 95 L of water size 900 x 450 x 240 mm', 'tank | t | 95 L | of: [water] | size: 900 x 450 x 240 mm'],
    [
      'fitting f 3 kg, 300 mm behind axles, 2 m above fridge',
      'fitting | f | 3 kg | 300 mm > behind axles | 2 m > above fridge',
    ],
    ['fitting f 3 kg, 300 mm left of kitchen.sink', 'fitting | f | 3 kg | 300 mm > left kitchen.sink'],
    ['tare 1260 kg on axles, 125 kg on coupling', 'tare | 1260 kg > on axles | 125 kg > on coupling'],
    ['body from -1 m to 2 m back', 'body | from: (-1 m) to 2 m > back'],
    [
      'axles at 3 m back, tyres 4 x "195R14C 106/104Q" at 450 kPa',
      'axles | at: 3 m > back | tyres: 4 x "195R14C 106/104Q" | at: 450 kPa',
    ],
    ['axles bogie tandem', 'axles | bogie | !tandem'],
    ['seat x 80 kg', 'seat | x | 80 kg'],
    ['fitting x 2 x 3 kg', 'fitting | x | 2 x 3 kg'],
    ['growth allowance', 'growth | allowance'],
    ['tank rating 3 L', 'tank | rating | 3 L'],
  ])('%s', (text, expected) => {
    expect(line(text)).toBe(expected);
  });

  it('a missing value at the end of a line does not take the next line', () => {
    const text = 'trailer T {\n  tank a 3 L of\n  brakes air\n}';
    expect(problemsOf(text)).toEqual(["syntax 'of' expected a name"]);
    expect(tell(statementOf(parseDeclaration(text)))).toContain('brakes | !air');
  });
});

describe('forms', () => {
  it.each([
    ['use "items.rig"', 'use | "items.rig"'],
    [
      'item awning 38 kg "Roll-out awning" tags long, wet',
      'item | awning | 38 kg | "Roll-out awning" | tags: [long, wet]',
    ],
    [
      'rig R in AU, NZ {\n stow 2 x bottle, awning in T.bed\n}',
      'rig | R | in: [AU, NZ] | { stow | [2 x bottle, awning] | in: [T.bed] }',
    ],
    [
      'rig R { require a.b between 6 % and 2 * 6 % in loaded, empty "why" }',
      'rig | R | { require | a.b | least 6 % | most (*2 *6 %) | in: [loaded, empty] | "why" }',
    ],
    [
      'rig R { require rig.a at least 0.12 in loaded, light\n require a between 2 in and 3 in in loaded\n require a at most 2 in * b\n require a at most 3 in }',
      'rig | R | { require | rig.a | least 0.12 | in: [loaded, light]; require | a | least 2 in | most 3 in | in: [loaded]; require | a | most (*2 in *b); require | a | most 3 in }',
    ],
    [
      'rig R { require a at least 3 kg\n require a at most 3 kg\n require a >= 3 kg\n require a <= 3 kg }',
      'rig | R | { require | a | least 3 kg; require | a | most 3 kg; require | a | least 3 kg; require | a | most 3 kg }',
    ],
    [
      'rig R { case c "Full" { fresh 100 %  T.waste 0 % to 40 %\n absent awning } }',
      'rig | R | { case | c | "Full" | { <fresh> | 100 %; <T.waste> | 0 % to 40 %; absent | [awning] } }',
    ],
    [
      'trailer T { limits { ATM 2000 kg  GTM 1850 kg, coupling 200 kg } }',
      'trailer | T | { limits | { ATM | 2000 kg; GTM | 1850 kg; coupling | 200 kg } }',
    ],
    [
      'trailer T { axles at 3 m back { rating 2 t  tyres 4 x "a" } }',
      'trailer | T | { axles | at: 3 m > back | { rating | 2 t; tyres | 4 x "a" } }',
    ],
  ])('%s', (text, expected) => {
    expect(parsed(text)).toBe(expected);
  });

  it('commas, semicolons and line breaks part arguments and statements alike', () => {
    const tree = parsed('trailer T {\n tank a 3 L of water\n at 2 m back\n size 1 x 1 x 1 m\n}');
    expect(parsed('trailer T { tank a 3 L of water, at 2 m back; size 1 x 1 x 1 m, }')).toBe(tree);
  });

  it('spans lie in the text and mark what they name', () => {
    const text = 'item awning 38 kg "Roll-out"';
    const { name, arguments: found, end } = statementOf(parseDeclaration(text));
    expect(name && text.slice(name.start, name.end)).toBe('awning');
    expect(found.map(({ start, end: stop }) => text.slice(start, stop))).toEqual(['38 kg', '"Roll-out"']);
    expect(end).toBe(text.length);
  });
});

describe('documentation', () => {
  const documentationOf = (text: string) => statementOf(parseDeclaration(text)).documentation;
  it('is the ## lines directly above', () => {
    expect(documentationOf('## One\n##  two \nitem a 3 kg')).toBe('One\ntwo');
    expect(documentationOf('## One\r\n## two\r\nitem a 3 kg')).toBe('One\ntwo');
    expect(documentationOf('## Far\n\nitem a 3 kg')).toBeUndefined();
    expect(documentationOf('# Plain\nitem a 3 kg')).toBeUndefined();
    expect(documentationOf('## No\n# but\nitem a 3 kg ## behind')).toBeUndefined();
  });
  it('belongs to lines of blocks as well', () => {
    const { block } = statementOf(parseDeclaration('trailer T {\n  ## Cold.\n  fitting f 3 kg\n  fitting g 3 kg\n}'));
    expect(block?.statements.map(({ documentation }) => documentation)).toEqual(['Cold.', undefined]);
  });
  it('# in a text is no comment', () => {
    expect(parsed('item a 3 kg "No. # 5"')).toBe('item | a | 3 kg | "No. # 5"');
  });
});

describe('recovery', () => {
  const lines = (text: string) => statementOf(parseDeclaration(text)).block?.statements.map(({ head }) => head.text);

  it('a broken line costs one line', () => {
    const text = 'trailer T {\n  tank = 3\n  brakes air\n  tare 3 kg at\n  growth 3 %\n}';
    expect(problemsOf(text)).toEqual(["syntax '=' expected a name", expect.stringContaining('expected')]);
    expect(lines(text)).toEqual(['tank', 'brakes', 'tare', 'growth']);
    const broken = statementOf(parseDeclaration(text)).block?.statements.filter((statement) => statement.broken);
    expect(broken?.map(({ head }) => head.text)).toEqual(['tank', 'tare']);
  });

  it('a broken header keeps the block', () => {
    const text = 'trailer T = {\n  brakes air\n}';
    expect(problemsOf(text)).toHaveLength(1);
    expect(lines(text)).toEqual(['brakes']);
    expect(problemsOf('trailer {\n  brakes air\n}')).toEqual(["syntax '{' expected a name"]);
    expect(lines('trailer {\n  brakes air\n}')).toEqual(['brakes']);
  });

  it('two errors are two problems in text order', () => {
    const text = 'rig R {\n  tow )\n  haul H\n  stow ]\n}';
    const { problems } = parseDeclaration(text);
    expect(problems.length).toBeGreaterThanOrEqual(2);
    expect(problems.map(({ start }) => start)).toEqual([...problems.map(({ start }) => start)].sort((a, b) => a - b));
    expect(lines(text)).toEqual(['tow', 'haul', 'stow']);
  });

  it.each([
    ['trailer T {\n  brakes air\n', "unclosed '{' expected '}'"],
    ['trailer T {\n  brakes air\n}}\n', "syntax '}' expected no further '}'"],
    ['item a 3 kg "open', "unterminated-text '\"open' expected a closing quote"],
    ['item a 3 kg ?', "character '?'"],
    ['item a 3 kg \0', "character '\0'"],
    ['-3 axles', "syntax '-' expected a declaration"],
    ['let a 3', "syntax '3' expected '='"],
    ['let a = (3', "syntax '3' expected ')'"],
    ['use items', "syntax 'items' expected text between quotes"],
    ['rig R { require a }', "syntax '}' expected 'between', 'at least' or 'at most'"],
  ])('%j', (text, expected) => {
    expect(problemsOf(text)).toContain(expected);
  });

  it('what stands between blocks braces of other kinds is passed over', () => {
    const text = 'trailer T {\n  body [ from 3 ]\n  brakes air\n}';
    expect(lines(text)).toContain('brakes');
  });
});

describe('limits of reading', () => {
  const nested = (depth: number) => `let a = ${'('.repeat(depth)}1${')'.repeat(depth)}`;
  it('nests to the limit and reports what is beyond', () => {
    expect(problemsOf(nested(DEEPEST_NESTING))).toEqual([]);
    expect(problemsOf(nested(DEEPEST_NESTING + 1))).toEqual(["nesting '('"]);
    expect(problemsOf('('.repeat(100_000))).toEqual(["nesting '('"]);
    expect(problemsOf(`trailer T ${'{ group g '.repeat(100)}`)).toEqual(["nesting '{'"]);
  });
  it('reads very long lines', () => {
    expect(problemsOf(`let a = ${'1 + '.repeat(20_000)}1`)).toEqual([]);
    expect(problemsOf(`let a = ${'-'.repeat(100_000)}1`)).toEqual([]);
    expect(problemsOf(`item a 3 kg "${'x'.repeat(1_000_000)}"`)).toEqual([]);
    expect(problemsOf(`item ${'a'.repeat(100_000)} 3 kg # ${'c'.repeat(100_000)}`)).toEqual([]);
  });
});

describe('line ends and marks', () => {
  const text = 'trailer T {\n  brakes air\n  growth 3 % # share\n}';
  it('CRLF and a byte-order mark read as nothing', () => {
    expect(parsed(text.replaceAll('\n', '\r\n'))).toBe(parsed(text));
    expect(parsed(`\uFEFF${text}`)).toBe(parsed(text));
  });
  it('a carriage return that ends no line is reported, and a comment ends there', () => {
    expect(problemsOf('item a 3 kg # first\ritem b 3 kg')).toContain("character '\r'");
    expect(problemsOf('item a 3 kg\r\r\n')).toEqual([]);
    expect(problemsOf('item a 3 kg\r')).toEqual([]);
  });
  it('an empty text and one of comments hold nothing', () => {
    for (const empty of ['', ' \n\t\r\n', '# a\n## b\n', '\uFEFF'])
      expect(parseDeclaration(empty)).toEqual({ text: empty, problems: [] });
  });
});
