/** The language server as a process: `server.js --stdio` or `--node-ipc`, or another transport of the protocol library. */

import { existsSync } from 'node:fs';
import { createConnection, ProposedFeatures } from 'vscode-languageserver/node';
import { readDisk } from './disk.ts';
import { startServer } from './server.ts';

const connection = createConnection(ProposedFeatures.all);
process.on('unhandledRejection', (reason) => connection.console.error(`Unhandled: ${String(reason)}`));
const diagnosticPages = pagesBeside(import.meta.url);
startServer(connection, { defer: setImmediate, disk: readDisk, ...(diagnosticPages && { diagnosticPages }) });

/** The pages that are shipped with this file; undefined where it was taken away from them. */
function pagesBeside(file: string): string | undefined {
  const pages = new URL('../language/reference/pages/diagnostics', file);
  return existsSync(pages) ? pages.href : undefined;
}
