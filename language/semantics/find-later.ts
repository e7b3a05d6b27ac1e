import type { Finding } from '../diagnostics/finding.ts';
import { checkReach } from '../rules/reach/check-reach.ts';
import { checkReachStability, searchReachStability } from '../rules/reach/stability.ts';
import type { Declaration } from '../syntax/tree.ts';
import type { Entity } from './analysis.ts';
import type { Evaluated } from './memory.ts';
import { findStability } from './stability/find-stability.ts';

type Look = Generator<undefined, readonly Finding[]>;

/** Looks that have begun and not ended. */
const looks = new WeakMap<Evaluated, Look>();

/** What was found; kept as long as the result it belongs to. */
const ended = new WeakMap<Evaluated, readonly Finding[]>();

/** What takes longer to find in a declaration; undefined until it has been looked for to the end. */
export function foundLaterIn(evaluated: Evaluated): readonly Finding[] | undefined {
  return ended.get(evaluated);
}

/**
 * Takes one step of looking for what takes milliseconds to find, so that it follows the other diagnostics: states that no case
 * names, and lateral stability. Undefined unless it was the last.
 */
export function lookFurther(evaluated: Evaluated, declaration: Declaration): readonly Finding[] | undefined {
  const look = looks.get(evaluated) ?? findLater(evaluated.entity, declaration);
  // One that has failed begins anew.
  looks.delete(evaluated);
  const { done, value } = look.next();
  if (done) ended.set(evaluated, value);
  else looks.set(evaluated, look);
  return value;
}

/** Pauses where the reader can look after something else. */
function* findLater(entity: Entity | undefined, declaration: Declaration): Look {
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
