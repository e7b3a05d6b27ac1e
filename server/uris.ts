import { URI } from 'vscode-uri';
import { encodeSegment } from '../language/semantics/name-index.ts';

/**
 * One spelling for all spellings of a URI, the one in which the language names used files: documents are found by it.
 * Text that is no URI stays as it is.
 */
export function keyOf(uri: string): string {
  try {
    // Half a surrogate pair becomes the replacement character, as `encodeSegment` has it.
    const parsed = URI.parse(uri.replace(/\p{Surrogate}/gu, '\ufffd'));
    const text = parsed.toString();
    const [origin = ''] = /^[^:]*:(?:\/\/[^/?#]*)?/.exec(text) ?? [];
    const [tail = ''] = /[?#].*$/.exec(text) ?? [];
    const path = parsed.path.replace(/^\/[A-Z]:/, (drive) => drive.toLowerCase());
    return origin + path.split('/').map(encodeSegment).join('/') + tail;
  } catch {
    return uri;
  }
}

/** The folder that a document stands in, as a key; undefined for documents that stand in none, such as untitled ones. */
export function folderOf(key: string): string | undefined {
  const slash = key.lastIndexOf('/');
  return slash < 0 ? undefined : key.slice(0, slash);
}

/** Whether a key lies below a folder by its name alone; symbolic links are another matter. */
export function isBelow(folder: string, key: string): boolean {
  const base = folder.endsWith('/') ? folder : `${folder}/`;
  return key.startsWith(base) && !key.split('/').includes('..');
}
