#!/usr/bin/env node
import { run } from './args.ts';
import type { Output } from './terminal.ts';

function output(stream: NodeJS.WriteStream): Output {
  // A reader that has seen enough, such as `head`, closes the pipe: that is no failure.
  stream.on('error', (error: NodeJS.ErrnoException) => {
    if (error.code !== 'EPIPE') throw error;
    process.exit();
  });
  return {
    write: (text) => {
      stream.write(text);
    },
    isTerminal: stream.isTTY === true,
    columns: stream.columns,
  };
}

run(process.argv.slice(2), {
  cwd: process.cwd(),
  environment: process.env,
  out: output(process.stdout),
  error: output(process.stderr),
}).then(
  // Not process.exit: what was written may still be on its way to a pipe.
  (code) => {
    process.exitCode = code;
  },
  (error: unknown) => {
    process.stderr.write(
      `rigwright: internal error, please report it: ${error instanceof Error ? error.stack : error}\n`,
    );
    process.exitCode = 70; // EX_SOFTWARE of sysexits.h
  },
);
