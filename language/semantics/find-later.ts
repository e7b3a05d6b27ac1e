import type { Finding } from '../diagnostics/finding.ts';
import { checkReach } from '../rules/reach/check-reach.ts';
import { checkReachStability } from '../rules/reach/stability.ts';
import type { Declaration } from '../syntax/tree.ts';
import type { Entity } from './analysis.ts';
import { findStability } from './stability/find-stability.ts';

/** What takes milliseconds to find, so that it follows the other diagnostics: states that no case names, and lateral stability. */
export function findLater(entity: Entity | undefined, declaration: Declaration): readonly Finding[] {
  if (entity?.kind !== 'rig' && entity?.kind !== 'unit') return [];
  const { stability } = entity.kind === 'rig' ? entity : {};
  const reached = [...checkReach(entity.result), ...(stability ? checkReachStability(stability) : [])];
  return [
    ...reached.filter((finding) => finding.location.declaration === declaration),
    ...findStability(entity, declaration),
  ];
}
