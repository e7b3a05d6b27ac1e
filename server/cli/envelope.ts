import type { DisplaySystem } from '../../language/units/display.ts';
import type { FoundEnvelope, FoundReach, FoundTolerances } from './envelope-results.ts';
import {
  type EnvelopeStyle,
  freedomText,
  renderMargins,
  renderRanges,
  renderStates,
  renderTolerances,
} from './envelope-table.ts';
import { rigHeading } from './loads.ts';
import type { Paint } from './terminal.ts';
import { listed, oneLine, wrap } from './text.ts';
import { unitsFor } from './units.ts';

/** What the ranges and verdicts say, and what they do not say. */
export const ENVELOPE_NOTE =
  'Least and most over all states that tanks, seats and items can be in as listed, standing on level ground. Proved: no such ' +
  'state is nearer to the limit or further beyond it. Sampled: none of those tried is. Nothing is said of what is loaded ' +
  'otherwise.';

/** What the mark beside a least stands for that is conservative. */
const BOUND_NOTE = '(bound): it can tilt to either side, so that no state has less; perhaps none has as little.';

/** What the two figures of tolerances assume. */
export const TOLERANCE_NOTE =
  'Worst case: everything anywhere within its tolerance at once, exact. Standard deviation: first order about the case as ' +
  'stated, each tolerance taken as the limits of a rectangular distribution (half width / √3, JCGM 100:2008, 4.3.7), ' +
  'independent of the others; named with their share of the variance.';

export interface EnvelopeOptions {
  /** Those of each rig where absent. */
  readonly units?: DisplaySystem;
  readonly paint: Paint;
  readonly width: number;
}

/** Between what the quantities of rigs lie, how their limits stand there, and what tolerances do. */
export function renderEnvelopes(envelopes: readonly FoundEnvelope[], options: EnvelopeOptions): string[] {
  return envelopes.flatMap((envelope, index) => [...(index > 0 ? [''] : []), ...renderEnvelope(envelope, options)]);
}

function renderEnvelope({ found, reaches, tolerances }: FoundEnvelope, options: EnvelopeOptions): string[] {
  const { paint, width } = options;
  const { rig, states } = found.result;
  const head = rigHeading(found, paint);
  if (states.length === 0)
    return [head, ...wrap('No loads: `rigwright check` says what is missing.', width, '  ', '  ')];
  const style: EnvelopeStyle = { paint, width, units: unitsFor(rig, options.units) };
  return [
    head,
    ...reaches.flatMap((reach) => ['', ...renderReach(reach, style)]),
    ...tolerances.flatMap((each) => ['', ...renderCaseTolerances(each, style)]),
  ];
}

function renderReach(found: FoundReach, style: EnvelopeStyle): string[] {
  const { paint, width } = style;
  const { reach, bases, ranges, margins, unbounded } = found;
  const [base] = bases;
  const name = reach.case === undefined || base === undefined ? 'everything reachable' : oneLine(base.label);
  const heading = (text: string) => `  ${paint('heading', text)}`;
  return [
    heading(name),
    ...wrap(oneLine(freedomText(reach)), width, INDENT, INDENT),
    ...renderRanges(found, style),
    ...(ranges.every(({ range }) => range.exact) ? [] : wrap(BOUND_NOTE, width, INDENT, INDENT)),
    ...unboundedLines(unbounded, style),
    ...(margins.length === 0 ? [] : [heading(`limits in ${name}`), ...renderMargins(found, style)]),
    heading('states'),
    ...renderStates(found, style),
  ];
}

const INDENT = '    ';

function renderCaseTolerances(found: FoundTolerances, style: EnvelopeStyle): string[] {
  const heading = `tolerances in ${oneLine(found.state.label)}`;
  return [
    `  ${style.paint('heading', heading)}`,
    ...renderTolerances(found, style),
    ...unboundedLines(found.unbounded, style),
  ];
}

/** The ratios that a table does not have, and why. */
function unboundedLines(names: readonly string[], { width }: EnvelopeStyle): string[] {
  if (names.length === 0) return [];
  return wrap(oneLine(`Without bounds, since what divides can be nothing: ${listed(names)}.`), width, INDENT, INDENT);
}
