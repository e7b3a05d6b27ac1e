// Makes sure that node_modules holds what package-lock.json asks for, and runs `npm ci` when it does not.
// The first step of `npm start`, `npm test` and `npm run editor`, so it runs on a plain Node 20 before anything is
// installed: built-in modules only. It compares versions, not file times, so a fresh checkout does not reinstall.
import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';

const OLDEST_NODE = 20;
const root = path.resolve(path.dirname(fileURLToPath(import.meta.url)), '../..');

/** The `packages` table of a lock file, or an empty one when the file is missing or unreadable. */
function lockedPackages(file) {
  try {
    return JSON.parse(readFileSync(path.join(root, file), 'utf8')).packages ?? {};
  } catch {
    return {};
  }
}

/** Folders that the lock file demands and node_modules lacks or holds in another version. */
function missingPackages() {
  const installed = lockedPackages('node_modules/.package-lock.json');
  return Object.entries(lockedPackages('package-lock.json')).filter(
    ([folder, { version, optional, devOptional }]) =>
      folder !== '' && !optional && !devOptional && installed[folder]?.version !== version,
  );
}

if (Number(process.versions.node.split('.')[0]) < OLDEST_NODE) {
  console.error(`Rigwright needs Node ${OLDEST_NODE} or newer; this is Node ${process.versions.node}.`);
  process.exit(1);
}
const missing = missingPackages();
if (missing.length > 0) {
  console.error(`Installing dependencies (${missing.length} of them missing or outdated) with npm ci ...`);
  // npm on Windows is a .cmd file, which needs a shell; the arguments are fixed.
  execFileSync('npm', ['ci', '--include=dev', '--no-audit', '--no-fund', '--loglevel=error'], {
    cwd: root,
    stdio: ['ignore', 2, 2],
    shell: process.platform === 'win32',
  });
}
