import type { Analysis, Diagnostic } from '../../semantics/analysis.ts';
import type { RigResult } from '../../semantics/state.ts';
import type { Declaration, Span, Statement } from '../../syntax/tree.ts';

/** A change of the text of one document, in absolute UTF-16 offsets. */
export interface FixEdit {
  readonly uri: string;
  readonly start: number;
  readonly end: number;
  readonly text: string;
}

/** An edit that mends a finding, or adds what a line lacks. */
export interface Fix {
  /** What it does and what comes of it, in one line. */
  readonly title: string;
  /** In one document or several; they do not overlap. */
  readonly edits: readonly FixEdit[];
  /** What it mends; absent where it adds something. */
  readonly diagnostic?: Diagnostic;
  /** True where there is no doubt that it is what the author wants. */
  readonly preferred?: true;
  /** Present where nothing is mended: the same, written otherwise. */
  readonly kind?: 'rewrite';
}

/** What mends one finding; empty where nothing sure is known. */
export type Fixer = (analysis: Analysis, uri: string, diagnostic: Diagnostic) => readonly Fix[];

/** The rig, or the unit looked at alone, whose declaration holds an offset. */
export function resultAt(analysis: Analysis, uri: string, offset: number): RigResult | undefined {
  const entity = analysis.entityAt(uri, offset)?.entity;
  return entity?.kind === 'rig' || entity?.kind === 'unit' ? entity.result : undefined;
}

/** An edit of the text of a declaration; undefined where the declaration is not at hand. */
export function editOf(analysis: Analysis, declaration: Declaration, span: Span, text: string): FixEdit | undefined {
  const place = analysis.absolute({ declaration, span });
  return place && { ...place, text };
}

/** The innermost statement of a declaration that holds a span. */
export function statementOf({ statement }: Declaration, { start, end }: Span): Statement | undefined {
  const holds = (span: Span) => span.start <= start && end <= span.end;
  if (statement === undefined || !holds(statement)) return undefined;
  let innermost = statement;
  for (;;) {
    const inner = innermost.block?.statements.find(holds);
    if (inner === undefined) return innermost;
    innermost = inner;
  }
}

/** The blanks that the line of an offset starts with. */
export function indentAt(text: string, offset: number): string {
  const line = text.slice(text.lastIndexOf('\n', offset - 1) + 1, offset);
  return /^[ \t]*/.exec(line)?.[0] ?? '';
}
