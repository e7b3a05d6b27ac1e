import { withReason } from '../../language/diagnostics/wording.ts';
import { isConstant } from '../../language/mechanics/influence.ts';
import { formatDifference, formatLimited } from '../../language/rules/limits/check-limits.ts';
import type { ReachMargin } from '../../language/rules/reach/margins.ts';
import { isFree } from '../../language/semantics/envelope/free-source.ts';
import type { Reach } from '../../language/semantics/envelope/reach.ts';
import type { ToldRange } from '../../language/semantics/envelope/told-range.ts';
import type { QuantityTolerance, ToleranceEffect } from '../../language/semantics/envelope/tolerances.ts';
import { differencesText, type Witness } from '../../language/semantics/envelope/witness.ts';
import type { RigModel } from '../../language/semantics/model.ts';
import type { Computed } from '../../language/semantics/state.ts';
import { formatComputed } from '../../language/services/figures.ts';
import { type WordedQuantity, wordedQuantities } from '../../language/services/quantity-words.ts';
import { labelWords } from '../../language/services/ratings.ts';
import { type DisplaySystem, formatQuantity, formatShare } from '../../language/units/display.ts';
import type { FoundReach, FoundTolerances } from './envelope-results.ts';
import { renderFitted } from './fitted-table.ts';
import type { Cell, Column } from './table.ts';
import type { Paint } from './terminal.ts';
import { listed, oneLine, wrap } from './text.ts';

/** How the tables of one rig are shown. */
export interface EnvelopeStyle {
  readonly units: DisplaySystem;
  readonly paint: Paint;
  readonly width: number;
}

const INDENT = '    ';
const WHOLE_RIG = 'whole rig';
const RIGHT: Column = { align: 'right' };
const LEFT: Column = { align: 'left' };

const dim = (text: string): Cell => ({ text, style: 'dim' });

/** A, B, … Z, AA, AB, …: what a state is called in the tables of a reach. */
export function letterOf(index: number): string {
  const last = String.fromCharCode(65 + (index % 26));
  return index < 26 ? last : `${letterOf(Math.floor(index / 26) - 1)}${last}`;
}

/** What can be other than in a single state: `Hauler.fresh 0 % to 100 %`, seats, items. */
export function freedomText({ free }: Reach): string {
  const varying = free.filter(isFree);
  const tanks = varying.flatMap(({ name, levelIn, choices }) => {
    const levels = levelIn === undefined ? [] : choices.map(levelIn);
    return levels.length < 2
      ? []
      : [`${name} ${formatShare(Math.min(...levels))} to ${formatShare(Math.max(...levels))}`];
  });
  const seats = varying.filter(({ kind }) => kind === 'seat').map(({ name }) => `${name} taken or empty`);
  const items = varying
    .filter(({ kind }) => kind === 'item')
    .map(({ name, choices }) => {
      const canBeLeft = choices.some((choice) => choice.length === 0);
      return `${name} ${canBeLeft ? 'on board or not' : 'as in one of the cases'}`;
    });
  const all = [...tanks, ...seats, ...items];
  return all.length === 0 ? 'nothing varies' : all.join(', ');
}

/** Rows under the name of their unit, which is a row of its own. */
function byUnit<Row extends { readonly words: WordedQuantity }>(
  rows: readonly Row[],
  cells: (row: Row) => readonly Cell[],
): (readonly Cell[])[] {
  return rows.flatMap((row, index) => {
    const { unit } = row.words;
    const repeats = index > 0 && rows[index - 1]?.words.unit === unit;
    return [...(repeats ? [] : [[{ text: oneLine(unit ?? WHOLE_RIG), style: 'heading' as const }]]), cells(row)];
  });
}

/** The quantities of a rig in the order of its tables, as far as there is something to say of them. */
function inOrder<Row>(rig: RigModel, rowOf: (name: string) => Row | undefined): (Row & { words: WordedQuantity })[] {
  return wordedQuantities(rig).flatMap((words) => {
    const row = rowOf(words.name);
    return row === undefined ? [] : [{ ...row, words }];
  });
}

const labelCell = (words: WordedQuantity, rig: RigModel): Cell => ({ text: `  ${oneLine(labelWords(words, rig))}` });

