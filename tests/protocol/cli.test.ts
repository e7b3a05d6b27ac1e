import { spawn } from 'node:child_process';
import { mkdir, mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, onTestFinished, test } from 'vitest';
import manifest from '../../package.json' with { type: 'json' };
import schema from '../../server/cli/output.schema.json' with { type: 'json' };

const CLI = path.resolve(import.meta.dirname, '../../dist/cli.js');

interface Outcome {
  readonly code: number | null;
  readonly out: string;
  readonly error: string;
}

/** Runs the built command line in a folder; `lines` closes its output after so many lines, as `head` does. */
function rigwright(cwd: string, args: readonly string[], lines?: number): Promise<Outcome> {
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, [CLI, ...args], { cwd, stdio: ['ignore', 'pipe', 'pipe'] });
    let out = '';
    let error = '';
    child.stdout.setEncoding('utf8').on('data', (text: string) => {
      out += text;
      if (lines !== undefined && out.split('\n').length > lines) child.stdout.destroy();
    });
    child.stderr.setEncoding('utf8').on('data', (text: string) => {
      error += text;
    });
    child.on('error', reject);
    child.on('close', (code) => resolve({ code, out, error }));
  });
}

async function folderWith(files: Readonly<Record<string, string | Uint8Array>>): Promise<string> {
  const folder = await mkdtemp(path.join(tmpdir(), 'rigwright-'));
  onTestFinished(() => rm(folder, { recursive: true, force: true }));
  for (const [name, content] of Object.entries(files)) await writeFile(path.join(folder, name), content);
  return folder;
}

/** 500 kg at 2700 mm, on an axle at 3000 mm: by the lever, 450 kg on the axle and 50 kg on the coupling. */
const ERRAND = `use "items.rig"
vehicle Truck {
  wheelbase 3000 mm, track 1600 mm
  tare 1200 kg on front, 800 kg on rear, 600 mm up
  hitch ball at 1000 mm behind rear, 440 mm up, rating 100 kg
}
trailer Cart {
  coupling ball 50 mm, 440 mm up
  axles single at 3000 mm back, track 1500 mm, rating 600 kg
  tare 300 kg at 2700 mm back, 500 mm up
  locker bed from 1500 mm to 3900 mm back, floor 500 mm up
}
rig Errand {
  tow Truck
  haul Cart
  stow 2 x crate in Cart.bed
  case loaded {}
}
`;
const ITEMS = 'item crate 100 kg size 400 x 400 x 400 mm\n';

