import type { Analysis } from '../../language/semantics/analysis.ts';
import type { RigResult } from '../../language/semantics/state.ts';
import type { CheckedDocument, CheckedWorkspace } from './workspace.ts';

/** A rig, or a unit that no rig uses, with its loads and where it stands. */
export interface FoundRig {
  readonly kind: 'rig' | 'vehicle' | 'trailer';
  readonly result: RigResult;
  readonly document: CheckedDocument;
  /** Offset of its name. */
  readonly start: number;
}

/**
 * The rigs of the named files, in text order, and the units of those files that no rig uses, analysed alone. With
 * names: the rigs and units so called, used or not.
 */
export function findRigs(workspace: CheckedWorkspace, names: readonly string[] = []): FoundRig[] {
  const { analysis, documents } = workspace;
  const named = [...documents.values()].filter(({ uri }) => workspace.named.has(uri));
  const found = named.flatMap((document) => rigsOf(analysis, document));
  if (names.length > 0) return found.filter(({ result }) => names.includes(result.rig.name));
  const used = usedUnits([...documents.values()].flatMap((document) => rigsOf(analysis, document)));
  return found.filter(({ kind, result }) => kind === 'rig' || !used.has(result.rig.location.declaration));
}

/** All rigs and units of the named files, used or not, in text order. */
export function everyRig({ analysis, documents, named }: CheckedWorkspace): FoundRig[] {
  return [...documents.values()].filter(({ uri }) => named.has(uri)).flatMap((document) => rigsOf(analysis, document));
}

function rigsOf(analysis: Analysis, document: CheckedDocument): FoundRig[] {
  return analysis.entities(document.uri).flatMap(({ entity, start }): FoundRig[] => {
    if (entity?.kind !== 'rig' && entity?.kind !== 'unit') return [];
    const { location } = entity.result.rig;
    const kind = entity.kind === 'rig' ? 'rig' : entity.unit.kind;
    return [{ kind, result: entity.result, document, start: start + location.span.start }];
  });
}

/** The declarations of all units that rigs are made of. */
function usedUnits(rigs: readonly FoundRig[]): Set<unknown> {
  return new Set(
    rigs
      .filter(({ kind }) => kind === 'rig')
      .flatMap(({ result }) => result.rig.units)
      .map(({ location }) => location.declaration),
  );
}