/** Least and most of every load, share and place of a centre of gravity, with the letters of the states that take them. */
export function renderRanges(
  { reach, ranges, bases, indexOf }: FoundReach,
  { units, paint, width }: EnvelopeStyle,
): string[] {
  const { rig } = reach.result;
  const byName = new Map(ranges.map((told) => [told.range.name, told]));
  const isMoved = (name: string) => {
    const influence = bases[0]?.quantities.get(name)?.influence;
    return influence === undefined || !isConstant(influence);
  };
  const rows = inOrder(rig, (name) => (isMoved(name) ? byName.get(name) : undefined));
  const cells = ({ words, range, least, most, named }: (typeof rows)[number]): Cell[] => {
    const show = (value: number) => formatComputed({ ...range, value } satisfies Computed, units);
    return [
      labelCell(words, rig),
      { text: show(range.least.value) },
      dim(least === undefined ? '(bound)' : letterOf(indexOf(least))),
      { text: show(range.most.value) },
      dim(most === undefined ? '(bound)' : letterOf(indexOf(most))),
      { text: spanText(named, show) },
    ];
  };
  const of = reach.case === undefined ? 'named cases' : 'as named';
  const heads = [['', 'least', 'in', 'most', 'in', of].map(dim)];
  return renderFitted(
    {
      columns: [LEFT, RIGHT, LEFT, RIGHT, LEFT, LEFT],
      heads,
      rows: byUnit(rows, cells),
      words: 0,
      narrowest: 16,
      indent: INDENT,
      stacked: (row) => stackedRange(row, of, width),
    },
    { paint, width },
  );
}

function spanText(named: ToldRange['named'], show: (value: number) => string): string {
  if (named === undefined) return '';
  const [least, most] = [show(named.least), show(named.most)];
  return least === most ? least : `${least} to ${most}`;
}

function stackedRange(row: readonly Cell[], of: string, width: number): string[] {
  const [label = '', least, from, most, to, named] = row.map(({ text }) => text);
  if (row.length === 1) return wrap(label, width, INDENT, INDENT);
  const text = `${label.trim()}: ${least} (${from}) to ${most} (${to})${named ? `, ${of} ${named}` : ''}`;
  return wrap(text, width, `${INDENT}  `, `${INDENT}    `);
}

/** Limits by their verdict, those that are broken first, each with the state that is worst for it. */
export function renderMargins(reach: FoundReach, style: EnvelopeStyle): string[] {
  const { width, paint } = style;
  const of = (verdict: ReachMargin['verdict'], found?: ReachMargin['found']) =>
    reach.margins.filter((margin) => margin.verdict === verdict && (found ?? margin.found) === margin.found);
  const states = reach.reach.case === undefined ? 'every reachable state' : 'every state of the case';
  const holding = (found: ReachMargin['found'], heading: string) => {
    const margins = of('holds', found);
    return margins.length === 0
      ? []
      : [...wrap(heading, width, INDENT, INDENT), ...renderHolding(reach, margins, style)];
  };
  return [
    ...of('broken').flatMap((margin) =>
      wrap(brokenText(margin, letterOf(reach.indexOf(margin.worst.witness)), style), width, INDENT, `${INDENT}  `).map(
        (line) => paint(margin.limit.weight === 'practice' ? 'warning' : 'error', line),
      ),
    ),
    ...holding('proved', `holds in ${states} (proved):`),
    ...holding('sampled', 'holds in the states tried (sampled):'),
  ];
}

/** `RW501 Axle of Hauler, the load: broken with fresh 100 %, else as in case going (C): 1 650 kg, at most 1 600 kg (its rating), margin -50 kg`. */
function brokenText({ limit, worst, margin }: ReachMargin, letter: string, { units }: EnvelopeStyle): string {
  const { limited, code } = limit;
  const format = (value: number) => formatLimited(limited, value, units);
  const { value, witness } = worst;
  const what = `${code} ${figureName(limit)}: broken ${witness.state.label} (${letter})`;
  return oneLine(
    `${what}: ${format(value)}, ${withReason(`${limited.sense} ${format(worst.limit)}`, limited.limitName)}, margin ${formatDifference(limited, margin, units)}`,
  );
}

function figureName({ limited: { subject, quantity }, cases }: ReachMargin['limit']): string {
  const where = cases === undefined ? '' : `, in ${cases.length === 1 ? 'case' : 'cases'} ${listed(cases)}`;
  return oneLine(`${subject}, ${quantity.replace(/,$/, '')}${where}`);
}

