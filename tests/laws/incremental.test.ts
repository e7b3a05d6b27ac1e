import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type Analysis,
  analyse,
  type DocumentSyntax,
  editDocument,
  openDocument,
  type Workspace,
  type WorkspaceDocument,
} from '../../language/index.ts';
import type { Level } from '../../language/levels/level.ts';
import { uriOf } from '../unit/semantics/support.ts';
import { apply, FILES, fit, type RandomEdit, randomEdit } from './rig-texts.ts';

const START = Object.values(FILES).join('\n');

/** Everything of a document but the identity of its declarations. */
const contentOf = ({ text, declarations, conflict, tooLong }: DocumentSyntax) => ({
  text,
  conflict,
  tooLong,
  declarations: declarations.map(({ start, declaration }) => ({ start, declaration })),
});

describe('an edited document', { timeout: 30_000 }, () => {
  it('equals the document opened anew, after each of many edits', () => {
    fc.assert(
      fc.property(fc.array(randomEdit, { minLength: 1, maxLength: 40 }), (edits) => {
        let document = openDocument(START);
        for (const random of edits) {
          const edit = fit(random, document.text);
          const text = apply(document.text, edit);
          document = editDocument(document, edit);
          const anew = openDocument(text);
          expect(document.declarations.map(({ start }) => start)).toEqual(anew.declarations.map(({ start }) => start));
          expect(document.declarations.map(({ declaration }) => declaration.text).join('')).toBe(text);
        }
        expect(contentOf(document)).toEqual(contentOf(openDocument(document.text)));
      }),
      { numRuns: 80, seed: 7 },
    );
  });

  it('keeps the declarations that the edit does not touch', () => {
    const document = openDocument(START);
    document.declarations.forEach(({ start, declaration }, index) => {
      const at = start + declaration.text.length - 1;
      const edited = editDocument(document, { start: at, end: at, text: ' ' });
      const kept = new Set(document.declarations.map((placed) => placed.declaration));
      const fresh = edited.declarations.flatMap((placed, position) => (kept.has(placed.declaration) ? [] : [position]));
      expect(fresh).toEqual([index]);
    });
  });

  it('keeps everything far from a random edit that leaves the text around it alone', () => {
    fc.assert(
      fc.property(randomEdit, (random) => {
        const document = openDocument(START);
        const edit = fit(random, START);
        const edited = editDocument(document, edit);
        if (edited.conflict) return;
        const before = document.declarations.filter(
          ({ start, declaration }) => start + declaration.text.length < edit.start - 1,
        );
        // The one directly before the edit may gain or lose lines.
        before.slice(0, -1).forEach(({ declaration }, index) => {
          expect(edited.declarations[index]?.declaration).toBe(declaration);
        });
      }),
      { numRuns: 200, seed: 11 },
    );
  });
});

type Step =
  | { readonly kind: 'edit'; readonly file: string; readonly edit: RandomEdit }
  | { readonly kind: 'replace'; readonly file: string; readonly from: string; readonly to: string }
  | { readonly kind: 'remove' | 'restore' | 'unreadable'; readonly file: string }
  | { readonly kind: 'ask'; readonly file: string }
  | { readonly kind: 'levels'; readonly levels: Workspace['levels'] };

const file = fc.constantFrom(...Object.keys(FILES), 'other.rig');

