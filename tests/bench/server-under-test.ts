/** A server process, spoken to over stdio, with the clock running. */

import { type ChildProcess, execFileSync, spawn } from 'node:child_process';
import { once } from 'node:events';
import { readFileSync } from 'node:fs';
import type { Position, ProtocolConnection, PublishDiagnosticsParams } from 'vscode-languageserver/node';
import { createProtocolConnection, StreamMessageReader, StreamMessageWriter } from 'vscode-languageserver/node';

/** All times in milliseconds. */
export interface ServerUnderTest {
  /** From the start of the process to the answer to `initialize`. */
  readonly initializeTime: number;
  /** Opens a document; the time until its diagnostics are there. */
  open(uri: string, text: string): Promise<number>;
  /** Replaces `length` characters at a position on one line; the time until the diagnostics of the new version are there. */
  edit(uri: string, version: number, at: Position, length: number, text: string): Promise<number>;
  hover(uri: string, position: Position): Promise<number>;
  close(uri: string): Promise<void>;
  /** Resident memory in bytes. */
  memory(): number;
  stop(): Promise<void>;
}

export async function startServerUnderTest(script: string): Promise<ServerUnderTest> {
  const started = performance.now();
  const child = spawn(process.execPath, [script, '--stdio'], { stdio: ['pipe', 'pipe', 'inherit'] });
  const connection = createProtocolConnection(
    new StreamMessageReader(child.stdout),
    new StreamMessageWriter(child.stdin),
  );
  let arrived: (params: PublishDiagnosticsParams) => void = () => undefined;
  connection.onNotification('textDocument/publishDiagnostics', (params: PublishDiagnosticsParams) => arrived(params));
  let faults = '';
  connection.onNotification('window/logMessage', ({ message }: { message: string }) => {
    faults += `\n${message}`;
  });
  connection.listen();
  await connection.sendRequest('initialize', { processId: process.pid, rootUri: null, capabilities: {} });
  const initializeTime = performance.now() - started;
  await connection.sendNotification('initialized', {});

  /** Sends, and measures until diagnostics for the version arrive. */
  function untilPublished(uri: string, version: number, method: string, params: object): Promise<number> {
    return new Promise((resolve, reject) => {
      const timer = setTimeout(
        () => reject(new Error(`${script}: no diagnostics for version ${version}${faults}`)),
        30_000,
      );
      const sent = performance.now();
      arrived = (published) => {
        if (published.uri !== uri || published.version !== version) return;
        clearTimeout(timer);
        resolve(performance.now() - sent);
      };
      connection.sendNotification(method, params).catch(reject);
    });
  }

  return {
    initializeTime,
    open: (uri, text) =>
      untilPublished(uri, 1, 'textDocument/didOpen', { textDocument: { uri, languageId: 'rig', version: 1, text } }),
    edit: (uri, version, start, length, text) => {
      const range = { start, end: { line: start.line, character: start.character + length } };
      const params = { textDocument: { uri, version }, contentChanges: [{ range, text }] };
      return untilPublished(uri, version, 'textDocument/didChange', params);
    },
    hover: async (uri, position) => {
      const sent = performance.now();
      await connection.sendRequest('textDocument/hover', { textDocument: { uri }, position });
      return performance.now() - sent;
    },
    close: (uri) => connection.sendNotification('textDocument/didClose', { textDocument: { uri } }),
    memory: () => residentMemory(child),
    stop: () => stop(connection, child),
  };
}

async function stop(connection: ProtocolConnection, child: ChildProcess): Promise<void> {
  const ended = once(child, 'exit');
  await connection.sendRequest('shutdown');
  await connection.sendNotification('exit');
  await ended;
  connection.dispose();
}

function residentMemory({ pid }: ChildProcess): number {
  if (process.platform === 'linux') {
    const [, kilobytes] = /^VmRSS:\s+(\d+) kB$/m.exec(readFileSync(`/proc/${pid}/status`, 'utf8')) ?? [];
    return Number(kilobytes) * 1024;
  }
  return Number(execFileSync('ps', ['-o', 'rss=', '-p', String(pid)], { encoding: 'utf8' })) * 1024;
}
