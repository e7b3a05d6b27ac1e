import { readFile, realpath, stat } from 'node:fs/promises';
import path from 'node:path';

/** What reading a `.rig` file from disk gives. `reason` says what was found and what to do, in one sentence part. */
export type RigFile =
  | { readonly kind: 'text'; readonly text: string }
  | { readonly kind: 'missing'; readonly reason: string }
  | { readonly kind: 'unreadable'; readonly reason: string };

/** Larger files are not read at all. Far above what the language analyses, so that this one has the last word. */
const MOST_BYTES = 64 * 1024 * 1024;

/** What the system's error codes mean for a file that was to be read. */
const REASONS: Readonly<Record<string, string>> = {
  EACCES: 'reading it is not permitted; check the permissions of the file and its folder',
  EPERM: 'reading it is not permitted; check the permissions of the file and its folder',
  ELOOP: 'its symbolic links lead in a circle',
  EMFILE: 'too many files are open',
  ENAMETOOLONG: 'its name is too long',
};
const MISSING = new Set(['ENOENT', 'ENOTDIR']);

/**
 * Reads a file as UTF-8. A byte order mark, line ends and NUL characters stay as they are, so that offsets in the text
 * are true. Never rejects.
 */
export async function readRigFile(file: string): Promise<RigFile> {
  try {
    const found = await stat(file);
    if (found.isDirectory()) return { kind: 'unreadable', reason: 'it is a folder' };
    if (!found.isFile()) return { kind: 'unreadable', reason: 'it is not a regular file' };
    if (found.size > MOST_BYTES) {
      const megabytes = Math.round(found.size / 1024 / 1024);
      return { kind: 'unreadable', reason: `it holds ${megabytes} MB; split it into files of a few megabytes` };
    }
    return decode(await readFile(file));
  } catch (error) {
    const code = errorCode(error);
    if (MISSING.has(code)) return { kind: 'missing', reason: 'there is no such file' };
    return { kind: 'unreadable', reason: REASONS[code] ?? `the system says ${code}` };
  }
}

function decode(bytes: Uint8Array): RigFile {
  try {
    return { kind: 'text', text: new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes) };
  } catch {
    return { kind: 'unreadable', reason: `it is not UTF-8 text: ${describeInvalid(bytes)}; save it as UTF-8` };
  }
}

/** Names the first bytes that are not UTF-8 and the line they stand in. */
function describeInvalid(bytes: Uint8Array): string {
  const [first, second] = bytes;
  if ((first === 0xff && second === 0xfe) || (first === 0xfe && second === 0xff)) {
    return 'it starts with the byte order mark of UTF-16';
  }
  const offset = firstInvalid(bytes);
  const line = bytes.subarray(0, offset).filter((byte) => byte === 10).length + 1;
  const found = (bytes[offset] ?? 0).toString(16).toUpperCase().padStart(2, '0');
  return `byte 0x${found} in line ${line}`;
}

/** Offset of the first byte of text that is not UTF-8: the first replacement character that the bytes do not spell. */
function firstInvalid(bytes: Uint8Array): number {
  const text = new TextDecoder('utf-8', { ignoreBOM: true }).decode(bytes);
  let offset = 0;
  for (const piece of text.split('\ufffd')) {
    offset += Buffer.byteLength(piece);
    if (bytes[offset] !== 0xef || bytes[offset + 1] !== 0xbf || bytes[offset + 2] !== 0xbd) break;
    offset += 3;
  }
  return offset;
}

/**
 * True when the path is the root or lies below it, with all symbolic links followed. Of a path that does not exist the
 * part that exists decides. Never rejects: what cannot be found out is not inside.
 */
export async function isInside(root: string, file: string): Promise<boolean> {
  try {
    const [base, target] = await Promise.all([realPath(root), realPath(file)]);
    const way = path.relative(base, target);
    return way === '' || !(way === '..' || way.startsWith(`..${path.sep}`) || path.isAbsolute(way));
  } catch {
    return false;
  }
}

/** The path with symbolic links followed as far as it exists. Rejects when the system refuses to tell. */
async function realPath(file: string): Promise<string> {
  try {
    return await realpath(file);
  } catch (error) {
    const parent = path.dirname(path.resolve(file));
    if (!MISSING.has(errorCode(error)) || parent === path.resolve(file)) throw error;
    return path.join(await realPath(parent), path.basename(file));
  }
}

/** The system's code of an error, `ENOENT` and the like. */
export function errorCode(error: unknown): string {
  return error instanceof Error && 'code' in error ? String(error.code) : String(error);
}