function renderHolding(
  { indexOf }: FoundReach,
  margins: readonly ReachMargin[],
  { units, paint, width }: EnvelopeStyle,
): string[] {
  const rows = margins.map(({ limit, worst, margin }) => {
    const { limited, code } = limit;
    const format = (value: number) => formatLimited(limited, value, units);
    return [
      dim(code),
      { text: figureName(limit) },
      { text: format(worst.value) },
      { text: `${limited.sense} ${format(worst.limit)}` },
      { text: format(margin) },
      dim(letterOf(indexOf(worst.witness))),
    ];
  });
  return renderFitted(
    {
      columns: [LEFT, LEFT, RIGHT, LEFT, RIGHT, LEFT],
      heads: [['', '', 'worst', 'limit', 'margin', 'in'].map(dim)],
      rows,
      words: 1,
      narrowest: 18,
      indent: `${INDENT}  `,
      stacked: ([code, what, value, limit, room, state]) =>
        wrap(
          `${code?.text} ${what?.text}: ${value?.text}, ${limit?.text}, margin ${room?.text} (${state?.text})`,
          width,
          `${INDENT}  `,
          `${INDENT}    `,
        ),
    },
    { paint, width },
  );
}

/** A state with everything that is other in it. */
export const wholeText = (witness: Pick<Witness, 'differences' | 'base'>): string =>
  differencesText(witness, Number.POSITIVE_INFINITY);

/** What the letters stand for. */
export function renderStates({ states }: FoundReach, { width }: EnvelopeStyle): string[] {
  return states.flatMap((witness, index) =>
    wrap(oneLine(`${letterOf(index)}: ${wholeText(witness)}`), width, INDENT, `${INDENT}   `),
  );
}

const MOST_NAMED = 3;
/** Smaller shares of a variance are not worth a name. */
const LEAST_NAMED = 0.05;

const COORDINATES = { mass: '', x: ' lengthwise', y: ' crosswise', z: ' height' } as const;

/** Worst case and standard deviation beside each other, with what contributes most. */
export function renderTolerances(
  { state: { rig }, quantities }: FoundTolerances,
  { units, paint, width }: EnvelopeStyle,
): string[] {
  const byName = new Map(quantities.map((each) => [each.name, each]));
  // What would be shown as nothing is left out.
  const isSeen = ({ name, dimension, standardDeviation }: QuantityTolerance) =>
    !/^0(?![.\d])/.test(deviationText({ name, dimension, value: standardDeviation }, units));
  const rows = inOrder(rig, (name) => byName.get(name)).filter(isSeen);
  const cells = ({ words, name, dimension, value, least, most, standardDeviation, effects }: (typeof rows)[number]) => {
    const show = (figure: number) => deviationText({ name, dimension, value: figure }, units);
    const [below, above] = [show(value - least), show(most - value)];
    return [
      labelCell(words, rig),
      { text: formatComputed({ name, dimension, value }, units) },
      { text: below === above ? `± ${above}` : `-${below} +${above}` },
      { text: show(standardDeviation) },
      { text: largestText(effects) },
    ];
  };
  return renderFitted(
    {
      columns: [LEFT, RIGHT, RIGHT, RIGHT, LEFT],
      heads: [['', 'as stated', 'worst case', 'std dev', 'mostly by'].map(dim)],
      rows: byUnit(rows, cells),
      words: 4,
      narrowest: 20,
      indent: INDENT,
      stacked: (row) => stackedTolerance(row, width),
    },
    { paint, width },
  );
}

/** Finer than the quantity itself, which is shown to a tenth of a per cent where it is a share. */
function deviationText(deviation: Computed, units: DisplaySystem): string {
  const unit = formatComputed(deviation, units).endsWith('%') ? '%' : undefined;
  return formatQuantity(deviation, unit, { significant: 3, maximumDecimals: 3, system: units });
}

/** `Hauler.tare lengthwise 61 %, crate 15 %`. */
function largestText(effects: readonly ToleranceEffect[]): string {
  const named = effects.slice(0, MOST_NAMED).filter(({ share }, index) => index === 0 || share >= LEAST_NAMED);
  return oneLine(named.map(({ source, of, share }) => `${source.name}${COORDINATES[of]} ${percent(share)}`).join(', '));
}

const percent = (share: number): string => `${Math.round(share * 100)} %`;

function stackedTolerance(row: readonly Cell[], width: number): string[] {
  const [label = '', value, worst, deviation, mostly] = row.map(({ text }) => text);
  if (row.length === 1) return wrap(label, width, INDENT, INDENT);
  const text = `${label.trim()}: ${value}, worst case ${worst}, std dev ${deviation}, mostly by ${mostly}`;
  return wrap(text, width, `${INDENT}  `, `${INDENT}    `);
}
