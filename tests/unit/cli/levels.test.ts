import { describe, expect, test } from 'vitest';
import { folderWith, rigwright } from './support.ts';

/** Of 240 kg that stand 2050 mm behind the coupling of an axle at 2600 mm, 21 % are on the coupling: RW603, information. */
const heavy = (name = 'Hauler', rule = '') => `trailer ${name} {
  coupling ball 50 mm, 430 mm up
  axles single at 2600 mm back, track 1500 mm
  tare 240 kg at 2050 mm back, 520 mm up, inertia 210 kg·m²
  brakes overrun
  ${rule}
}
`;
const stated = (level: string, reason = 'house rule') =>
  JSON.stringify({ levels: { RW603: { level, reason } } }, undefined, 2);

describe('rigwright check', () => {
  test('counts what is turned off, with the reason', async () => {
    const cwd = await folderWith({ 'a.rig': `rule RW603 off "nose-heavy by design"\n${heavy()}${heavy('Other')}` });
    const { out, code } = await rigwright(cwd, ['check']);
    expect(code).toBe(0);
    expect(out).toBe('no errors and no warnings in 1 file\n2 findings turned off: RW603 (nose-heavy by design).\n');
  });

  test('counts each code and reason', async () => {
    const own = heavy('Own', 'rule RW603 off "drawing 12"');
    const cwd = await folderWith({ 'a.rig': `rule RW603 off "as agreed"\n${heavy()}${heavy('Other')}${own}` });
    const { out } = await rigwright(cwd, ['check', '--level', 'error']);
    expect(out).toContain('3 findings turned off: 2 × RW603 (as agreed), RW603 (drawing 12).\n');
  });

  test('breaks a long line of reasons for a narrow terminal, and prints no control character of a file', async () => {
    const reason = `${'long '.repeat(30)}\u001b[31m`;
    const cwd = await folderWith({ 'a.rig': `rule RW603 off "${reason}"\n${heavy()}` });
    const { out } = await rigwright(cwd, ['check'], { isTerminal: true, columns: 60, environment: { NO_COLOR: '1' } });
    for (const line of out.split('\n')) expect(line.length).toBeLessThanOrEqual(60);
    expect(out).not.toContain('\u001b');
  });

  test('takes levels into the exit code, and says who stated them', async () => {
    const cwd = await folderWith({ 'a.rig': heavy(), 'rigwright.json': stated('error') });
    const { out, code } = await rigwright(cwd, ['check']);
    expect(code).toBe(1);
    expect(out).toContain('error RW603');
    expect(out).toContain('    error by rigwright.json: house rule\n');
  });

  test('takes the workspace file of the current folder, and beside a file from elsewhere that one', async () => {
    const cwd = await folderWith({
      'here/a.rig': heavy(),
      'here/rigwright.json': stated('error'),
      'there/b.rig': heavy('Other'),
      'there/rigwright.json': stated('off', 'there'),
    });
    const { out, code } = await rigwright(`${cwd}/here`, ['check', 'a.rig', '../there/b.rig']);
    expect(code).toBe(1);
    expect(out).toContain('1 error in 1 file (2 checked)');
    expect(out).toContain('1 finding turned off: RW603 (there).');
  });

  test('tells what is wrong with the workspace file, at its place', async () => {
    const cwd = await folderWith({ 'a.rig': heavy(), 'rigwright.json': '{\n  "levels": {,\n}' });
    const { out, code } = await rigwright(cwd, ['check']);
    expect(code).toBe(1);
    expect(out).toContain("rigwright.json:2:14 error RW895 ',' stands where a name between double quotes is expected.");
    const expected = await rigwright(cwd, ['check', '--expect-errors', 'a.rig']);
    expect(expected.code).toBe(1);
    expect(expected.error).toContain('rigwright.json: has unexpected errors');
  });

  test('cannot use a workspace file that is not UTF-8', async () => {
    const cwd = await folderWith({ 'a.rig': heavy(), 'rigwright.json': new Uint8Array([0x7b, 0xff]) });
    const { error, code } = await rigwright(cwd, ['check']);
    expect(code).toBe(2);
    expect(error).toMatch(/rigwright\.json: it is not UTF-8/);
  });

  test('has them in its JSON', async () => {
    const cwd = await folderWith({
      'a.rig': heavy('Own', 'rule RW603 off "drawing 12"'),
      'b.rig': heavy('Other', 'rule RW603 warning "house"'),
    });
    const { out } = await rigwright(cwd, ['check', '--format', 'json']);
    expect(JSON.parse(out)).toMatchObject({
      diagnostics: [
        { file: 'b.rig', code: 'RW603', severity: 'warning', level: { reason: 'house', statedIn: 'block' } },
      ],
      turnedOff: [
        {
          file: 'a.rig',
          start: { line: 1, column: 9 },
          code: 'RW603',
          severity: 'information',
          level: { reason: 'drawing 12', statedIn: 'block' },
        },
      ],
      summary: { errors: 0, warnings: 1, information: 0, turnedOff: 1 },
    });
  });
});
