import { spawnSync } from 'node:child_process';
import { chmodSync, copyFileSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';

const SCRIPT = 'server/scripts/ensure-installed.mjs';

interface Locked {
  readonly version: string;
  readonly optional?: boolean;
}
type Packages = Readonly<Record<string, Locked>>;

describe('ensure-installed', () => {
  let root: string;

  beforeEach(() => {
    root = mkdtempSync(path.join(os.tmpdir(), 'rigwright-setup-'));
    mkdirSync(path.join(root, 'server/scripts'), { recursive: true });
    copyFileSync(SCRIPT, path.join(root, SCRIPT));
  });
  afterEach(() => rmSync(root, { recursive: true, force: true }));

  function writeLock(file: string, packages: Packages): void {
    mkdirSync(path.dirname(path.join(root, file)), { recursive: true });
    writeFileSync(path.join(root, file), JSON.stringify({ lockfileVersion: 3, packages }));
  }

  /** The arguments with which the script calls npm, if it does; a stand-in notes them. */
  function callOfNpm(wanted: Packages, installed?: Packages): string | undefined {
    writeLock('package-lock.json', wanted);
    if (installed) writeLock('node_modules/.package-lock.json', installed);
    const calls = path.join(root, 'calls');
    const npm = path.join(root, 'npm');
    writeFileSync(npm, `#!/bin/sh\necho "$@" >> '${calls}'\n`);
    chmodSync(npm, 0o755);
    const PATH = `${root}${path.delimiter}${process.env.PATH}`;
    const { status } = spawnSync(process.execPath, [path.join(root, SCRIPT)], { env: { ...process.env, PATH } });
    expect(status).toBe(0);
    try {
      return readFileSync(calls, 'utf8').trim();
    } catch {
      return undefined;
    }
  }

  const wanted: Packages = {
    '': { version: '1.0.0' },
    'node_modules/a': { version: '1.2.3' },
    'node_modules/for-another-system': { version: '2.0.0', optional: true },
  };

  it('does nothing when everything is there', () => {
    expect(callOfNpm(wanted, { 'node_modules/a': { version: '1.2.3' } })).toBeUndefined();
  });

  it('installs on a fresh clone', () => {
    expect(callOfNpm(wanted)).toMatch(/^ci .*--include=dev/);
  });

  it('installs when the lock file asks for another version', () => {
    expect(callOfNpm(wanted, { 'node_modules/a': { version: '1.2.2' } })).toMatch(/^ci /);
  });
});
