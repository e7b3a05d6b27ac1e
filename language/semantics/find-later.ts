import type { Finding } from '../diagnostics/finding.ts';
import { checkReach } from '../rules/reach/check-reach.ts';
import { checkReachStability, searchReachStability } from '../rules/reach/stability.ts';
import type { Declaration } from '../syntax/tree.ts';
import type { Entity } from './analysis.ts';
import { findStability } from './stability/find-stability.ts';

/**
 * What takes milliseconds to find, so that it follows the other diagnostics: states that no case names, and lateral stability.
 * Comes in parts, so that a reader can look after something else in between; all findings come with the last.
 */
export function* findLater(
  entity: Entity | undefined,
  declaration: Declaration,
): Generator<undefined, readonly Finding[]> {
  if (entity?.kind !== 'rig' && entity?.kind !== 'unit') return [];
  const { stability } = entity.kind === 'rig' ? entity : {};
  const loads = checkReach(entity.result);
  yield;
  const rules = findStability(entity, declaration);
  if (stability === undefined) return [...ownOf(loads, declaration), ...rules];
  yield;
  searchReachStability(stability);
  yield;
  return [...ownOf([...loads, ...checkReachStability(stability)], declaration), ...rules];
}

const ownOf = (findings: readonly Finding[], declaration: Declaration): readonly Finding[] =>
  findings.filter(({ location }) => location.declaration === declaration);
