import { mkdir, mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { onTestFinished } from 'vitest';
import { run } from '../../../server/cli/args.ts';
import type { Terminal } from '../../../server/cli/terminal.ts';

export type Files = Readonly<Record<string, string | Uint8Array>>;

/** A new folder with these files, by their paths with `/`; removed when the test ends. */
export async function folderWith(files: Files): Promise<string> {
  const folder = await mkdtemp(path.join(tmpdir(), 'rigwright-'));
  onTestFinished(() => rm(folder, { recursive: true, force: true }));
  for (const [name, content] of Object.entries(files)) {
    const file = path.join(folder, name);
    await mkdir(path.dirname(file), { recursive: true });
    await writeFile(file, content);
  }
  return folder;
}

export interface Outcome {
  readonly code: number;
  readonly out: string;
  readonly error: string;
}

export interface Surroundings {
  readonly isTerminal?: boolean;
  readonly columns?: number;
  readonly environment?: Terminal['environment'];
}

/** Runs the command line in a folder, as if its output went to a pipe unless said otherwise. */
export async function rigwright(
  cwd: string,
  args: readonly string[],
  { isTerminal = false, columns, environment = {} }: Surroundings = {},
): Promise<Outcome> {
  let out = '';
  let error = '';
  const code = await run(args, {
    cwd,
    environment,
    out: {
      isTerminal,
      columns,
      write: (text) => {
        out += text;
      },
    },
    error: {
      isTerminal,
      columns,
      write: (text) => {
        error += text;
      },
    },
  });
  return { code, out, error };
}