describe('the built command line', () => {
  test('prints the load table of a rig and ends with 0', async () => {
    const folder = await folderWith({ 'errand.rig': ERRAND, 'items.rig': ITEMS });
    const { code, out, error } = await rigwright(folder, ['loads', 'errand.rig']);
    expect({ code, error }).toEqual({ code: 0, error: '' });
    expect(out).toMatch(/^rig Errand {2}errand\.rig:13:5$/m);
    expect(out).toMatch(/Cart +coupling +50 kg .*\n +coupling share +10 %$/m);
    expect(out).toMatch(/axle +450 kg +600 kg +rating +150 kg$/m);
    expect(out).not.toContain('\u001b');
  });

  test('prints diagnostics with file, line, column, severity and code, and ends with 1', async () => {
    const folder = await folderWith({ 'errand.rig': ERRAND, 'items.rig': ITEMS.replace('crate', 'crates') });
    const { code, out, error } = await rigwright(folder, ['check']);
    expect({ code, error }).toEqual({ code: 1, error: '' });
    expect(out).toMatch(/^errand\.rig:16:12 error RW\d+ .*crates/m);
    expect(out).toMatch(/^1 error.* in \d files?.*$/m);
  });

  test('ends with 2 and says why when a file cannot be read', async () => {
    const folder = await folderWith({ 'latin.rig': Buffer.from('# f\u00fcr\n', 'latin1'), 'items.rig': ITEMS });
    const { code, out, error } = await rigwright(folder, ['check', 'latin.rig', 'items.rig', 'absent.rig']);
    expect(code).toBe(2);
    expect(error).toContain('latin.rig: it is not UTF-8 text: byte 0xFC in line 1; save it as UTF-8');
    expect(error).toContain('absent.rig: there is no such file');
    expect(out).toContain('no errors and no warnings in 1 file');
  });

  test('ends with 2 on wrong usage', async () => {
    const { code, out, error } = await rigwright('.', ['check', '--fromat', 'json']);
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(error).toContain('--format');
  });

  test('prints its version, its help and its schema', async () => {
    expect(await rigwright('.', ['--version'])).toEqual({ code: 0, out: `${manifest.version}\n`, error: '' });
    expect((await rigwright('.', ['loads', '--help'])).out).toMatch(/Examples:\n {2}rigwright loads /);
    const { code, out } = await rigwright('.', ['schema']);
    expect(code).toBe(0);
    expect(JSON.parse(out)).toEqual(schema);
  });

  test('prints JSON that its schema describes', async () => {
    const folder = await folderWith({ 'errand.rig': ERRAND, 'items.rig': ITEMS });
    const { code, out } = await rigwright(folder, ['loads', '--format', 'json', '--color', 'always']);
    expect(code).toBe(0);
    const output: unknown = JSON.parse(out);
    const ajv = new Ajv2020({ strict: true, allErrors: true });
    expect(ajv.validate(schema, output), ajv.errorsText()).toBe(true);
    expect(output).toMatchObject({
      files: ['errand.rig', 'items.rig'],
      rigs: [{ name: 'Errand', file: 'errand.rig' }],
    });
  });

  test('prints lateral stability and draws it', async () => {
    const folder = await folderWith({ 'errand.rig': ERRAND, 'items.rig': ITEMS });
    const plots = path.join(folder, 'plots');
    await mkdir(plots);
    const { code, out, error } = await rigwright(folder, [
      'stability',
      'errand.rig',
      '--speed',
      '90km/h',
      '--plot',
      'plots',
    ]);
    expect({ code, error }).toEqual({ code: 0, error: '' });
    expect(out).toMatch(
      /^ {2}intended speed 90 km\/h; least damped at it in case loaded, on the level: damping ratio 0\.\d+/m,
    );
    expect(out).toMatch(/^ {4}on the level +(0\.\d{3} {2}\d\.\d\d *){4}$/m);
    expect(out.replace(/\s+/g, ' ')).toContain('never take a speed from it as safe');
    for (const name of ['damping-Errand.svg', 'response-Errand.svg']) {
      expect(await readFile(path.join(plots, name), 'utf8')).toMatch(/^<svg .*<\/svg>\n$/s);
    }
    const json = await rigwright(folder, ['stability', '--format', 'json']);
    const ajv = new Ajv2020({ strict: true, allErrors: true });
    expect(ajv.validate(schema, JSON.parse(json.out)), ajv.errorsText()).toBe(true);
  });

  test('prints the envelope, as JSON too', async () => {
    const folder = await folderWith({ 'errand.rig': ERRAND, 'items.rig': ITEMS });
    const { code, out, error } = await rigwright(folder, ['envelope', 'errand.rig']);
    expect({ code, error }).toEqual({ code: 0, error: '' });
    expect(out).toContain('holds in every reachable state (proved):');
    const json = await rigwright(folder, ['envelope', '--format', 'json']);
    const ajv = new Ajv2020({ strict: true, allErrors: true });
    expect(ajv.validate(schema, JSON.parse(json.out)), ajv.errorsText()).toBe(true);
  });

  test('survives a reader that closes the pipe early', async () => {
    // Each file gives 200 diagnostics: together far more than a pipe holds.
    const items = Array.from({ length: 250 }, (_, index) => `item thing_${index} 1 kgg`).join('\n');
    const files = Object.fromEntries(Array.from({ length: 20 }, (_, index) => [`items${index}.rig`, items]));
    const { error } = await rigwright(await folderWith(files), ['check'], 3);
    expect(error).toBe('');
  });
});
