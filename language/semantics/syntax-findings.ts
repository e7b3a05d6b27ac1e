import type { Location } from '../diagnostics/finding.ts';
import { DEEPEST_NESTING } from '../syntax/parser.ts';
import type { Declaration, SyntaxProblem } from '../syntax/tree.ts';
import { nearestName } from './nearest.ts';
import { locate, report, type Scope } from './scope.ts';
import { headsIn, specOf } from './specs.ts';

/** Reports what the text of a declaration alone shows to be wrong. */
export function reportSyntax(declaration: Declaration, scope: Scope): void {
  for (const problem of declaration.problems) reportProblem(problem, declaration, scope);
  const { statement } = declaration;
  if (statement === undefined) return;
  if (statement.subject === undefined && specOf('file', statement.head.text) !== undefined) return;
  reportNoDeclaration(statement.head.text, locate({ declaration }, statement.head), scope);
}

function reportNoDeclaration(found: string, location: Location, scope: Scope): void {
  const nearest = nearestName(found, headsIn('file'));
  report(scope, 'no-declaration', { found, ...(nearest ? { nearest } : {}) }, location);
}

function reportProblem(problem: SyntaxProblem, declaration: Declaration, scope: Scope): void {
  const location = locate({ declaration }, problem);
  const { found, expected } = problem;
  switch (problem.kind) {
    case 'syntax':
      report(scope, 'syntax-error', { found, expected }, location);
      return;
    case 'no-declaration':
      reportNoDeclaration(found, location, scope);
      return;
    case 'character': {
      const code = found.codePointAt(0) ?? 0;
      const name = `U+${code.toString(16).toUpperCase().padStart(4, '0')}`;
      const shown = code < 32 || code === 127 ? 'here' : `'${String.fromCodePoint(code)}'`;
      report(scope, 'stray-character', { character: shown, code: name }, location);
      return;
    }
    case 'unterminated-text':
      report(scope, 'unclosed-text', {}, location);
      return;
    case 'unclosed':
      report(scope, 'unclosed-block', { head: blockHead(declaration, problem.start) }, location);
      return;
    case 'conflict':
      report(scope, 'merge-conflict', { marker: found }, location);
      return;
    case 'nesting':
      report(scope, 'nested-too-deep', { most: DEEPEST_NESTING }, location);
      return;
  }
}

/** The statement whose block opens at an offset, as messages speak of it. */
function blockHead({ statement, text }: Declaration, offset: number): string {
  const line = text.slice(text.lastIndexOf('\n', offset - 1) + 1, offset).trim();
  const [head = '', name = ''] = line.split(/\s+/);
  return statement === undefined ? 'this declaration' : `'${name === '' ? head : `${head} ${name}`}'`;
}
