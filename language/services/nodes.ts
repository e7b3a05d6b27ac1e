import type { Analysis } from '../semantics/analysis.ts';
import { indexAt, type PlacedDeclaration } from '../syntax/document.ts';
import type {
  Argument,
  CountedReference,
  Expression,
  Measure,
  Reference,
  Span,
  Statement,
  Text,
  Value,
  Word,
} from '../syntax/tree.ts';
import { DIRECTIONS, type ThingKind } from '../syntax/vocabulary.ts';
import { holdsReadings, namesAfter, type PathStep, stepInto } from './statements.ts';

/** What a name stands for at its place in a statement. */
export type Role =
  | ThingKind
  /** What a line of a case speaks of. */
  | 'subject'
  /** What a line of a weighing says was on the scale. */
  | 'reading'
  /** A thing that a place is counted from or a thing stands at. */
  | 'datum'
  /** A named quantity. */
  | 'let'
  /** A computed quantity, or a named one. */
  | 'computed';

/** A word, number, name or text of a statement, with its span relative to the declaration. */
export type Node =
  | { readonly kind: 'head' | 'name' | 'keyword' | 'flag' | 'direction'; readonly span: Word }
  | {
      readonly kind: 'reference';
      readonly span: Word;
      readonly reference: Reference;
      /** Index of the word in the reference's path. */
      readonly part: number;
      readonly role: Role;
    }
  | {
      readonly kind: 'number' | 'measure-unit';
      readonly span: Word;
      readonly measure: Measure;
      /** All measures that add up with it. */
      readonly measures: readonly Measure[];
      /** Unit that serves a number without one: `900 x 450 x 240 mm`. */
      readonly sharedUnit?: Word;
    }
  | { readonly kind: 'text'; readonly span: Text; readonly keyword?: Word };

/** A place in a document: the declaration, the statements around it from the outside, and what stands there. */
export interface Place {
  readonly uri: string;
  readonly placed: PlacedDeclaration;
  /** Relative to the declaration. */
  readonly offset: number;
  readonly path: readonly PathStep[];
  readonly node: Node | undefined;
}

/** The declaration whose text holds an offset; undefined in a document that has none or is not there. */
export function declarationAt(analysis: Analysis, uri: string, offset: number): PlacedDeclaration | undefined {
  const document = analysis.workspace.documents.get(uri);
  if (document?.kind !== 'text') return undefined;
  const { declarations } = document.syntax;
  return declarations[indexAt(declarations, offset)];
}

/** What stands at an absolute offset of a document. */
export function placeAt(analysis: Analysis, uri: string, offset: number): Place | undefined {
  const placed = declarationAt(analysis, uri, offset);
  const top = placed?.declaration.statement;
  if (placed === undefined || top === undefined) return undefined;
  const relative = offset - placed.start;
  const path = pathAt(stepInto(top), relative);
  const innermost = path.at(-1);
  const node = innermost === undefined ? undefined : at(nodesOf(innermost), relative, ({ span }) => span);
  return { uri, placed, offset: relative, path, node };
}

/** The statements that hold an offset, from the outside. */
function pathAt(top: PathStep, offset: number): readonly PathStep[] {
  if (!holds(top.statement, offset)) return [];
  const path = [top];
  for (let step: PathStep | undefined = top; step !== undefined; ) {
    const inner: Statement | undefined = at(step.statement.block?.statements ?? [], offset, (statement) => statement);
    step = inner === undefined ? undefined : stepInto(inner, step);
    if (step !== undefined) path.push(step);
  }
  return path;
}

const holds = (span: Span, offset: number): boolean => span.start <= offset && offset <= span.end;

/** The element whose span holds the offset; of two that touch there, the later one. */
function at<T>(elements: Iterable<T>, offset: number, spanOf: (element: T) => Span): T | undefined {
  let found: T | undefined;
  for (const element of elements) {
    if (holds(spanOf(element), offset)) found = element;
  }
  return found;
}

