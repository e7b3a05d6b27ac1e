// Installs a VS Code that runs in a browser: the VS Code tree inside the npm package code-server, in a folder of its own
// outside the project's node_modules and lock file. Returns at once when it is there.
//   folder: $RIGWRIGHT_VSCODE_HOST_DIR, else .vscode-test/code-server-<version>
import { execFileSync } from 'node:child_process';
import { existsSync, mkdirSync, rmSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';

const CODE_SERVER_VERSION = '4.139.1'; // VS Code 1.139.1; runs on Node 24
/** Parts of 230 MB that neither the tests nor the editor need. (@vscode/ripgrep-universal stays: file search needs it.) */
const UNUSED = ['extensions/copilot', 'node_modules/@github', 'node_modules/@microsoft/mxc-sdk'];

export const root = path.resolve(path.dirname(fileURLToPath(import.meta.url)), '../../..');

/** Folder of the VS Code tree, installed if need be. */
export function installHost() {
  const folder =
    process.env.RIGWRIGHT_VSCODE_HOST_DIR ?? path.join(root, '.vscode-test', `code-server-${CODE_SERVER_VERSION}`);
  const vscode = path.join(folder, 'node_modules', 'code-server', 'lib', 'vscode');
  const complete = path.join(folder, '.complete');
  if (existsSync(complete)) return vscode;

  const begin = performance.now();
  console.error('Installing the browser-hosted VS Code (once) ...');
  rmSync(folder, { recursive: true, force: true });
  mkdirSync(folder, { recursive: true });
  writeFileSync(path.join(folder, 'package.json'), '{"name":"vscode-host","private":true}');
  install(folder, `code-server@${CODE_SERVER_VERSION}`);
  install(vscode); // VS Code's own dependencies, pinned by the shrinkwrap file in it
  for (const part of UNUSED) rmSync(path.join(vscode, part), { recursive: true, force: true });
  writeFileSync(complete, '');
  console.error(`Installed in ${((performance.now() - begin) / 1000).toFixed(1)} s: ${folder}`);
  return vscode;
}

/**
 * Without install scripts: they would compile native modules, one of which needs system headers, and running extensions
 * needs none of them; logging, file watching, file search and webviews all work.
 */
function install(folder, ...packages) {
  const args = [
    'install',
    '--no-save',
    '--ignore-scripts',
    '--omit=dev',
    '--no-audit',
    '--no-fund',
    '--loglevel=error',
  ];
  execFileSync('npm', [...args, ...packages], {
    cwd: folder,
    stdio: ['ignore', 'ignore', 'inherit'],
    shell: process.platform === 'win32',
  });
}
