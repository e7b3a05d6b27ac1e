import type { RigModel } from './model.ts';

/** As many rigs as a reader looks at in one go. */
const MOST_KEPT = 32;

/** Gives the result of a rig, computed where it is not at hand. */
export interface Recall<T> {
  (rig: RigModel): T;
  /** The result if it is at hand; computes nothing. */
  known(rig: RigModel): T | undefined;
}

/**
 * Makes a function that gives the result of a rig, computed when it is first asked for and again when it has not been
 * asked for lately. All states of all rigs of a large workspace would take more memory than their text; the model alone
 * gives them back at any time.
 */
export function createRecall<T>(compute: (rig: RigModel) => T): Recall<T> {
  const kept = new Map<RigModel, T>();
  const recall = (rig: RigModel): T => {
    const known = kept.get(rig);
    const result = known === undefined ? compute(rig) : known;
    kept.delete(rig);
    kept.set(rig, result);
    if (kept.size > MOST_KEPT) for (const oldest of kept.keys()) if (kept.delete(oldest)) break;
    return result;
  };
  return Object.assign(recall, { known: (rig: RigModel) => kept.get(rig) });
}
