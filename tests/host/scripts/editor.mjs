// `npm run editor`: opens the samples in VS Code with the extension loaded.
//   a desktop VS Code, if there is one: $VSCODE_EXECUTABLE, else `code` on the PATH
//   otherwise the browser-hosted VS Code, which runs until Ctrl-C; its address is printed
import { execFileSync, spawnSync } from 'node:child_process';
import { randomBytes } from 'node:crypto';
import path from 'node:path';
import { installHost, root } from './install-vscode-host.mjs';
import { installVsix, removeFolder, startServer, temporaryFolder, windowUrl } from './vscode-server.mjs';

const samples = path.join(root, 'samples');
const shell = process.platform === 'win32';
const npm = (script) => execFileSync('npm', ['run', '--silent', script], { cwd: root, stdio: ['ignore', 2, 2], shell });

/** True when a desktop VS Code took the samples. */
function openDesktop() {
  const code = process.env.VSCODE_EXECUTABLE ?? 'code';
  if (spawnSync(code, ['--version'], { stdio: 'ignore', shell }).status !== 0) return false;
  npm('build');
  const args = [`--extensionDevelopmentPath=${root}`, '--new-window', samples];
  return spawnSync(code, args, { stdio: 'inherit', shell }).status === 0;
}

async function openInBrowser() {
  npm('package');
  const vscode = installHost();
  const extensionsDir = temporaryFolder('extensions');
  installVsix(vscode, path.join(root, 'dist', 'rigwright.vsix'), extensionsDir);
  // The address carries a secret: without one, any web page open on this machine could drive the server.
  const token = randomBytes(16).toString('hex');
  const server = await startServer(vscode, { extensionsDir, token });
  console.log(`The samples are open in VS Code at\n\n  ${windowUrl(server.port, { open: samples, token })}\n`);
  console.log('Ctrl-C ends it.');
  await new Promise((resolve) => {
    for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP']) process.once(signal, resolve);
    void server.exited.then(resolve);
  });
  await server.stop();
  removeFolder(extensionsDir);
  process.exit(0); // the extension host lets go of our pipes some seconds later
}

if (!openDesktop()) await openInBrowser();
