import { CATALOGUE } from '../diagnostics/catalogue.ts';
import { finding } from '../diagnostics/create.ts';
import type { Finding } from '../diagnostics/finding.ts';
import { levelsByCode } from '../levels/apply.ts';
import type { Levels } from '../levels/level.ts';
import type { PlacedDeclaration } from '../syntax/document.ts';
import type { Declaration } from '../syntax/tree.ts';
import type { Entity } from './analysis.ts';
import { type LineLevel, statedHere } from './rule-lines.ts';

/** The levels that a document states for itself, and the lines that state one a second time. */
export interface FileLevels {
  readonly levels: Levels;
  readonly twice: ReadonlyMap<Declaration, readonly Finding[]>;
}

const NONE: FileLevels = { levels: new Map(), twice: new Map() };

/**
 * Reads the top-level `rule` lines of a document; `entityOf` says what a declaration of it says. Levels act on findings
 * after these are made, so that no result depends on them: a changed level evaluates no other declaration anew.
 */
export function fileLevels(
  declarations: readonly PlacedDeclaration[],
  entityOf: (declaration: Declaration) => Entity | undefined,
): FileLevels {
  const lines = declarations.filter(({ declaration: { statement } }) => statement?.head.text === 'rule');
  if (lines.length === 0) return NONE;
  const stated = lines.flatMap(({ declaration }): readonly LineLevel[] => {
    const entity = entityOf(declaration);
    return entity?.kind === 'rule' ? entity.levels : [];
  });
  const twice = new Map<Declaration, Finding[]>();
  const levels = levelsByCode(stated, (level, first) => {
    const { declaration } = level.location;
    const parameters = { code: level.code };
    const related = [statedHere(first)];
    const found = finding('level-stated-twice', CATALOGUE['level-stated-twice'], parameters, level.location, related);
    twice.set(declaration, [...(twice.get(declaration) ?? []), found]);
  });
  return { levels, twice };
}

/** The levels that a declaration states in its own block. */
export function blockLevels(entity: Entity | undefined): Levels {
  if (entity?.kind === 'rig') return levelsByCode(entity.rig.levels);
  return entity?.kind === 'unit' ? levelsByCode(entity.unit.levels) : NONE.levels;
}
