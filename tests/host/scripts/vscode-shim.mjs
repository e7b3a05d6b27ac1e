#!/usr/bin/env node
// Stands in for a desktop VS Code: takes the arguments that @vscode/test-electron passes to it, runs the same tests in
// the browser-hosted VS Code and headless Chromium, prints what they print, and exits with their code.
import util from 'node:util';
import { installHost } from './install-vscode-host.mjs';
import { launchBrowser, remoteUri, startServer, windowUrl } from './vscode-server.mjs';

const RUN_TIMEOUT_MS = 180_000;
/** Log lines of a window without network and native modules that say nothing about the extension. */
const NOISE = new RegExp(
  [
    'Could not locate the bindings file|Release/watchdog|Service Worker|open-vsx|connection token|Creating a socket',
    'reconnection-grace|authentication provider|AgentHost|AccountPolicyGate|builtin extensions cache|Creation of workbench contribution',
    'ENOPRO|CodeExpectedError', // the virtual folder, before the tests have made its file system
  ].join('|'),
);
const verbose = process.env.RIGWRIGHT_VERBOSE !== undefined;

const args = process.argv.slice(2);
const option = (name) => {
  const prefix = `--${name}=`;
  const value = args.find((arg) => arg.startsWith(prefix))?.slice(prefix.length);
  if (!value) throw new Error(`${prefix}<path> is missing`);
  return value.replace(/^file:\/\//, '');
};
const open = args.find((arg) => !arg.startsWith('-'));

const server = await startServer(installHost(), { testDriver: true });
const browser = await launchBrowser();
let code = 1;
try {
  const page = await browser.newPage({ viewport: { width: 1400, height: 850 } });
  // A window calls these two globals when the tests in it log and end.
  await page.exposeFunction('codeAutomationLog', (type, values) => {
    const line = util.format(...values);
    if (verbose || !NOISE.test(line)) console[type === 'error' ? 'error' : 'log'](line);
  });
  const ended = new Promise((resolve, reject) => {
    void page.exposeFunction('codeAutomationExit', resolve);
    page.on('crash', () => reject(new Error('the page crashed')));
    setTimeout(reject, RUN_TIMEOUT_MS, new Error(`no result after ${RUN_TIMEOUT_MS / 1000} s`)).unref();
  });
  if (verbose) page.on('console', (message) => console.error('[page]', message.text()));
  const payload = [
    ['skipWelcome', 'true'],
    ['skipReleaseNotes', 'true'],
    ['extensionDevelopmentPath', remoteUri(server.port, option('extensionDevelopmentPath'))],
    ['extensionTestsPath', remoteUri(server.port, option('extensionTestsPath'))],
  ];
  await page.goto(windowUrl(server.port, { open, payload }));
  code = await ended;
} catch (error) {
  console.error(error);
  console.error(server.log());
} finally {
  await browser.close();
  await server.stop();
}
process.exit(code);
