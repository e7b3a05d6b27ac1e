import { loadIndexCapacity } from '../../catalogue/load-index.ts';
import { isTyreMarking, parseTyreMarking, raiseLoadIndex } from '../../catalogue/tyres.ts';
import { ROUNDING } from '../../rules/states.ts';
import { type OverloadedTyres, overloadedTyres } from '../../rules/tyre-overloaded.ts';
import { systemOfRig } from '../../semantics/display-system.ts';
import type { Text } from '../../syntax/tree.ts';
import { formatMass } from '../../units/display.ts';
import { editOf, type Fixer, resultAt, statementOf } from './fix.ts';

/** Raises the load index of an overloaded tyre to the next one that carries the load, where its marking is written at the axle. */
export const raiseTyreLoadIndex: Fixer = (analysis, uri, diagnostic) => {
  const result = resultAt(analysis, uri, diagnostic.start);
  const overloaded = result && overloadedTyres(result).find(({ found }) => found.message === diagnostic.message);
  const marking = overloaded && markingText(overloaded);
  const raised = overloaded && raisedMarking(overloaded);
  if (result === undefined || overloaded === undefined || marking === undefined || raised === undefined) return [];
  const { declaration } = overloaded.tyres.location;
  const edit = editOf(analysis, declaration, marking, `"${raised.marking}"`);
  if (edit === undefined) return [];
  const system = systemOfRig(result.rig);
  const title =
    `Tyres ${raised.marking} in place of ${overloaded.tyres.marking}: ${formatMass(raised.capacity, system)} each for ` +
    `${formatMass(overloaded.load, system)} (a tyre of that load index has to exist in this size)`;
  return [{ title, edits: [edit], diagnostic }];
};

/** The marking as written between quotes; undefined where the axle names a tyre that is declared elsewhere. */
function markingText({ tyres: { location } }: OverloadedTyres): Text | undefined {
  const statement = statementOf(location.declaration, location.span);
  for (const argument of statement?.arguments ?? []) {
    if (argument.kind !== 'value' || argument.value.start !== location.span.start) continue;
    const last = argument.value.factors.at(-1);
    if (last?.kind === 'text') return last.text;
  }
  return undefined;
}

/** The marking with the least load index whose capacity suffices, and what one such tyre counts for, kg. */
function raisedMarking({
  tyres,
  load,
  rating,
}: OverloadedTyres): { readonly marking: string; readonly capacity: number } | undefined {
  const parsed = parseTyreMarking(tyres.marking);
  if (!isTyreMarking(parsed) || tyres.capacity === undefined) return undefined;
  const index = (tyres.dual ? parsed.loadIndexDual : undefined) ?? parsed.loadIndexSingle;
  // Where the market derates passenger tyres, only a part of the capacity counts.
  const counted = rating.capacity / tyres.capacity;
  for (let steps = 1; ; steps++) {
    const capacity = loadIndexCapacity(index + steps);
    const marking = raiseLoadIndex(tyres.marking, steps);
    if (capacity === undefined || marking === undefined) return undefined;
    if (capacity * counted >= load - ROUNDING) return { marking, capacity: capacity * counted };
  }
}
