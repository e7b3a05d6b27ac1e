import type { Statement } from '../syntax/tree.ts';
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
const ADDED: ReadonlySet<string> = new Set(['limits', 'require']);

/** Lines of a `vehicle`, `trailer` or `variant` declaration. Undefined when a variant's original cannot be found. */
export function unitLines(header: Line, scope: Scope, visited: readonly string[] = []): UnitLines | undefined {
  const { statement } = header;
  const own = (statement.block?.statements ?? []).map((inner) => ({ ...header, statement: inner }));
  const head = statement.head.text;
  if (head === 'vehicle' || head === 'trailer') return { kind: head, lines: own };
  const name = statement.name?.text ?? '';
  const original = findOriginal(header, scope);
  if (original === undefined) return undefined;
  if (visited.includes(name)) {
    report(
      scope,
      'name-cycle',
      { cycle: [...visited, name].join(' → ') },
      locate(header, statement.name ?? statement.head),
    );
    return undefined;
  }
  const base = unitLines(original, scope, [...visited, name]);
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
  const keyword = (specOf('variant', head.text)?.keyword ?? head.text).toString();
  return `${keyword} ${name?.text ?? ''}`;
}

function mergeLines(base: readonly Line[], own: readonly Line[], header: Line, scope: Scope): Line[] {
  const without = own.filter(({ statement }) => statement.head.text === 'without');
  const differing = own.filter(({ statement }) => statement.head.text !== 'without');
  const removed = new Set<string>();
  for (const { statement } of without) {
    for (const { reference } of statement.objects) {
      const word = reference.path.map(({ text }) => text).join('.');
      const known = base.flatMap(({ statement: { head, name } }) => [head.text, ...(name ? [name.text] : [])]);
      if (known.includes(word)) removed.add(word);
      else {
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
  const kept = base.filter(
    ({ statement: { head, name } }) => !removed.has(name?.text ?? head.text) && !removed.has(head.text),
  );
  const replacements = new Map(differing.map((line) => [lineKey(line.statement), line]));
  const merged: Line[] = [];
  const used = new Set<string>();
  for (const line of kept) {
    const key = lineKey(line.statement);
    const replacement = ADDED.has(line.statement.head.text) ? undefined : replacements.get(key);
    if (replacement === undefined) merged.push(line);
    else if (!used.has(key)) {
      merged.push(replacement);
      used.add(key);
    }
  }
  return [...merged, ...differing.filter((line) => !used.has(lineKey(line.statement)))];
}