/** All that stands in a statement outside its block, in text order per argument. */
function* nodesOf({ statement, spec, context }: PathStep): Generator<Node> {
  const head = spec?.keyword ?? statement.head.text;
  if (statement.subject) yield* referenceNodes(statement.subject, holdsReadings(context) ? 'reading' : 'subject');
  else yield { kind: 'head', span: statement.head };
  if (statement.name) yield { kind: 'name', span: statement.name };
  for (const object of statement.objects) yield* countedNodes(object, spec?.lists ?? 'stowage');
  const role: Role = head === 'require' ? 'computed' : 'let';
  if (statement.expression) yield* expressionNodes(statement.expression, role);
  const { comparison } = statement;
  if (comparison?.least) yield* expressionNodes(comparison.least, role);
  if (comparison?.most) yield* expressionNodes(comparison.most, role);
  for (const argument of statement.arguments) yield* argumentNodes(argument, head);
}

function* argumentNodes(argument: Argument, head: string): Generator<Node> {
  switch (argument.kind) {
    case 'flag':
      yield { kind: Object.hasOwn(DIRECTIONS, argument.word.text) ? 'direction' : 'flag', span: argument.word };
      return;
    case 'text':
      yield { kind: 'text', span: argument.text };
      return;
    case 'references': {
      yield { kind: 'keyword', span: argument.keyword };
      const role = namesAfter(argument.keyword.text, head) ?? 'datum';
      for (const reference of argument.references) yield* countedNodes(reference, role);
      return;
    }
    case 'value':
      if (argument.keyword) yield { kind: 'keyword', span: argument.keyword };
      yield* valueNodes(argument.value, argument.keyword ?? (head === 'tyres' ? TYRES : undefined));
  }
}

const TYRES: Word = { text: 'tyres', start: 0, end: 0 };

function* valueNodes(value: Value, keyword: Word | undefined): Generator<Node> {
  const role: Role = keyword?.text === 'tyres' ? 'tyre' : keyword?.text === 'at' && !value.direction ? 'datum' : 'let';
  const sharedUnit = lastUnit(value.factors.at(-1));
  for (const factor of value.factors) yield* expressionNodes(factor, role, sharedUnit, keyword);
  if (value.startDirection) yield { kind: 'direction', span: value.startDirection };
  if (value.upTo) yield* expressionNodes(value.upTo, 'let');
  if (value.tolerance) yield* expressionNodes(value.tolerance, 'let', sharedUnit);
  const { direction } = value;
  if (direction === undefined) return;
  yield { kind: 'direction', span: direction.word };
  if (direction.datum) yield* referenceNodes(direction.datum, 'datum');
}

function lastUnit(expression: Expression | undefined): Word | undefined {
  return expression?.kind === 'quantity' ? expression.measures.at(-1)?.unit : undefined;
}

function* countedNodes({ count, reference }: CountedReference, role: Role): Generator<Node> {
  if (count) yield* measureNodes([count]);
  yield* referenceNodes(reference, role);
}

function* referenceNodes(reference: Reference, role: Role): Generator<Node> {
  for (const [part, span] of reference.path.entries()) yield { kind: 'reference', span, reference, part, role };
}

function* measureNodes(measures: readonly Measure[], sharedUnit?: Word): Generator<Node> {
  for (const measure of measures) {
    const shared = measure.unit === undefined && sharedUnit ? { sharedUnit } : {};
    yield { kind: 'number', span: measure.number, measure, measures, ...shared };
    if (measure.unit) yield { kind: 'measure-unit', span: measure.unit, measure, measures };
  }
}

function* expressionNodes(expression: Expression, role: Role, sharedUnit?: Word, keyword?: Word): Generator<Node> {
  switch (expression.kind) {
    case 'quantity':
      yield* measureNodes(expression.measures, sharedUnit);
      return;
    case 'reference':
      yield* referenceNodes(expression.reference, role);
      return;
    case 'text':
      yield { kind: 'text', span: expression.text, ...(keyword ? { keyword } : {}) };
      return;
    case 'sum':
      for (const { operand } of expression.terms) yield* expressionNodes(operand, role, sharedUnit);
      return;
    case 'product':
      for (const { operand } of expression.factors) yield* expressionNodes(operand, role, sharedUnit);
  }
}
