import type { Finding } from '../../diagnostics/finding.ts';
import { checkStability } from '../../rules/stability/index.ts';
import type { Declaration } from '../../syntax/tree.ts';
import type { Entity } from '../analysis.ts';
import { adviceFor } from '../moves.ts';
import { reportRequirements, requirementsOf } from '../requirements.ts';
import { detachedScope, report } from '../scope.ts';
import { asksForStability, withStability } from './stability-quantities.ts';

/** What the lateral stability of a rig gives rise to: the rules, and the author's own limits on it. */
export function findStability(entity: Entity | undefined, declaration: Declaration): readonly Finding[] {
  if (entity?.kind !== 'rig') return [];
  const { rig, stability } = entity;
  const requirements = requirementsOf(rig).filter(asksForStability);
  const findings =
    stability === undefined
      ? []
      : checkStability(stability).filter((finding) => finding.location.declaration === declaration);
  if (requirements.length === 0) return findings;
  const scope = detachedScope(declaration, [...findings]);
  if (stability !== undefined && stability.results.length > 0) {
    reportRequirements(rig, requirements, stability.results.map(withStability), scope, adviceFor);
  } else if (entity.result.states.length > 0) {
    const problem = 'stability is computed for a vehicle that tows something';
    for (const { location } of requirements) report(scope, 'requirement-open', { problem }, location);
  }
  return scope.findings;
}
