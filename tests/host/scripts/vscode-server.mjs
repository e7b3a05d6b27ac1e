// Starts the browser-hosted VS Code and a headless browser that opens a window of it.
import { spawn, spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { chromium } from 'playwright-core';

const START_TIMEOUT_MS = 60_000;
const STOP_TIMEOUT_MS = 1_500;

/** A quiet window: no welcome page, no telemetry, no update checks, no side bars that the extension has no part in. */
const SETTINGS = {
  'workbench.startupEditor': 'none',
  'workbench.secondarySideBar.defaultVisibility': 'hidden',
  'workbench.tips.enabled': false,
  'telemetry.telemetryLevel': 'off',
  'extensions.autoUpdate': false,
  'extensions.autoCheckUpdates': false,
  'chat.disableAIFeatures': true,
  'security.workspace.trust.enabled': false,
};

export const temporaryFolder = (name) => mkdtempSync(path.join(os.tmpdir(), `rigwright-${name}-`));

export const removeFolder = (folder) => rmSync(folder, { recursive: true, force: true, maxRetries: 5 });

/**
 * Starts the server on a free port of the loopback interface, with its data in a temporary folder.
 *   env            added to the environment of the server and so of the extension host
 *   extensionsDir  folder of installed extensions; without it none is installed
 *   settings       added to the settings above
 *   token          what a browser must know to connect; without it everybody on this machine may
 *   testDriver     let the window's address name an extension under development and its tests
 */
export async function startServer(vscode, { env = {}, extensionsDir, settings = {}, token, testDriver = false } = {}) {
  const data = temporaryFolder('vscode');
  const machineSettings = path.join(data, 'data', 'Machine', 'settings.json');
  const changeSettings = (changes) =>
    writeFileSync(machineSettings, JSON.stringify({ ...SETTINGS, ...settings, ...changes }));
  mkdirSync(path.dirname(machineSettings), { recursive: true });
  changeSettings({});
  const args = [
    ['--host', '127.0.0.1', '--port', '0', '--server-data-dir', data],
    ['--extensions-dir', extensionsDir ?? path.join(data, 'extensions')],
    ['--accept-server-license-terms', '--disable-telemetry'],
    ['--disable-workspace-trust'], // the setting alone still opens a folder in restricted mode
    token ? ['--connection-token', token] : ['--without-connection-token'],
    testDriver ? ['--enable-smoke-test-driver'] : [], // a built VS Code ignores those parts of the address without it
  ].flat();
  const server = spawn(process.execPath, [path.join(vscode, 'out', 'server-main.js'), ...args], {
    env: { ...process.env, ...env },
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  const exited = new Promise((resolve) => server.once('exit', resolve));
  let log = '';
  const port = await new Promise((resolve, reject) => {
    const fail = (reason) => reject(new Error(`VS Code's server ${reason}\n${log}`));
    const timer = setTimeout(fail, START_TIMEOUT_MS, 'did not start in time');
    const read = (chunk) => {
      log += chunk;
      const match = /Extension host agent listening on (\d+)/.exec(log);
      if (match) resolve(Number(match[1]));
      if (match) clearTimeout(timer);
    };
    server.stdout.on('data', read);
    server.stderr.on('data', read);
    server.once('error', (error) => fail(`does not run: ${error.message}`));
    void exited.then((code) => fail(`ended with code ${code}`));
  });
  return {
    port,
    exited,
    changeSettings,
    log: () => log,
    async stop() {
      server.kill('SIGTERM');
      const timer = setTimeout(() => server.kill('SIGKILL'), STOP_TIMEOUT_MS);
      await exited;
      clearTimeout(timer);
      removeFolder(data);
    },
  };
}

/** Installs a packaged extension into an extensions folder, by the server's own command line. */
export function installVsix(vscode, vsix, extensionsDir) {
  const data = temporaryFolder('vsix');
  const args = ['--install-extension', vsix, '--force', '--extensions-dir', extensionsDir, '--server-data-dir', data];
  const quiet = ['--accept-server-license-terms', '--telemetry-level', 'off'];
  const { status, stdout, stderr } = spawnSync(
    process.execPath,
    [path.join(vscode, 'out', 'server-main.js'), ...args, ...quiet],
    { encoding: 'utf8' },
  );
  removeFolder(data);
  if (status !== 0) throw new Error(`${vsix} could not be installed\n${stdout}${stderr}`);
}

const BROWSERS = ['/usr/bin/chromium', '/usr/bin/chromium-browser', '/usr/bin/google-chrome'];

/** Headless Chromium: $RIGWRIGHT_CHROMIUM, or the one of the system's packages. */
export function launchBrowser() {
  const executablePath = process.env.RIGWRIGHT_CHROMIUM ?? BROWSERS.find((file) => existsSync(file));
  if (!executablePath) throw new Error('No Chromium found: install the package "chromium" or set RIGWRIGHT_CHROMIUM.');
  const quiet = ['--disable-quic', '--no-first-run', '--disable-background-networking', '--disable-component-update'];
  return chromium.launch({ executablePath, headless: true, args: ['--no-sandbox', '--disable-gpu', ...quiet] });
}

/**
 * Address of a window. `open` is a folder or a .code-workspace file; `payload` is a list of [key, value] as VS Code's
 * own integration tests pass them.
 */
export function windowUrl(port, { open, payload = [], token } = {}) {
  const url = new URL(`http://127.0.0.1:${port}/`);
  if (token) url.searchParams.set('tkn', token);
  if (open) url.searchParams.set(open.endsWith('.code-workspace') ? 'workspace' : 'folder', open);
  if (payload.length > 0) url.searchParams.set('payload', JSON.stringify(payload));
  return url.href;
}

/** URI by which a window names a file of the server's machine. */
export const remoteUri = (port, file) => `vscode-remote://127.0.0.1:${port}${file}`;
