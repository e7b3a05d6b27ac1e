/** The pages of documentation that are made from the language's own tables. Pure: Markdown text, no files. */

import { diagnosticIndex, diagnosticPages } from './diagnostic-pages.ts';
import { languageReference } from './language-page.ts';

export { diagnosticIndex, diagnosticPages, languageReference };

/** Every page by its path inside the folder of pages, with `/` between folders. */
export function referencePages(): ReadonlyMap<string, string> {
  return new Map([
    ['language.md', languageReference()],
    ['diagnostics/index.md', diagnosticIndex()],
    ...[...diagnosticPages()].map(([number, page]) => [`diagnostics/${number}.md`, page] as const),
  ]);
}
