import { describe, expect, it } from 'vitest';
import { type Analysis, analyse, editDocument, openDocument, type WorkspaceDocument } from '../../../language/index.ts';
import { fail, MAIN, uriOf, workspaceOf } from './support.ts';

type Documents = ReadonlyMap<string, WorkspaceDocument>;

const keysOf = (analysis: Analysis, uri = MAIN) => analysis.diagnostics(uri).map(({ key }) => key);

/** The documents with one text of one of them replaced, as an edit does it. */
function edited(documents: Documents, uri: string, from: string, to: string): Documents {
  const document = documents.get(uri);
  if (document?.kind !== 'text') return fail(`${uri} has no text`);
  const start = document.syntax.text.indexOf(from);
  if (start < 0) return fail(`${from} is not in ${uri}`);
  const syntax = editDocument(document.syntax, { start, end: start + from.length, text: to });
  return new Map([...documents, [uri, { kind: 'text', syntax }]]);
}

/** Diagnostics of a document equal those of an analysis from nothing. */
function expectAsFromNothing(analysis: Analysis, uri = MAIN): void {
  const anew = new Map<string, WorkspaceDocument>();
  for (const [name, document] of analysis.workspace.documents) {
    const { kind } = document;
    anew.set(name, kind === 'text' ? { kind, syntax: openDocument(document.syntax.text) } : document);
  }
  expect(analysis.diagnostics(uri)).toEqual(analyse({ documents: anew }).diagnostics(uri));
}

describe('results kept from the version before', () => {
  it('a name that moves from one file to another is a clash of what is used', () => {
    const files = { 'main.rig': 'use "one.rig"\nuse "two.rig"\nitem x 3 kg\n', 'one.rig': 'item x 3 kg\n' };
    const { documents } = workspaceOf({ ...files, 'two.rig': 'item y 3 kg\n' });
    const first = analyse({ documents });
    expect(keysOf(first)).toEqual(['duplicate-name']);
    const without = edited(documents, MAIN, 'item x 3 kg\n', '');
    const second = analyse({ documents: without }, first);
    const third = analyse({ documents: edited(without, uriOf('two.rig'), 'item y', 'item x 1 kg\nitem y') }, second);
    expect(keysOf(third)).toEqual(['duplicate-name']);
    expectAsFromNothing(third);
  });

  it('a document that goes and comes back, here or elsewhere, is looked at anew', () => {
    const { documents } = workspaceOf({ 'main.rig': 'let a = b\n' });
    const document = documents.get(MAIN) ?? fail('no document');
    const first = analyse({ documents });
    expect(keysOf(first)).toEqual(['unknown-name']);
    const gone = analyse({ documents: new Map() }, first);
    const back = analyse({ documents }, gone);
    expect(keysOf(back)).toEqual(['unknown-name']);
    const moved = analyse({ documents: new Map([[uriOf('other.rig'), document]]) }, back);
    expect(keysOf(moved, uriOf('other.rig'))).toEqual(['unknown-name']);
  });

  it('documents that change places are looked at anew', () => {
    const { documents } = workspaceOf({ 'main.rig': 'let a = b\n', 'other.rig': 'let c = d\n' });
    const other = uriOf('other.rig');
    const first = analyse({ documents });
    expect([keysOf(first), keysOf(first, other)]).toEqual([['unknown-name'], ['unknown-name']]);
    const one = documents.get(MAIN) ?? fail('no document');
    const two = documents.get(other) ?? fail('no document');
    const swapped = analyse({ documents: new Map([...documents, [MAIN, two], [other, one]]) }, first);
    for (const uri of [MAIN, other]) {
      expect(keysOf(swapped, uri)).toEqual(['unknown-name']);
      expectAsFromNothing(swapped, uri);
    }
  });

  it('one text in two places reads in each the files beside it', () => {
    const syntax = openDocument('use "b.rig"\nlet a = b\n');
    const places = ['one/m.rig', 'two/m.rig'].map(uriOf);
    const documents = new Map<string, WorkspaceDocument>([
      ...places.map((uri) => [uri, { kind: 'text', syntax }] as const),
      [uriOf('one/b.rig'), { kind: 'text', syntax: openDocument('let b = 3 m\n') }],
      [uriOf('two/b.rig'), { kind: 'text', syntax: openDocument('let b = 4 m\n') }],
    ]);
    const analysis = analyse({ documents });
    const values = places.map((uri) => {
      const entity = analysis.entities(uri)[1]?.entity;
      return entity?.kind === 'let' ? entity.quantity.value : undefined;
    });
    expect(values).toEqual([3, 4]);
  });

  it('an edit in a used file gives and takes names that others ask for', () => {
    const items = uriOf('items.rig');
    let { documents }: { documents: Documents } = workspaceOf({
      'main.rig': 'use "items.rig"\nlet a = depth\n',
      'items.rig': 'let width = 1 m\n',
    });
    let analysis = analyse({ documents });
    const steps: readonly (readonly [string, string, readonly string[]])[] = [
      ['let width', 'let depth = 3 m\nlet width', []],
      ['let depth', 'let depths', ['unknown-name']],
      ['let depths', 'let depth', []],
      ['let depth = 3 m\n', '', ['unknown-name']],
    ];
    expect(keysOf(analysis)).toEqual(['unknown-name']);
    for (const [from, to, keys] of steps) {
      documents = edited(documents, items, from, to);
      analysis = analyse({ documents }, analysis);
      expect(keysOf(analysis)).toEqual(keys);
      expectAsFromNothing(analysis);
    }
  });
});
