import { formatLength } from '../../units/display.ts';
import { systemOf } from '../display-system.ts';
import type { BodyOutline } from '../model.ts';
import { assume, locate } from '../scope.ts';
import type { UnitDraft } from './draft.ts';

/** Height taken for things whose height is not stated, and who they were. */
export interface Heights {
  /** m above the road; notes that `name` has no stated height. */
  readonly take: (name: string) => number;
  /** Lists the assumption, once for all things of the unit. */
  readonly conclude: () => void;
}

/** m; common practice puts the middle of a light trailer's or car's mass near it. */
const USUAL_HEIGHT = 0.7;

export function createHeights(draft: UnitDraft, body: BodyOutline | undefined): Heights {
  const taken = new Set<string>();
  const known = body?.bottom !== undefined && body.top !== undefined;
  const height = known ? (body.bottom ?? 0) + ((body.top ?? 0) - (body.bottom ?? 0)) / 3 : USUAL_HEIGHT;
  return {
    take: (name) => {
      taken.add(name);
      return height;
    },
    conclude: () => {
      const names = [...taken];
      if (names.length === 0) return;
      const listed =
        names.length > 4 ? `${names.slice(0, 3).join(', ')} and ${names.length - 3} more` : names.join(', ');
      const basis = known
        ? 'rule of the language: one third of the body height above its bottom; only grades and braking depend on it'
        : 'common practice, no source; only grades and braking depend on it';
      assume(
        draft.scope,
        `height of ${listed} in ${draft.name} not stated: ${formatLength(height, systemOf(draft.scope.declaration))} up taken`,
        basis,
        locate(draft.header, draft.header.statement.name ?? draft.header.statement.head),
      );
    },
  };
}
