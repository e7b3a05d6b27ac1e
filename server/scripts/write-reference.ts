// Writes the pages of language/reference/pages/ from the language's tables, and removes pages that no longer exist.
import { mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { referencePages } from '../../language/reference/index.ts';

const FOLDER = path.join(import.meta.dirname, '../../language/reference/pages');

const pages = referencePages();
mkdirSync(path.join(FOLDER, 'diagnostics'), { recursive: true });
const present = readdirSync(FOLDER, { recursive: true, encoding: 'utf8' })
  .map((file) => file.replaceAll(path.sep, '/'))
  .filter((file) => file.endsWith('.md'));

const stale = present.filter((file) => !pages.has(file));
for (const file of stale) rmSync(path.join(FOLDER, file));

const changed = [...pages].filter(
  ([file, text]) => !present.includes(file) || readFileSync(path.join(FOLDER, file), 'utf8') !== text,
);
for (const [file, text] of changed) writeFileSync(path.join(FOLDER, file), text);

console.log(`${pages.size} pages: ${changed.length} written, ${stale.length} removed.`);
