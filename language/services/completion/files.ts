import type { Analysis } from '../../semantics/analysis.ts';
import type { CaretInText } from './caret.ts';
import type { CompletionEntry } from './entry.ts';

/** Documents of the workspace that a `use` may name, as paths relative to the document it stands in. */
export function fileEntries(analysis: Analysis, uri: string, { start, end }: CaretInText): readonly CompletionEntry[] {
  const folder = uri.slice(0, uri.lastIndexOf('/') + 1);
  const entries: CompletionEntry[] = [];
  for (const [other, document] of analysis.workspace.documents) {
    if (other === uri || document.kind !== 'text') continue;
    const label = relativePath(folder, other);
    if (label !== undefined) entries.push({ label, kind: 'file', detail: 'file of the workspace', start, end });
  }
  return entries;
}

/** Path from a folder to a document of the same authority; undefined where there is none. */
function relativePath(folder: string, uri: string): string | undefined {
  const from = folder.split('/').slice(0, -1);
  const to = uri.split('/');
  let common = 0;
  while (common < from.length && common < to.length - 1 && from[common] === to[common]) common++;
  // Scheme and authority are the first three parts.
  if (common < 3) return undefined;
  return [...from.slice(common).map(() => '..'), ...to.slice(common).map(decodeURIComponentSafely)].join('/');
}

function decodeURIComponentSafely(text: string): string {
  try {
    return decodeURIComponent(text);
  } catch {
    return text;
  }
}
