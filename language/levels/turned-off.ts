import type { StatedLevel } from './level.ts';

/** Findings turned off for one reason. */
export interface TurnedOffCount {
  readonly code: string;
  readonly reason: string;
  readonly count: number;
}

/** How many findings are turned off for each code and reason, in the order in which they were found. */
export function countTurnedOff(levels: Iterable<StatedLevel>): readonly TurnedOffCount[] {
  const counts = new Map<string, TurnedOffCount>();
  for (const { code, reason } of levels) {
    const key = `${code} ${reason}`;
    counts.set(key, { code, reason, count: (counts.get(key)?.count ?? 0) + 1 });
  }
  return [...counts.values()];
}

/**
 * `2 findings turned off: RW603 (nose-heavy by design)`; with several codes or reasons each has its own count. Undefined
 * where none is.
 */
export function turnedOffText(levels: readonly StatedLevel[]): string | undefined {
  if (levels.length === 0) return undefined;
  const counts = countTurnedOff(levels);
  const parts = counts.map(({ code, reason, count }) => {
    const several = counts.length > 1 && count > 1 ? `${count} × ` : '';
    return `${several}${code} (${reason.trim()})`;
  });
  return `${levels.length} finding${levels.length === 1 ? '' : 's'} turned off: ${parts.join(', ')}`;
}