/** Renamings and changes of what others depend on. */
const REPLACEMENTS: readonly (readonly [string, string, string])[] = [
  ['items.rig', 'item bottle', 'item flask'],
  ['items.rig', 'item flask', 'item bottle'],
  ['items.rig', '17.5 kg', '21 kg'],
  ['items.rig', 'let spare', 'let axle_line'],
  ['items.rig', 'let spare = 3 kg', 'let spare = depth'],
  ['items.rig', 'fluid brine 1.15 kg/L', 'fluid brine 1150 bananas'],
  ['units.rig', 'trailer Hauler', 'trailer Haulage'],
  ['units.rig', 'trailer Haulage', 'trailer Hauler'],
  ['units.rig', 'axle_line = 2600 mm', 'axle_line = 2700 mm'],
  ['units.rig', 'axle_line = 2700 mm', 'axle_line = spare'],
  ['units.rig', 'use "items.rig"', 'use "other.rig"'],
  ['units.rig', 'use "items.rig"', 'use "main.rig"'],
  ['units.rig', 'use "main.rig"', 'use "items.rig"'],
  ['units.rig', 'locker bed', 'locker bunk'],
  ['units.rig', 'vehicle Truck', 'vehicle Hauler'],
  ['main.rig', 'use "items.rig"\nuse "units.rig"', 'use "units.rig"\nuse "items.rig"'],
  ['main.rig', 'use "units.rig"', 'use "units.rig" # again'],
  ['main.rig', 'use "units.rig"', ''],
  ['main.rig', 'depth = 300 mm', 'depth = wide'],
  ['main.rig', 'depth = wide', 'depth = 300 mm'],
  ['main.rig', 'variant Long of Hauler', 'variant Long of Long'],
  ['main.rig', 'variant Long', 'variant Hauler'],
  ['main.rig', '2 x bottle', '40 x bottle'],
  ['main.rig', 'let depth', 'item axle_line'],
  ['main.rig', 'rule RW602 off', 'rule RW531 off'],
  ['main.rig', 'rule RW531 off', 'rule RW602, RW502 error'],
  ['main.rig', 'rule RW603, RW801 warning', 'rule RW531, RW502 off'],
  ['main.rig', 'rule RW531, RW502 off', 'rule RW603, RW801 warning'],
  ['units.rig', 'rule RW531 off "known"', 'rule RW602 off'],
  ['units.rig', 'rule RW602 off', 'rule RW531 off "known"'],
];

const outside = (folder: string, code: string, level: Level): Workspace['levels'] => [
  { folder, levels: new Map([[code, { code, level, reason: 'outside', origin: 'workspace file' }]]) },
];

/** Levels stated outside the documents. */
const OUTSIDE: readonly Workspace['levels'][] = [
  undefined,
  outside('', 'RW531', 'off'),
  outside('file:///yard', 'RW531', 'error'),
  outside('file:///elsewhere', 'RW531', 'off'),
];

const step: fc.Arbitrary<Step> = fc.oneof(
  { weight: 4, arbitrary: fc.record({ kind: fc.constant('edit' as const), file, edit: randomEdit }) },
  {
    weight: 5,
    arbitrary: fc
      .constantFrom(...REPLACEMENTS)
      .map(([name, from, to]): Step => ({ kind: 'replace', file: name, from, to })),
  },
  { weight: 2, arbitrary: fc.record({ kind: fc.constantFrom('remove', 'restore', 'restore', 'unreadable'), file }) },
  fc.record({ kind: fc.constant('ask' as const), file }),
  fc.record({ kind: fc.constant('levels' as const), levels: fc.constantFrom(...OUTSIDE) }),
);

function textAfter(text: string, { from, to }: { from: string; to: string }): string | undefined {
  const at = text.indexOf(from);
  return at < 0 ? undefined : text.slice(0, at) + to + text.slice(at + from.length);
}

function take(documents: ReadonlyMap<string, WorkspaceDocument>, step: Step): Map<string, WorkspaceDocument> {
  if (step.kind === 'levels') return new Map(documents);
  const uri = uriOf(step.file);
  const next = new Map(documents);
  const document = documents.get(uri);
  if (step.kind === 'remove') next.set(uri, { kind: 'missing' });
  else if (step.kind === 'unreadable') next.set(uri, { kind: 'unreadable' });
  else if (step.kind === 'restore') {
    next.set(uri, {
      kind: 'text',
      syntax: openDocument(FILES[step.file] ?? 'item awning 3 kg\nlet axle_line = 2 m\n'),
    });
  } else if (document?.kind === 'text' && step.kind === 'edit') {
    next.set(uri, { kind: 'text', syntax: editDocument(document.syntax, fit(step.edit, document.syntax.text)) });
  } else if (document?.kind === 'text' && step.kind === 'replace') {
    const start = document.syntax.text.indexOf(step.from);
    if (textAfter(document.syntax.text, step) !== undefined) {
      const edit = { start, end: start + step.from.length, text: step.to };
      next.set(uri, { kind: 'text', syntax: editDocument(document.syntax, edit) });
    }
  }
  return next;
}

