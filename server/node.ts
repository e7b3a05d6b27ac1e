/** The language server as a process: `server.js --stdio` or `--node-ipc`, or another transport of the protocol library. */

import { createConnection, ProposedFeatures } from 'vscode-languageserver/node';
import { readDisk } from './disk.ts';
import { startServer } from './server.ts';

const connection = createConnection(ProposedFeatures.all);
process.on('unhandledRejection', (reason) => connection.console.error(`Unhandled: ${String(reason)}`));
startServer(connection, { defer: setImmediate, disk: readDisk });
