import * as vscode from 'vscode';
import { servePages } from './pages.ts';
import { createServerSession, type ServerSession } from './server-session.ts';
import { createServerStatus } from './server-status.ts';

/** What `activate` returns to callers of `vscode.extensions.getExtension('rigwright.rigwright')`. */
export interface ExtensionApi {
  /** The language server's process, while there is one: for attaching a profiler, and for tests. */
  serverProcessId(): number | undefined;
}

let session: ServerSession | undefined;

/** Called when the first `.rig` file is opened, or by one of the commands. Returns at once; the server starts meanwhile. */
export function activate(context: vscode.ExtensionContext): ExtensionApi {
  const output = vscode.window.createOutputChannel('Rigwright', { log: true });
  const status = createServerStatus();
  const started = createServerSession({
    serverModule: context.asAbsolutePath('dist/server.js'),
    output,
    onState: status.show,
  });
  session = started;
  const restart = () =>
    started.restart().catch((error: unknown) => output.error(`The language server did not start: ${error}`));
  const pages = servePages(vscode.Uri.joinPath(context.extensionUri, 'language', 'reference', 'pages'));
  context.subscriptions.push(
    output,
    status,
    pages,
    vscode.commands.registerCommand('rigwright.restartServer', restart),
  );
  void restart();
  return { serverProcessId: started.processId };
}

/** VS Code waits for the server to end. */
export async function deactivate(): Promise<void> {
  await session?.stop();
}