/** Declarations by their text, maps by their entries: trees hanging on every location would take long to compare. */
function plain(key: string, value: unknown): unknown {
  if (key === 'declaration') return value instanceof Object && 'text' in value ? value.text : value;
  if (value instanceof Map) return [...value];
  return value instanceof Set ? [...value] : value;
}

/** What an analysis says of every document, as one text. */
function told(analysis: Analysis): string {
  const documents = [...analysis.workspace.documents.keys()].map((uri) => ({
    uri,
    diagnostics: analysis.diagnostics(uri),
    turnedOff: analysis.turnedOff(uri),
    entities: analysis.entities(uri).map(({ start, entity }) => {
      if (entity === undefined) return { start };
      if (entity.kind !== 'unit' && entity.kind !== 'rig') return { start, entity };
      const { result, ...said } = entity;
      const states = result.states.map(({ label, quantities, sources }) => ({
        label,
        masses: sources.map(({ mass, centre, unit, id }) => ({ mass, centre, unit, name: id.name })),
        values: [...quantities].map(([name, { value }]) => [name, value]),
      }));
      return { start, said, states, assumptions: result.assumptions };
    }),
    names: analysis.names(uri).map(({ name, uri: home, start }) => [name, home, start]),
  }));
  return JSON.stringify(documents, plain, 1);
}

/** The same workspace, every document opened anew. */
function anew({ workspace }: Analysis): Analysis {
  const documents = new Map<string, WorkspaceDocument>();
  for (const [uri, document] of workspace.documents)
    documents.set(
      uri,
      document.kind === 'text' ? { kind: 'text', syntax: openDocument(document.syntax.text) } : document,
    );
  return analyse({ ...workspace, documents });
}

const opened = (): Map<string, WorkspaceDocument> =>
  new Map(Object.entries(FILES).map(([name, text]) => [uriOf(name), { kind: 'text', syntax: openDocument(text) }]));

describe('an analysis with the one before', { timeout: 30_000 }, () => {
  it('equals a full analysis, after each of many steps', () => {
    fc.assert(
      fc.property(fc.array(step, { minLength: 1, maxLength: 15 }), (steps) => {
        let documents = opened();
        let analysis = analyse({ documents });
        let levels: Workspace['levels'];
        expect(told(analysis)).toBe(told(anew(analysis)));
        for (const one of steps) {
          documents = take(documents, one);
          if (one.kind === 'levels') levels = one.levels;
          analysis = analyse({ documents, ...(levels ? { levels } : {}) }, analysis);
          if (one.kind === 'ask') analysis.diagnostics(uriOf(one.file));
          else if (one.kind !== 'edit' || one.edit.length === 0) expect(told(analysis)).toBe(told(anew(analysis)));
        }
        expect(told(analysis)).toBe(told(anew(analysis)));
      }),
      { numRuns: 35, seed: 5 },
    );
  });

  it('does not depend on which document is asked about first', () => {
    fc.assert(
      fc.property(fc.array(step, { maxLength: 8 }), (steps) => {
        const documents = steps.reduce(take, opened());
        const forward = analyse({ documents });
        const backward = analyse({ documents });
        const uris = [...documents.keys()];
        const asked = (analysis: Analysis, order: readonly string[]) =>
          new Map(order.map((uri) => [uri, analysis.diagnostics(uri)]));
        const one = asked(forward, uris);
        const other = asked(backward, uris.toReversed());
        for (const uri of uris) expect(one.get(uri)).toEqual(other.get(uri));
      }),
      { numRuns: 50, seed: 3 },
    );
  });

  it('keeps what nothing reached: the same entity objects', () => {
    const documents = opened();
    const before = analyse({ documents });
    const entities = before.entities(uriOf('main.rig'));
    const changed = take(documents, { kind: 'replace', file: 'items.rig', from: 'let spare', to: 'let spares' });
    const after = analyse({ documents: changed }, before);
    expect(after.entities(uriOf('main.rig')).map(({ entity }) => entity)).toEqual(entities.map(({ entity }) => entity));
    after.entities(uriOf('main.rig')).forEach(({ entity }, index) => {
      if (entity?.kind === 'rig') expect(entity).toBe(entities[index]?.entity);
    });
  });
});
