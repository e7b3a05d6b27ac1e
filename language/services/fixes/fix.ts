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

/** An edit of the text of a declaration, with line ends as it has them; undefined where the declaration is not at hand. */
export function editOf(analysis: Analysis, declaration: Declaration, span: Span, text: string): FixEdit | undefined {
  const place = analysis.absolute({ declaration, span });
  const lineEnd = declaration.text.includes('\r\n') ? '\r\n' : '\n';
  return place && { ...place, text: text.replace(/\r?\n/g, lineEnd) };
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

/** What a line within a block is indented by beyond the line of the block: a tab where that has one, or else two blanks. */
export function indentStep(indent: string): string {
  return indent.includes('\t') ? '\t' : '  ';
}

/** Text to be inserted at an offset of a declaration. */
export interface Insertion {
  readonly offset: number;
  readonly text: string;
}

/** A line of its own at the start of a block; what stood behind the brace goes on the next one. */
export function intoBlock({ text }: Declaration, { start, block }: Statement, line: string): Insertion | undefined {
  if (block === undefined) return undefined;
  const offset = text.indexOf('{', block.start) + 1;
  if (offset === 0) return undefined;
  const indent = indentAt(text, start);
  const rest = text.slice(offset).split('\n', 1)[0] ?? '';
  return { offset, text: `\n${indent}  ${line}${rest.trim() === '' ? '' : `\n${indent} `}` };
}

/**
 * One of several things that a statement lists, with its comma: the one behind it, or that before the last. Undefined
 * where it is the only one, or none of them.
 */
export function takenOut({ objects }: Statement, { start }: Span): Span | undefined {
  const index = objects.findIndex((object) => object.start === start);
  const object = objects[index];
  const next = objects[index + 1];
  const before = objects[index - 1];
  if (object === undefined) return undefined;
  if (next !== undefined) return { start: object.start, end: next.start };
  return before && { start: before.end, end: object.end };
}
