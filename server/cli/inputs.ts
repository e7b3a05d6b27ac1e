import { readdir, stat } from 'node:fs/promises';
import path from 'node:path';
import { glob, isDynamicPattern } from 'tinyglobby';
import { nearestName } from '../../language/semantics/nearest.ts';
import { errorCode } from '../files.ts';
import { listed } from './text.ts';

/** Something named on the command line, or used by a file, that cannot be had: exit code 2. */
export interface Problem {
  /** As named. */
  readonly input: string;
  /** What was found and what to do: one sentence. */
  readonly message: string;
}

export interface Inputs {
  /** Absolute paths, sorted, each once. */
  readonly files: readonly string[];
  readonly problems: readonly Problem[];
}

type Found = { readonly files: readonly string[] } | { readonly problem: string };

const EXTENSION = '.rig';
/** Folders that no search enters. */
const SKIPPED = ['**/node_modules/**', '**/.git/**'];

/**
 * The files that the arguments name. A folder stands for all `.rig` files below it, no argument for the current folder;
 * patterns take `*`, `**`, `?`, `[…]` and `{…,…}` and find `.rig` files only. Symbolic links to folders are not followed.
 */
export async function findInputs(named: readonly string[], cwd: string): Promise<Inputs> {
  const files = new Set<string>();
  const problems: Problem[] = [];
  for (const input of named.length === 0 ? ['.'] : named) {
    const found = await find(input, cwd);
    if ('problem' in found) problems.push({ input, message: found.problem });
    else for (const file of found.files) files.add(file);
  }
  return { files: [...files].sort(compare), problems };
}

async function find(input: string, cwd: string): Promise<Found> {
  if (input === '') return { problem: 'an empty file name; name a file, a folder or a pattern' };
  const file = path.resolve(cwd, input);
  const kind = await kindOf(file);
  if (kind === 'file') return { files: [file] };
  if (kind === 'folder') return findBelow(file);
  if (kind === 'missing') return isDynamicPattern(input) ? findMatching(input, cwd) : missing(file);
  return { problem: `it cannot be looked at (${kind.code}); check the permissions of its folder` };
}

async function kindOf(file: string): Promise<'file' | 'folder' | 'missing' | { readonly code: string }> {
  try {
    return (await stat(file)).isDirectory() ? 'folder' : 'file';
  } catch (error) {
    const code = errorCode(error);
    return ['ENOENT', 'ENOTDIR', 'ENAMETOOLONG', 'EINVAL', 'ERR_INVALID_ARG_VALUE'].includes(code)
      ? 'missing'
      : { code };
  }
}

async function findBelow(folder: string): Promise<Found> {
  const files = await search(`**/*${EXTENSION}`, folder);
  if (files.length > 0) return { files };
  return { problem: `the folder holds no ${EXTENSION} file, nor does any folder below it; name another one` };
}

async function findMatching(pattern: string, cwd: string): Promise<Found> {
  const matches = await search(process.platform === 'win32' ? pattern.replaceAll('\\', '/') : pattern, cwd);
  const files = matches.filter((file) => file.endsWith(EXTENSION));
  if (files.length > 0) return { files };
  if (matches.length === 0) return { problem: 'nothing matches this pattern; check it, and the folder you are in' };
  const others = matches.length === 1 ? 'one file, but it is not' : `${matches.length} files, but none of them is`;
  return { problem: `this pattern matches ${others} a ${EXTENSION} file; end it in *${EXTENSION}` };
}

async function search(pattern: string, folder: string): Promise<string[]> {
  const found = await glob(pattern, {
    cwd: folder,
    absolute: true,
    ignore: SKIPPED,
    followSymbolicLinks: false,
    expandDirectories: false,
  });
  return found.map((file) => path.resolve(file));
}

async function missing(file: string): Promise<Found> {
  const folder = path.dirname(file);
  const names = await filesIn(folder);
  if (names === undefined) return { problem: 'there is no such file or folder, nor the one above it; check the path' };
  const near = nearestName(path.basename(file), names);
  if (near !== undefined) return { problem: `there is no such file or folder; did you mean ${near}?` };
  const some = names.slice(0, 3);
  if (some.length === 0)
    return { problem: `there is no such file or folder, and its folder holds no ${EXTENSION} file` };
  return {
    problem: `there is no such file or folder; its folder holds ${listed(some)}${names.length > 3 ? ' and others' : ''}`,
  };
}

/** Names of the `.rig` files in a folder; undefined when there is no such folder. */
async function filesIn(folder: string): Promise<string[] | undefined> {
  try {
    return (await readdir(folder)).filter((name) => name.endsWith(EXTENSION)).sort(compare);
  } catch {
    return undefined;
  }
}

/** By code units: the same order on every machine. */
const compare = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);
