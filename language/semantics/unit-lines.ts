import type { Declaration, Statement } from '../syntax/tree.ts';
import { nearestName } from './nearest.ts';
import { type Line, locate, report, type Scope } from './scope.ts';
import { specOf } from './specs.ts';

/** The lines that make up a unit; for a variant those of its original, replaced and left out as the variant says. */
export interface UnitLines {
  readonly kind: 'vehicle' | 'trailer';
  readonly lines: readonly Line[];
  readonly variantOf?: string;
}

/** Heads that do not replace the lines of the original but are read in addition. */
const ADDED: ReadonlySet<string> = new Set(['limits', 'require', 'rule']);

/** A variant of a variant of … deeper than this is not read. */
const MOST_ORIGINALS = 16;

/** Lines of a `vehicle`, `trailer` or `variant` declaration. Undefined when a variant's original cannot be found. */
export function unitLines(header: Line, scope: Scope, visited: readonly Declaration[] = []): UnitLines | undefined {
  const { statement } = header;
  const own = (statement.block?.statements ?? []).map((inner) => ({ ...header, statement: inner }));
  const head = statement.head.text;
  if (head === 'vehicle' || head === 'trailer') return { kind: head, lines: own };
  const name = statement.name?.text ?? '';
  const original = findOriginal(header, scope);
  if (original === undefined) return undefined;
  const location = locate(header, statement.name ?? statement.head);
  if (visited.includes(header.declaration)) {
    const names = [...visited, header.declaration].map((declaration) => declaration.statement?.name?.text ?? '');
    report(scope, 'name-cycle', { cycle: names.join(' → ') }, location);
    return undefined;
  }
  if (visited.length >= MOST_ORIGINALS) {
    const first = visited[0];
    const at =
      first?.statement === undefined
        ? location
        : locate({ declaration: first }, first.statement.name ?? first.statement.head);
    report(scope, 'chain-too-long', { name: first?.statement?.name?.text ?? name, most: MOST_ORIGINALS }, at);
    return undefined;
  }
  const base = unitLines(original, scope, [...visited, header.declaration]);
  if (base === undefined) return undefined;
  return {
    kind: base.kind,
    lines: mergeLines(base.lines, own, header, scope),
    variantOf: original.statement.name?.text ?? '',
  };
}

function findOriginal(header: Line, scope: Scope): Line | undefined {
  const { statement, uri } = header;
  const name = statement.name?.text ?? 'variant';
  const of = statement.arguments.find((argument) => argument.kind === 'references' && argument.keyword.text === 'of');
  const reference = of?.kind === 'references' ? of.references[0]?.reference : undefined;
  if (reference === undefined) {
    if (!statement.broken) {
      report(
        scope,
        'missing-part',
        { what: `variant ${name}`, part: 'the unit it varies', example: `variant ${name} of Hauler { … }` },
        locate(header, statement.name ?? statement.head),
      );
    }
    return undefined;
  }
  const wanted = reference.path.map(({ text }) => text).join('.');
  const found = scope.find(uri, wanted);
  if (found?.declaration.statement === undefined) {
    const nearest = nearestName(wanted, scope.visibleNames(uri));
    report(
      scope,
      'unknown-name',
      { name: wanted, wanted: 'vehicle or trailer', ...(nearest ? { nearest } : {}) },
      locate(header, reference),
    );
    return undefined;
  }
  const head = found.declaration.statement.head.text;
  if (head !== 'vehicle' && head !== 'trailer' && head !== 'variant') {
    report(
      scope,
      'wrong-kind',
      { name: wanted, found: article(head), wanted: 'a vehicle or a trailer' },
      locate(header, reference),
    );
    return undefined;
  }
  return { statement: found.declaration.statement, declaration: found.declaration, uri: found.uri };
}

/** `a trailer`, `an item`. */
export function article(noun: string): string {
  return `${/^[aeiou]/.test(noun) ? 'an' : 'a'} ${noun}`;
}

function lineKey({ head, name }: Statement): string {
  return `${synonymOf(head.text)} ${name?.text ?? ''}`;
}

function mergeLines(base: readonly Line[], own: readonly Line[], header: Line, scope: Scope): Line[] {
  const without = own.filter(({ statement }) => statement.head.text === 'without');
  const differing = own.filter(({ statement }) => statement.head.text !== 'without');
  let kept = base;
  let known = new Set(without.length > 0 ? kept.flatMap(namesOfLine) : []);
  for (const { statement } of without) {
    for (const { reference } of statement.objects) {
      const path = reference.path.map(({ text }) => text);
      const word = path.join('.');
      const left = known.has(word) || known.has(keywordAt(path)) ? removeLines(kept, path) : undefined;
      if (left !== undefined) {
        kept = left;
        known = new Set(kept.flatMap(namesOfLine));
      } else {
        const nearest = nearestName(word, known);
        report(
          scope,
          'unknown-name',
          { name: word, wanted: 'line of the original', ...(nearest ? { nearest } : {}) },
          locate(header, reference),
        );
      }
    }
  }
  const replacements = new Map(differing.map((line) => [lineKey(line.statement), line]));
  const merged: Line[] = [];
  const used = new Set<Line | undefined>();
  for (const line of kept) {
    const key = lineKey(line.statement);
    const replacement = ADDED.has(line.statement.head.text) ? undefined : replacements.get(key);
    if (replacement === undefined) merged.push(line);
    else if (!used.has(replacement)) {
      merged.push(replacement);
      used.add(replacement);
    }
  }
  return [...merged, ...differing.filter((line) => !used.has(line))];
}

/** Names by which `without` can take a line or a part of a group away. */
function namesOfLine({ statement: { head, name, block } }: Pick<Line, 'statement'>): string[] {
  const own = name?.text ?? head.text;
  const keyword = synonymOf(head.text);
  const parts = head.text === 'group' ? (block?.statements ?? []) : [];
  return [
    own,
    head.text,
    keyword,
    ...parts.flatMap((statement) => namesOfLine({ statement }).map((part) => `${own}.${part}`)),
  ];
}

/** The keyword that a word may stand for: `tare` for `kerb`. */
function synonymOf(word: string): string {
  return specOf('variant', word)?.keyword ?? word;
}

/** A path with the keyword that its last word may stand for. */
function keywordAt(path: readonly string[]): string {
  return [...path.slice(0, -1), ...path.slice(-1).map(synonymOf)].join('.');
}

/** The lines without those that a path names; inside groups for a path of several words. Undefined when none is named. */
function removeLines(lines: readonly Line[], [first = '', ...others]: readonly string[]): readonly Line[] | undefined {
  if (others.length === 0) {
    const keyword = synonymOf(first);
    const left = lines.filter(
      ({ statement: { head, name } }) => name?.text !== first && synonymOf(head.text) !== keyword,
    );
    return left.length < lines.length ? left : undefined;
  }
  let found = false;
  const left = lines.map((line) => {
    const { statement } = line;
    if (statement.head.text !== 'group' || statement.name?.text !== first || statement.block === undefined) return line;
    const inner = statement.block.statements.map((part) => ({ ...line, statement: part }));
    const parts = removeLines(inner, others);
    if (parts === undefined) return line;
    found = true;
    const block = { ...statement.block, statements: parts.map((part) => part.statement) };
    return { ...line, statement: { ...statement, block } };
  });
  return found ? left : undefined;
}
