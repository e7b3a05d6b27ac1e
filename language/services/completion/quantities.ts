import type { IToken } from 'chevrotain';
import { systemOfRig } from '../../semantics/display-system.ts';
import type { RigResult } from '../../semantics/state.ts';
import * as T from '../../syntax/tokens.ts';
import { type Dimension, dimensionName } from '../../units/dimension.ts';
import { formatQuantity } from '../../units/display.ts';
import { UNITS } from '../../units/units.ts';
import { formatComputed } from '../figures.ts';
import { headOf, membersIn } from '../names.ts';
import type { Proposal } from './entry.ts';
import type { NameScope } from './names.ts';

/** The result of the rig or unit the caret is in, where it can be computed. */
function resultHere({ analysis, here }: NameScope): RigResult | undefined {
  const entity = analysis.entityAt(here.uri, here.start)?.entity;
  return entity?.kind === 'rig' || entity?.kind === 'unit' ? entity.result : undefined;
}

/** Computed quantities of the rig or unit the caret is in, with their value in the first case. */
export function computedProposals(scope: NameScope): readonly Proposal[] {
  const [state] = resultHere(scope)?.states ?? [];
  if (state === undefined) return [];
  const system = systemOfRig(state.rig);
  return [...state.quantities.values()].map((computed) => ({
    label: computed.name,
    kind: 'quantity',
    detail: `${formatComputed(computed, system)}, ${state.label}`,
  }));
}

/** Named quantities in reach: of the blocks around the caret, then of the file and those it uses. */
export function letProposals({ analysis, caret, here }: NameScope): readonly Proposal[] {
  const own = caret.step?.spec?.keyword === 'let' ? caret.step.statement.name?.text : undefined;
  const local = [...membersIn(here.declaration.statement?.block?.statements ?? [], here)]
    .filter(({ head }) => head === 'let')
    .map(({ name, statement }): Proposal => {
      const { expression } = statement;
      const text = expression ? here.declaration.text.slice(expression.start, expression.end) : '';
      return { label: name, kind: 'let', detail: text || 'named quantity' };
    });
  const global = analysis
    .names(caret.uri)
    .filter((name) => headOf(name) === 'let' && name.declaration !== here.declaration)
    .map((name): Proposal => {
      const entity = analysis.entityAt(name.uri, name.start)?.entity;
      const detail = entity?.kind === 'let' ? formatQuantity(entity.quantity) : 'named quantity';
      return { label: name.name, kind: 'let', detail };
    });
  return [...local, ...global].filter(({ label }) => label !== own);
}

/** Dimensions that fit a limit: that of the computed quantity the requirement names, or any. */
export function unitsForRequirement(scope: NameScope): readonly Dimension[] {
  const [state] = resultHere(scope)?.states ?? [];
  const computed = state?.quantities.get(leadingName(scope.caret.tokens.slice(1)));
  return computed ? [computed.dimension] : ALL_DIMENSIONS;
}

/** The dotted name that some tokens begin with. */
function leadingName(tokens: readonly IToken[]): string {
  let length = 1;
  while (tokens[length]?.tokenType === T.Dot) length += 2;
  return tokens
    .slice(0, length)
    .map(({ image }) => image)
    .join('');
}

/** Of every unit of the language, the commonest first. */
export const ALL_DIMENSIONS: readonly Dimension[] = [
  ...new Map(UNITS.map(({ dimension }) => [dimensionName(dimension), dimension])).values(),
];
