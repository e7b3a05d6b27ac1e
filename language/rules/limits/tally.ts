import type { LimitRow } from './table.ts';

/** How the limits of a rig stand. */
export interface LimitTally {
  readonly checked: number;
  readonly hold: number;
  readonly broken: number;
  /** Could not be checked: the file does not give what is needed. */
  readonly open: number;
}

export function tallyLimits(rows: readonly LimitRow[]): LimitTally {
  const of = (verdict: LimitRow['outcome']['verdict']) =>
    rows.filter(({ outcome }) => outcome.verdict === verdict).length;
  const [hold, broken, open] = [of('holds'), of('broken'), of('open')];
  return { checked: hold + broken, hold, broken, open };
}

/** `14 checked, 12 hold, 2 broken, 3 could not be checked`. */
export function tallyText({ checked, hold, broken, open }: LimitTally): string {
  return `${checked} checked, ${hold} ${hold === 1 ? 'holds' : 'hold'}, ${broken} broken, ${open} could not be checked`;
}
