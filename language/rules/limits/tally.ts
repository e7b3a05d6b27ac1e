import { checkRequirement, requirementsOf } from '../../semantics/requirements.ts';
import { stabilityOf } from '../../semantics/results.ts';
import { asksForStability, withStability } from '../../semantics/stability/stability-quantities.ts';
import type { RigResult } from '../../semantics/state.ts';
import { levelStates } from '../states.ts';
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
  return tally(rows.map(({ outcome }) => outcome.verdict));
}

/** How what the author requires stands in the cases: on level road, or on the roads of the file where it asks for stability. */
export function tallyRequired(result: RigResult): LimitTally {
  const { rig } = result;
  return tally(
    requirementsOf(rig).map((requirement) => {
      const { cases } = requirement;
      const all = asksForStability(requirement)
        ? (stabilityOf(rig)?.results ?? []).map(withStability)
        : levelStates(result);
      const states = cases === undefined ? all : all.filter((state) => cases.includes(state.case.name));
      const isNamed = (name: string) => states.some((state) => state.case.name === name);
      if (states.length === 0 || cases?.every(isNamed) === false) return 'open';
      const checks = states.map((state) => checkRequirement(requirement, state));
      if (checks.some((check) => 'problem' in check)) return 'open';
      return checks.some((check) => 'margin' in check && check.margin < 0) ? 'broken' : 'holds';
    }),
  );
}

function tally(verdicts: readonly LimitRow['outcome']['verdict'][]): LimitTally {
  const of = (verdict: LimitRow['outcome']['verdict']) => verdicts.filter((each) => each === verdict).length;
  const [hold, broken, open] = [of('holds'), of('broken'), of('open')];
  return { checked: hold + broken, hold, broken, open };
}

/** `14 checked, 12 hold, 2 broken, 3 could not be checked`. */
export function tallyText({ checked, hold, broken, open }: LimitTally): string {
  return `${checked} checked, ${hold} ${hold === 1 ? 'holds' : 'hold'}, ${broken} broken, ${open} could not be checked`;
}
