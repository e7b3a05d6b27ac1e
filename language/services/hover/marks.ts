import { formatLimited } from '../../rules/limits/check-limits.ts';
import type { LimitRow } from '../../rules/limits/table.ts';
import { limitTable } from '../../rules/limits/table.ts';
import { COUPLING_RULES } from '../../rules/markets/index.ts';
import { FORCE_MARKS } from '../../semantics/coupling-marks.ts';
import type { Coupling } from '../../semantics/model.ts';
import type { RigResult } from '../../semantics/state.ts';
import { FORCE } from '../../units/dimension.ts';
import type { DisplaySystem } from '../../units/display.ts';
import { list, plain } from '../markdown.ts';
import { type HoverContext, inRigs, type UnitView } from './context.ts';

/** `Marked: class A50-X, D 12 kN.`; undefined for a device on which nothing is marked but a rating. */
function marksLine({ marks }: Coupling, system: DisplaySystem): string | undefined {
  const parts = [
    ...(marks?.class === undefined ? [] : [`class ${plain(marks.class.marking)}`]),
    ...FORCE_MARKS.flatMap((mark) => {
      const value = marks?.forces[mark]?.value;
      return value === undefined ? [] : [`${mark} ${formatLimited({ dimension: FORCE, unit: 'kN' }, value, system)}`];
    }),
  ];
  return parts.length === 0 ? undefined : `Marked: ${parts.join(', ')}.`;
}

/** What is marked on a hitch or coupling, and what the texts that bind ask of it: here, or in the rigs that have the unit. */
export function marksWords(
  context: HoverContext,
  { result, owner }: UnitView,
  device: Coupling | undefined,
  subject: string,
): readonly (string | undefined)[] {
  const { system } = context;
  const words = (rig: RigResult): readonly string[] =>
    limitTable(rig, COUPLING_RULES)
      .filter((row) => row.subject === subject)
      .map((row) => plain(rowWords(row, system)));
  const inRig = (rig: RigResult) => words(rig).join('; ') || undefined;
  const here = words(result);
  const asked = result.rig.standalone ? inRigs(context, owner, inRig) : here.length > 0 ? list(here) : undefined;
  return [device && marksLine(device, system), asked];
}

/** `the D value needed 9.81 kN, the D value marked on it 12 kN: 2.19 kN left`. */
function rowWords({ quantity, outcome }: LimitRow, system: DisplaySystem): string {
  if (outcome.verdict === 'open') return `${quantity}: not checked without ${outcome.missing}`;
  const { value, limit, limitName, margin } = outcome;
  const format = (figure: number) => formatLimited(outcome, figure, system);
  const room =
    margin < 0 ? `${format(-margin)} ${outcome.sense === 'at most' ? 'over' : 'short'}` : `${format(margin)} left`;
  return `${quantity} ${format(value)}, ${limitName} ${format(limit)}: ${room}`;
}
