import { readFileSync } from 'node:fs';
import path from 'node:path';
import { globSync } from 'tinyglobby';
import { expect, test } from 'vitest';
import { analyse, completeDiagnostics, openDocument, type WorkspaceDocument } from '../../../language/index.ts';
import { type Fix, fixes } from '../../../language/services/index.ts';

const FOLDER = 'file:///fleet/';
const SAMPLES = new Map(
  globSync('**/*.rig', { cwd: 'samples' }).map((file) => [
    `${FOLDER}${file}`,
    readFileSync(path.join('samples', file), 'utf8'),
  ]),
);

function analysisOf(texts: ReadonlyMap<string, string>) {
  const documents = new Map<string, WorkspaceDocument>();
  for (const [uri, text] of texts) documents.set(uri, { kind: 'text', syntax: openDocument(text) });
  return analyse({ documents });
}

function applied({ edits }: Fix): ReadonlyMap<string, string> {
  const texts = new Map(SAMPLES);
  for (const { uri, start, end, text } of edits.toSorted((a, b) => b.start - a.start)) {
    const before = texts.get(uri) ?? '';
    texts.set(uri, before.slice(0, start) + text + before.slice(end));
  }
  return texts;
}

/** Findings on how files are written, by code, in all documents. */
function slips(texts: ReadonlyMap<string, string>): number {
  const analysis = analysisOf(texts);
  const all = [...texts.keys()].flatMap((uri) => analysis.diagnostics(uri));
  return all.filter(({ code, severity }) => severity === 'error' && code < 'RW500').length;
}

test('no quick fix on the samples makes a file worse written, and none is without effect', { timeout: 60_000 }, () => {
  const analysis = analysisOf(SAMPLES);
  const before = slips(SAMPLES);
  const offered = [...SAMPLES.keys()].flatMap((uri) =>
    completeDiagnostics(analysis, uri).flatMap(({ start, end }) => fixes(analysis, uri, { start, end })),
  );
  const different = new Map(offered.map((fix) => [fix.title, fix]));
  expect(different.size).toBeGreaterThan(3);
  for (const fix of different.values()) {
    const after = applied(fix);
    expect([...after.values()], fix.title).not.toEqual([...SAMPLES.values()]);
    expect(slips(after), fix.title).toBeLessThanOrEqual(before);
  }
});
