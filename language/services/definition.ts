import type { AbsoluteLocation, Analysis } from '../semantics/analysis.ts';
import { placeAt } from './nodes.ts';
import { hereOf, resolve, type Target } from './resolve.ts';

/**
 * Where what stands at an offset is declared: names, each part of a dotted name, the file of a `use`. A name where it is
 * declared leads to itself. Several locations where a name is declared more than once; none where nothing is known.
 */
export function definition(analysis: Analysis, uri: string, offset: number): readonly AbsoluteLocation[] {
  const place = placeAt(analysis, uri, offset);
  const node = place?.node;
  if (place === undefined || node === undefined) return [];
  const { start } = place.placed;
  if (node.kind === 'name') return [{ uri, start: start + node.span.start, end: start + node.span.end }];
  if (node.kind === 'text') return place.path.at(-1)?.spec?.keyword === 'use' ? usedFile(analysis, uri, start) : [];
  if (node.kind !== 'reference') return [];
  const words = node.reference.path.slice(0, node.part + 1).map(({ text }) => text);
  const target = resolve(analysis, place, words, node.role);
  if (target === undefined) return [];
  const duplicates = target.kind === 'declaration' && target.placed.declaration !== hereOf(place).declaration;
  return duplicates
    ? analysis.lookup(uri, target.placed.name).map((placed) => locationOf({ kind: 'declaration', placed }))
    : [locationOf(target)];
}

/** The name a target declares, or its head where it has none. */
function locationOf(target: Target): AbsoluteLocation {
  const placed = target.kind === 'declaration' ? target.placed : target.member.placed;
  const statement = target.kind === 'declaration' ? placed.declaration.statement : target.member.statement;
  const span = statement?.name ?? statement?.head ?? { start: 0, end: 0 };
  return { uri: placed.uri, start: placed.start + span.start, end: placed.start + span.end };
}

function usedFile(analysis: Analysis, uri: string, start: number): readonly AbsoluteLocation[] {
  const entity = analysis.entityAt(uri, start)?.entity;
  if (entity?.kind !== 'use' || analysis.workspace.documents.get(entity.uri)?.kind !== 'text') return [];
  return [{ uri: entity.uri, start: 0, end: 0 }];
}
