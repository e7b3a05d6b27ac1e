import { jointWeighingOf, weighingsOf } from '../../semantics/results.ts';
import type { RigResult } from '../../semantics/state.ts';
import type { JointWeighing } from '../../semantics/weighing/joint.ts';
import type { WeighedReading, WeighingResult } from '../../semantics/weighing/weighing-result.ts';
import type { Span } from '../../syntax/tree.ts';
import type { DisplaySystem } from '../../units/display.ts';
import { bold, type Column, paragraphs, plain, table } from '../markdown.ts';
import {
  differenceRows,
  jointHeading,
  jointSentences,
  type PassRows,
  passRows,
  type ReadingRow,
  SCALE_OUTRANKS,
  scaleWords,
  slipSentences,
  slipVerdict,
  tareRows,
} from '../weighings.ts';
import type { HoverContext } from './context.ts';
import { heading, NOT_COMPUTED } from './rig.ts';

/** A slip: every reading beside its prediction, the tares that follow, and what is missing. */
export function weighingHover({ result, system }: HoverContext, name: string): string | undefined {
  const model = result?.rig.weighings.find((weighing) => weighing.name === name);
  if (result === undefined || model === undefined) return undefined;
  const slip = weighingsOf(result.rig).find(({ weighing }) => weighing === model);
  const state = model.case === undefined ? '' : ` in case ${model.case}`;
  return paragraphs(
    heading(name, `weighing of ${result.rig.name}${state}`, model.title),
    model.documentation,
    ...(slip === undefined ? [NOT_COMPUTED] : slipParagraphs(result, slip, system)),
  );
}

function slipParagraphs(result: RigResult, slip: WeighingResult, system: DisplaySystem): readonly string[] {
  const joint = jointWeighingOf(result.rig);
  return [
    slipVerdict(slip),
    scaleWords(slip.weighing, system),
    readingTable(passRows(result, slip, system)),
    differenceTable(slip, system),
    tareTable(slip, 'slip', system),
    ...slipSentences(slip, joint, system).map(plain),
    ...jointParagraphs(slip, joint, system),
    SCALE_OUTRANKS,
  ];
}

/** The tares by all slips that belong with this one. */
function jointParagraphs(
  { weighing }: WeighingResult,
  joint: JointWeighing | undefined,
  system: DisplaySystem,
): readonly string[] {
  if (joint === undefined || !joint.slips.some((slip) => slip.weighing === weighing)) return [];
  return [
    bold(jointHeading(joint)),
    ...(joint.disagreement === undefined ? [tareTable(joint, 'slips', system)] : []),
    ...jointSentences(joint, system).map(plain),
  ];
}

const left = (head: string): Column => ({ head, align: 'left' });
const right = (head: string): Column => ({ head, align: 'right' });

const READING_COLUMNS = [right('read'), right('computed'), right('difference'), right('tolerance'), left(' ')];

function readingTable(passes: readonly PassRows[]): string {
  const rows = passes.flatMap(({ heading: pass, rows: own }) =>
    own.map((row) => [plain(pass), plain(row.name), ...figures(row)]),
  );
  return table([left('weighed'), left('reading'), ...READING_COLUMNS], rows);
}

function figures({ read, computed, difference, tolerance, verdict }: ReadingRow): readonly string[] {
  return [read, computed, difference, tolerance, verdict === 'agrees' ? verdict : `**${verdict}**`];
}

function differenceTable(slip: WeighingResult, system: DisplaySystem): string {
  return table(
    [left('by difference'), left('made of'), right('weighed'), right('computed')],
    differenceRows(slip, system).map(({ quantity, basis, weighed, computed }) => [
      plain(quantity),
      plain(basis),
      weighed,
      computed,
    ]),
  );
}

function tareTable(slip: Pick<WeighingResult, 'tares'>, by: 'slip' | 'slips', system: DisplaySystem): string {
  return table(
    [left('tare'), left(' '), right('file'), right(by)],
    tareRows(slip, system).map(({ unit, what, filed, weighed }) => [plain(unit), what, filed, weighed]),
  );
}

/** One reading: what was read, computed and tolerated, and how it goes with the others. */
export function readingHover({ result, here, system }: HoverContext, span: Span): string | undefined {
  if (result === undefined) return undefined;
  for (const slip of weighingsOf(result.rig)) {
    for (const pass of passRows(result, slip, system)) {
      const index = pass.readings.findIndex(
        ({ reading: { location } }) =>
          location.declaration === here.declaration &&
          location.span.start <= span.start &&
          span.end <= location.span.end,
      );
      const weighed = pass.readings[index];
      const row = pass.rows[index];
      if (weighed === undefined || row === undefined) continue;
      return paragraphs(
        `${bold(row.name)} — reading of weighing ${plain(slip.weighing.name)}, ${plain(pass.heading)}`,
        table(READING_COLUMNS, [figures(row)]),
        checkWords(weighed),
        scaleWords(slip.weighing, system),
      );
    }
  }
  return undefined;
}

/** Whether other readings check this one. */
function checkWords({ redundancy, standardised, verdict }: WeighedReading): string {
  if (verdict === 'contradicts') return 'It contradicts the other readings, or one that it cannot be told from does.';
  if (standardised === undefined) return 'No other reading checks it.';
  return `The other readings show ${Math.round(redundancy * 100)} % of an error in it.`;
}
