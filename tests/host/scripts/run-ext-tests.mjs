// Runs the tests of tests/host/suite inside a real extension host, always through @vscode/test-electron:
//   VSCODE_EXECUTABLE=/path/to/code       in that desktop VS Code
//   RIGWRIGHT_DOWNLOAD_VSCODE=<version>   in a desktop VS Code that test-electron downloads
//   otherwise                             in the browser-hosted VS Code (vscode-shim.mjs)
// They work on a copy of the fixtures. Results: out/reports/host.json.
import { cpSync, existsSync, mkdirSync, readFileSync, rmSync } from 'node:fs';
import path from 'node:path';
import { runTests } from '@vscode/test-electron';
import { root } from './install-vscode-host.mjs';
import { removeFolder, temporaryFolder } from './vscode-server.mjs';

const results = path.join(root, 'out', 'reports', 'host.json');
mkdirSync(path.dirname(results), { recursive: true });
rmSync(results, { force: true });
const workspace = temporaryFolder('host');
cpSync(path.join(root, 'tests', 'host', 'fixtures'), workspace, { recursive: true });

// The shim's #! line finds its Node by PATH; let it be this one.
process.env.PATH = `${path.dirname(process.execPath)}${path.delimiter}${process.env.PATH}`;
const shim = path.join(root, 'tests', 'host', 'scripts', 'vscode-shim.mjs');
const version = process.env.RIGWRIGHT_DOWNLOAD_VSCODE;
const begin = performance.now();
try {
  await runTests({
    ...(version ? { version } : { vscodeExecutablePath: process.env.VSCODE_EXECUTABLE ?? shim }),
    extensionDevelopmentPath: root,
    extensionTestsPath: path.join(root, 'out', 'host', 'suite.js'),
    launchArgs: [path.join(workspace, 'host.code-workspace')],
    extensionTestsEnv: { RIGWRIGHT_HOST_RESULTS: results },
  });
} catch (error) {
  console.error(String(error));
  process.exitCode = 1;
} finally {
  removeFolder(workspace);
}
const seconds = ((performance.now() - begin) / 1000).toFixed(1);
if (existsSync(results)) {
  const { passed, failed, vscode, node } = JSON.parse(readFileSync(results, 'utf8'));
  console.log(`${passed} passed, ${failed} failed (VS Code ${vscode}, extension host on Node ${node}, ${seconds} s)`);
  if (failed > 0 || passed === 0) process.exitCode = 1;
} else {
  console.error('The tests did not run: there is no results file.');
  process.exitCode = 1;
}
