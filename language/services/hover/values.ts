import type { PlacedName } from '../../semantics/analysis.ts';
import { evaluateExpression, type NameLookup } from '../../semantics/expressions.ts';
import { namesOf } from '../../semantics/names.ts';
import type { Line, Scope } from '../../semantics/scope.ts';
import type { Expression } from '../../syntax/tree.ts';
import type { Quantity } from '../../units/quantity.ts';
import { entityOf, type HoverContext } from './context.ts';

/** A scope that only reads: what is wrong with an expression has been reported where it is analysed. */
function readingScope({ analysis }: HoverContext, here: PlacedName): Scope {
  return {
    uri: here.uri,
    declaration: here.declaration,
    find: (uri, name) => analysis.lookup(uri, name)[0],
    entityOf: (found) => {
      const name = found.declaration.statement?.name?.text ?? '';
      const placed = analysis.lookup(found.uri, name).find(({ declaration }) => declaration === found.declaration);
      return placed && entityOf(analysis, placed);
    },
    visibleNames: (uri) => analysis.names(uri).map(({ name }) => name),
    findings: [],
    assumptions: [],
  };
}

/** The named quantities (`let`) visible at the place hovered, those of the blocks around it first. */
function letsInReach(context: HoverContext, here: PlacedName): NameLookup {
  const line: Line = { ...lineOf(here), statement: context.place.path.at(-1)?.statement ?? lineOf(here).statement };
  const locals = new Map<string, Line>();
  for (const { statement } of context.place.path) {
    for (const inner of statement.block?.statements ?? []) {
      if (inner.head.text === 'let' && inner.name) locals.set(inner.name.text, { ...line, statement: inner });
    }
  }
  return namesOf(readingScope(context, here), line, locals);
}

function lineOf({ declaration, uri }: PlacedName): Line {
  const nothing = { text: '', start: 0, end: 0 };
  const statement = declaration.statement ?? {
    head: nothing,
    objects: [],
    arguments: [],
    broken: true,
    start: 0,
    end: 0,
  };
  return { statement, declaration, uri };
}

/** The value of an expression written in a declaration; undefined where it has none. */
export function evaluate(
  context: HoverContext,
  here: PlacedName,
  expression: Expression,
  names: NameLookup = letsInReach(context, here),
): Quantity | undefined {
  return evaluateExpression(expression, { scope: readingScope(context, here), line: here, names });
}
