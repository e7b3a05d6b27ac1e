import type { Fixer } from './fix.ts';

/** Writes what the finding names as the nearest in the place of what is shown. */
export const replaceByNearest: Fixer = (analysis, uri, diagnostic) => {
  const { start, end, replacement } = diagnostic;
  const document = analysis.workspace.documents.get(uri);
  if (replacement === undefined || document?.kind !== 'text') return [];
  const written = document.syntax.text.slice(start, end);
  const edits = [{ uri, start, end, text: replacement }];
  return [{ title: `Replace '${written}' by '${replacement}'`, edits, diagnostic, preferred: true }];
};
