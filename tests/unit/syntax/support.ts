import { parseDeclaration } from '../../../language/syntax/parser.ts';
import type { Argument, Declaration, Expression, Statement, Value } from '../../../language/syntax/tree.ts';

/** Text of a tree without spans, as short as it can be told: what the tests compare. */
export function tell(statement: Statement): string {
  const { head, name, subject, objects, expression, comparison, block } = statement;
  const parts = [
    subject === undefined ? head.text : `<${subject.path.map(({ text }) => text).join('.')}>`,
    ...(name ? [name.text] : []),
    ...(objects.length > 0 ? [`[${objects.map(tellCounted).join(', ')}]`] : []),
    ...(expression ? [tellExpression(expression)] : []),
    ...(comparison?.least ? [`least ${tellExpression(comparison.least)}`] : []),
    ...(comparison?.most ? [`most ${tellExpression(comparison.most)}`] : []),
    ...statement.arguments.map(tellArgument),
    ...(block ? [`{ ${block.statements.map(tell).join('; ')} }`] : []),
  ];
  return parts.join(' | ');
}

function tellArgument(argument: Argument): string {
  switch (argument.kind) {
    case 'value':
      return `${argument.keyword ? `${argument.keyword.text}: ` : ''}${tellValue(argument.value)}`;
    case 'references':
      return `${argument.keyword.text}: [${argument.references.map(tellCounted).join(', ')}]`;
    case 'flag':
      return `!${argument.word.text}`;
    case 'text':
      return `"${argument.text.value}"`;
  }
}

function tellCounted({ count, reference }: Statement['objects'][number]): string {
  const name = reference.path.map(({ text }) => text).join('.');
  return count ? `${count.number.text} x ${name}` : name;
}

export function tellValue({ factors, upTo, tolerance, direction }: Value): string {
  const datum = direction?.datum ? ` ${direction.datum.path.map(({ text }) => text).join('.')}` : '';
  return (
    factors.map(tellExpression).join(' x ') +
    (upTo ? ` to ${tellExpression(upTo)}` : '') +
    (tolerance ? ` ± ${tellExpression(tolerance)}` : '') +
    (direction ? ` > ${direction.word.text}${datum}` : '')
  );
}

export function tellExpression(expression: Expression): string {
  switch (expression.kind) {
    case 'quantity':
      return expression.measures.map(({ number, unit }) => number.text + (unit ? ` ${unit.text}` : '')).join(' & ');
    case 'reference':
      return expression.reference.path.map(({ text }) => text).join('.');
    case 'text':
      return `"${expression.text.value}"`;
    case 'sum':
      return `(${expression.terms.map(({ negative, operand }) => (negative ? '-' : '+') + tellExpression(operand)).join(' ')})`;
    case 'product':
      return `(${expression.factors.map(({ divide, operand }) => (divide ? '/' : '*') + tellExpression(operand)).join(' ')})`;
  }
}

export function statementOf(declaration: Declaration): Statement {
  const { statement } = declaration;
  if (statement === undefined) throw new Error(`no statement: ${JSON.stringify(declaration.problems)}`);
  return statement;
}

/** The tree of a text without problems. */
export function parsed(text: string): string {
  const declaration = parseDeclaration(text);
  if (declaration.problems.length > 0) throw new Error(JSON.stringify(declaration.problems));
  return tell(statementOf(declaration));
}

/** The problems of a text: kind, the text they mark, what was expected. */
export function problemsOf(text: string): readonly string[] {
  return parseDeclaration(text).problems.map(
    ({ kind, start, end, expected }) => `${kind} '${text.slice(start, end)}'${expected ? ` expected ${expected}` : ''}`,
  );
}
