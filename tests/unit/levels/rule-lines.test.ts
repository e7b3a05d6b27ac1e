import { describe, expect, test } from 'vitest';
import { analyse, completeDiagnostics, editDocument, openDocument } from '../../../language/index.ts';
import type { Level, StatedLevel } from '../../../language/levels/level.ts';
import { MAIN, read, trailer, workspaceOf } from '../semantics/support.ts';

/** Of 240 kg that stand 2050 mm behind the coupling of an axle at 2600 mm, 21 % are on the coupling, more than is usual: RW603. */
const heavy = (rule = '', name = 'Hauler') => `trailer ${name} {
  coupling ball 50 mm, 430 mm up
  axles single at 2600 mm back, track 1500 mm
  tare 240 kg at 2050 mm back, 520 mm up, inertia 210 kg·m²
  brakes overrun
  ${rule}
}
`;

const codesOf = (text: string) => read(text).diagnostics.map(({ code, severity }) => `${code} ${severity}`);
const offOf = (text: string) =>
  read(text)
    .analysis.turnedOff(MAIN)
    .map(({ diagnostic, level }) => `${diagnostic.code} ${level.origin}: ${level.reason}`);

describe('a rule line', () => {
  test('is what the tests need: without one the rule reports', () => {
    expect(codesOf(heavy())).toEqual(['RW603 information']);
    expect(offOf(heavy())).toEqual([]);
  });

  test('in a block turns a rule off there, and the finding is counted with its reason', () => {
    const text = heavy('rule RW603 off "nose-heavy by design, see drawing 12"') + heavy('', 'Other');
    expect(codesOf(text)).toEqual(['RW603 information']);
    expect(offOf(text)).toEqual(['RW603 block: nose-heavy by design, see drawing 12']);
    const [off] = read(text).analysis.turnedOff(MAIN);
    expect(off?.diagnostic).toMatchObject({ key: 'coupling-share-high', severity: 'information' });
    expect(text.slice(off?.diagnostic.start, off?.diagnostic.end)).toBe('Hauler');
  });

  test.each(['error', 'warning'])('makes it an %s', (level) => {
    const text = heavy(`rule RW603 ${level} "house rule"`);
    expect(codesOf(text)).toEqual([`RW603 ${level}`]);
    expect(read(text).diagnostics[0]?.level).toMatchObject({ level, reason: 'house rule', origin: 'block' });
  });

  test('at the top holds for the whole file and no other, and a block goes before it', () => {
    const text = `rule RW603 off "for all"\n${heavy()}${heavy('rule RW603 warning "but not here"', 'Other')}`;
    expect(codesOf(text)).toEqual(['RW603 warning']);
    expect(offOf(text)).toEqual(['RW603 file: for all']);
    const other = analyse(
      workspaceOf({ 'main.rig': `use "rules.rig"\n${heavy()}`, 'rules.rig': 'rule RW603 off "here"\n' }),
    );
    expect(other.diagnostics(MAIN).map(({ code }) => code)).toEqual(['RW603']);
  });

  test('may stand below what it speaks of, and takes several codes', () => {
    expect(codesOf(`${heavy()}rule RW602, RW603 off "for all"\n`)).toEqual([]);
  });

  test('in the first column of a block belongs to the block', () => {
    const text = `trailer Hauler {\nrule RW603 off "in the block"\n${heavy().split('\n').slice(1).join('\n')}${heavy('', 'Other')}`;
    expect(codesOf(text)).toEqual(['RW603 information']);
  });

  test('is taken over by a variant, whose own line goes before it', () => {
    const base = heavy('rule RW603 off "by design"');
    expect(codesOf(`${base}variant Long of Hauler { }\n`)).toEqual([]);
    expect(codesOf(`${base}variant Long of Hauler { rule RW603 error "not this one" }\n`)).toEqual(['RW603 error']);
    expect(codesOf(`${base}variant Long of Hauler { without rule }\n`)).toEqual(['RW603 information']);
  });

  test('changes no other result: what is computed stays the same object', () => {
    const syntax = openDocument(`rule RW602 off "x"\n${heavy()}`);
    const before = analyse({ documents: new Map([[MAIN, { kind: 'text', syntax }]]) });
    expect(before.diagnostics(MAIN)).toHaveLength(1);
    const entity = before.entities(MAIN)[1]?.entity;
    const edited = editDocument(syntax, { start: 5, end: 10, text: 'RW603' });
    const after = analyse({ documents: new Map([[MAIN, { kind: 'text', syntax: edited }]]) }, before);
    expect(after.diagnostics(MAIN)).toEqual([]);
    expect(after.turnedOff(MAIN)).toHaveLength(1);
    expect(after.entities(MAIN)[1]?.entity).toBe(entity);
  });

  test('goes before what is stated outside, the nearest folder first', () => {
    const stated = (level: Level): StatedLevel => ({ code: 'RW603', level, reason: level, origin: 'workspace file' });
    const folder = (uri: string, level: Level) => ({ folder: uri, levels: new Map([['RW603', stated(level)]]) });
    const levels = [folder('', 'error'), folder('file:///yard', 'warning'), folder('file:///yar', 'off')];
    const severity = (text: string) =>
      analyse({ ...workspaceOf({ 'main.rig': text }), levels }).diagnostics(MAIN)[0]?.severity;
    expect(severity(heavy())).toBe('warning');
    expect(severity(`rule RW603 information "as ever"\n${heavy()}`)).toBe('information');
  });

  test('holds for stability too', () => {
    const text = `vehicle Truck {
  wheelbase 3200 mm, track 1680 mm
  kerb 1180 kg on front, 940 kg on rear, 680 mm up, inertia 4200 kg·m²
  hitch ball at 1150 mm behind rear, 430 mm up
}
${trailer('fitting box 1500 kg at 2900 mm back, 500 mm up')}rig Delivery {
  tow Truck
  haul Hauler
  travel 160 km/h
}
`;
    const found = (rule: string) => {
      const analysis = analyse(workspaceOf({ 'main.rig': text + rule }));
      return [completeDiagnostics(analysis, MAIN).map(({ code }) => code), analysis.turnedOff(MAIN)] as const;
    };
    const [codes] = found('');
    const code = codes.find((each) => each.startsWith('RW7'));
    expect(code).toBeDefined();
    const [others, off] = found(`rule ${code} off "it stays in the yard"\n`);
    expect(others).not.toContain(code);
    expect(off.map(({ diagnostic }) => diagnostic.code)).toEqual([code]);
  });
});

