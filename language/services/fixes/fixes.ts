import type { Analysis, Diagnostic } from '../../semantics/analysis.ts';
import type { Span } from '../../syntax/tree.ts';
import { narrowCase } from './case-levels.ts';
import type { Fix, Fixer } from './fix.ts';
import { drainAsAdvised, leaveAsAdvised } from './loading.ts';
import { moveAsAdvised } from './moves.ts';
import { addRatings } from './ratings.ts';
import { stateReachable } from './reachable-levels.ts';
import { addReachedCase } from './reached-case.ts';
import { replaceByNearest } from './replacement.ts';
import { raiseTyreLoadIndex } from './tyres.ts';
import { rewriteInOtherUnit } from './units.ts';
import { takeOverTares } from './weighed-tare.ts';

/** Fixers by catalogue key, beside those that look at every finding. */
const FIXERS: Readonly<Partial<Record<string, readonly Fixer[]>>> = {
  'tyre-overloaded': [raiseTyreLoadIndex],
  'range-over-limit': [addReachedCase, narrowCase],
  'reach-over-limit': [addReachedCase, stateReachable],
  'reach-over-practice': [addReachedCase, narrowCase, stateReachable],
  'reach-stability': [addReachedCase],
};

/** What is asked of every finding: it tells by itself whether it knows what mends it. */
const GENERAL: readonly Fixer[] = [replaceByNearest, moveAsAdvised, drainAsAdvised, leaveAsAdvised];

/**
 * What can be done about the findings that touch a range, in their order, what its lines lack, and how its quantity is
 * written in the other system. Pure; nothing is offered that is not an unambiguous edit of the newest text.
 */
export function fixes(analysis: Analysis, uri: string, range: Span): readonly Fix[] {
  const document = analysis.workspace.documents.get(uri);
  if (document?.kind !== 'text') return [];
  const found = analysis.diagnostics(uri).filter((diagnostic) => touches(diagnostic, range));
  return oneOfEach([
    ...found.flatMap((diagnostic) => fixesOf(analysis, uri, diagnostic)),
    ...takeOverTares(analysis, uri, range),
    ...addRatings(analysis, uri, range),
    ...rewriteInOtherUnit(analysis, uri, range),
  ]);
}

/** What mends several findings with the same edits is offered once, for the first of them. */
function oneOfEach(all: readonly Fix[]): readonly Fix[] {
  const offered = new Set<string>();
  return all.filter(({ title, edits }) => {
    const key = JSON.stringify([title, edits]);
    const isNew = !offered.has(key);
    offered.add(key);
    return isNew;
  });
}

function fixesOf(analysis: Analysis, uri: string, diagnostic: Diagnostic): readonly Fix[] {
  return [...GENERAL, ...(FIXERS[diagnostic.key] ?? [])].flatMap((fix) => fix(analysis, uri, diagnostic));
}

const touches = (a: Span, b: Span): boolean => a.start <= b.end && b.start <= a.end;