describe('what is wrong with a rule line', () => {
  const messagesOf = (line: string) => read(`${line}\n`).messages;

  test.each([
    ['rule RW63 off "x"', "No diagnostic has the code 'RW63'; the nearest is 'RW603'."],
    ['rule rw602 off "x"', "No diagnostic has the code 'rw602'; the nearest is 'RW602'."],
    ['rule RW4711 off "x"', "No diagnostic has the code 'RW4711'; the nearest is 'RW711'."],
    ['rule RW603 quiet "x"', "'quiet' is no level: write off, information, warning or error."],
    ['rule RW603 constructor "x"', "'constructor' is no level: write off, information, warning or error."],
    [
      'rule RW603 off',
      'Why RW603 has another level is not said. Write, for example: rule RW603 off "as on drawing 12"',
    ],
    [
      'rule RW603 off "  "',
      'Why RW603 has another level is not said. Write, for example: rule RW603 off "as on drawing 12"',
    ],
    [
      'rule RW201 off "x"',
      'RW201 (nothing has this name) is not what a rule finds: it cannot be turned off or re-levelled.',
    ],
    [
      'rule RW603 "x"',
      'This rule line lacks its level: off, information, warning or error. For example: rule RW603 off "why it is off"',
    ],
    ['rule RW603 of "x"', "'of' is no level: write off, information, warning or error."],
    ['rule RW603 to "x"', "'to' is no level: write off, information, warning or error."],
    ['rule RW603 off of "x"', "'rule' says 'off' and 'of' twice: keep one."],
    ['rule off "x"', 'This rule line lacks a code before its level. For example: rule RW603 off "why it is off"'],
    ['rule off RW603 "x"', 'This rule line lacks a code before its level. For example: rule RW603 off "why it is off"'],
    ['rule of "x"', "No diagnostic has the code 'of'."],
    ['rule RW63 "x"', "No diagnostic has the code 'RW63'; the nearest is 'RW603'."],
    ['rule RW603 off warning "x"', "'rule' says 'off' and 'warning' twice: keep one."],
    ['rule RW603 off "x" "y"', "'rule' says a text twice: keep one."],
  ])('%s', (line, message) => {
    expect(messagesOf(line)).toEqual([message]);
    const inBlock = read(heavy(line)).diagnostics.filter(({ key }) => key !== 'coupling-share-high');
    expect(inBlock.map((diagnostic) => diagnostic.message)).toEqual([message]);
  });

  test('a level that is stated twice in a block or in a file is told at the second, and the first counts', () => {
    const block = read(heavy('rule RW603 off "x"\n  rule RW603 error "y"'));
    expect(block.diagnostics.map(({ key }) => key)).toEqual(['level-stated-twice']);
    expect(block.marked('level-stated-twice')).toBe('RW603');
    const file = read(`rule RW603 off "x"\n${heavy()}rule RW603 error "y"\n`);
    expect(file.diagnostics.map(({ key, related }) => [key, related[0]?.start])).toEqual([['level-stated-twice', 5]]);
  });

  test('leaves the rest of the line in force, and the loads of the unit whole', () => {
    const text = heavy('rule RW63, RW603 off "x"');
    expect(codesOf(text)).toEqual(['RW890 error']);
    expect(offOf(text)).toEqual(['RW603 block: x']);
    expect(
      read(text)
        .assumptions('Hauler')
        .filter((each) => each.includes('lines with errors')),
    ).toEqual([]);
  });

  test('costs no other line', () => {
    expect(codesOf(heavy('rule\n  rule RW603 off "x"'))).toEqual(['RW101 error']);
    expect(codesOf(heavy('rule RW603 off "x"  berths 2'))).toEqual([]);
    expect(codesOf(`rule RW603 3 kg off "x"\n${heavy()}`)).toEqual(['RW101 error', 'RW603 information']);
  });
});
