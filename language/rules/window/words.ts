import { REQUIREMENTS } from '../../diagnostics/requirements.ts';
import { listed, withReason } from '../../diagnostics/wording.ts';
import { beyond, type Span } from '../../mechanics/half-planes.ts';
import type { DisplaySystem } from '../../units/display.ts';
import { excessOf, formatLimited } from '../limits/check-limits.ts';
import type { Worst } from '../reach/breach.ts';
import type { ReachLimit } from '../reach/reach-limit.ts';
import { amountInFull, amountText, nearestAmount, stateWords } from './amount.ts';
import type { Chosen } from './choose.ts';
import type { Broken } from './conflict.ts';
import { isPhysical } from './question.ts';
import { extentsOf, rulesOf, type SideRule } from './rules-of-sides.ts';
import type { Tried } from './tried.ts';
import type { CasePoint, OperatingWindow } from './window.ts';

/** A window as a load guide tells it. */
export interface WindowWords {
  /** `fresh and waste of Holiday, whatever else is on board`. */
  readonly heading: string;
  /** Between what both lie, that any amount will do, or that none does. */
  readonly verdict: string;
  /** One for each side of the window, in its order. */
  readonly rules: readonly RuleWords[];
  /** Why there is no window. */
  readonly conflicts: readonly string[];
  /** What has to be known to read them. */
  readonly notes: readonly string[];
}

export interface RuleWords {
  /** `Keep waste at or under 55 % (38.5 L, 39.2 kg) when fresh is empty, 72 % (50.4 L, 51.4 kg) when fresh is full`. */
  readonly rule: string;
  /** `RW502 Axle group of Tourer, the load: at most 2 200 kg (its rating)`. */
  readonly limit: string;
  /** What the rest is at the limit: `with fuel 100 %, else as in case departing`, `with the rest as in case departing`. */
  readonly worst?: string;
}

export function windowWords(window: OperatingWindow, system: DisplaySystem): WindowWords {
  const { axes, result, conflict } = window;
  const [first, second] = axes;
  return {
    heading: `${first.short} and ${second.short} of ${result.rig.name}, ${restWords(window)}`,
    verdict: verdictOf(window, system),
    rules: rulesOf(window).map((rule) => ({
      rule: ruleWords(rule, system),
      limit: limitWords(rule.side.limit, rule.side.worst, system),
      ...(rule.side.worst === undefined ? {} : { worst: restState(rule.side.worst) }),
    })),
    conflicts: conflict === undefined ? [] : conflictWords(window, system),
    notes: notesOf(window, system),
  };
}

/** What the rest of a state is, past the two amounts. */
export function restState({ witness: { state, base, differences } }: Worst): string {
  return differences.length === 0 ? `with the rest as in case ${base.name}` : state.label;
}

/** What is proved inside of a window. */
export function heldText({ tried }: Pick<OperatingWindow, 'tried'>): string {
  return tried.length === 0 ? 'every limit' : 'every limit that is a load';
}

function restWords({ case: state }: OperatingWindow): string {
  return state === undefined ? 'whatever else is on board' : `the rest as in case ${state.name}`;
}

function verdictOf(window: OperatingWindow, system: DisplaySystem): string {
  const { axes, corners, sides } = window;
  const [first, second] = axes;
  const extents = extentsOf(window);
  if (corners.length === 0 || extents === undefined) {
    return `No ${amountsWord(axes)} of ${first.short} and ${second.short} holds every limit, ${restWords(window)}.`;
  }
  const spans = `${spanWords(first, extents.u, system)} and ${spanWords(second, extents.v, system)}`;
  const all = heldText(window);
  const rest = restWords(window);
  if (sides.length > 0) {
    return `${all.charAt(0).toUpperCase()}${all.slice(1)} holds, ${rest}, with ${spans}, where these rules are kept too:`;
  }
  if (window.tried.some(({ broken }) => broken.length > 0)) {
    return `No limit that is a load bounds ${spans}, ${rest}; others are broken at some of them.`;
  }
  return `Any ${amountsWord(axes)} of ${first.short} and ${second.short} will do, ${rest}: ${all} holds with ${spans}.`;
}

function amountsWord(axes: readonly [Chosen, Chosen]): string {
  const word = axes.every(({ kind }) => kind === 'tank') ? 'level' : 'amount';
  return axes.some(isRestricted) ? `reachable ${word}` : word;
}

/** Whether the reachable states leave out some levels of a tank. */
export function isRestricted({ kind, least, most }: Chosen): boolean {
  return kind === 'tank' && (least > 0 || most < 1);
}

/** `fresh from 0 % to 55 % (38.5 L, 38.5 kg)`, `awning on board or left behind`. */
function spanWords(chosen: Chosen, { least, most }: Span, system: DisplaySystem): string {
  const { short, kind } = chosen;
  if (kind === 'item' && chosen.pieces === 1 && Number.isInteger(least) && Number.isInteger(most)) {
    return `${short} ${least < most ? 'on board or left behind' : most > 0 ? 'on board' : 'left behind'}`;
  }
  const from = least === most ? 'at' : `from ${amountText(chosen, least)} to`;
  return `${short} ${from} ${amountInFull(chosen, most, system, 'down')}`;
}

function ruleWords({ side, kept, by, at }: SideRule, system: DisplaySystem): string {
  const { sense } = side.bounds;
  const rounding = sense === 'at most' ? 'down' : 'up';
  const when = (index: number, { when: amount, onward }: SideRule['at'][number]) =>
    amount === undefined ? '' : ` when ${stateWords(by, amount, index > 0, onward)}`;
  if (kept.kind === 'item' && kept.pieces === 1) {
    const told = at.map((each, index) => `${pieceWords(kept.short, sense, each.bound)}${when(index, each)}`);
    const text = told.join('; ');
    return `${text.charAt(0).toUpperCase()}${text.slice(1)}`;
  }
  const bounds = at
    .map((each, index) => `${amountInFull(kept, each.bound, system, rounding)}${when(index, each)}`)
    .join(', ');
  if (kept.kind === 'item') return `Of ${amountText(kept, kept.pieces)} ${kept.short} carry ${sense} ${bounds}`;
  return `Keep ${kept.short} at or ${sense === 'at most' ? 'under' : 'over'} ${bounds}`;
}

/** What a bound of a single piece means. */
function pieceWords(name: string, sense: 'at most' | 'at least', bound: number): string {
  if (sense === 'at most') return bound < 1 ? `leave ${name} behind` : `${name} may be on board`;
  return bound > 0 ? `keep ${name} on board` : `${name} may stay behind`;
}

/** `RW502 Axle group of Tourer, the load: at most 2 200 kg (its rating)`. */
export function limitWords({ limited, code }: ReachLimit, worst: Worst | undefined, system: DisplaySystem): string {
  const { subject, quantity, sense, limitName } = limited;
  const isRequired = code === REQUIREMENTS['requirement-violated'].code;
  const figure = isRequired ? subject : `${subject}, ${quantity.replace(/,$/, '')}`;
  const limit = worst === undefined ? limitName : formatLimited(limited, worst.limit, system);
  const text = `${code} ${figure}: ${sense} ${limit}`;
  if (isRequired) return `${text} (required in the file)`;
  return worst === undefined || isPhysical(code) ? text : withReason(text, limitName);
}

function conflictWords({ axes, conflict }: OperatingWindow, system: DisplaySystem): string[] {
  if (conflict === undefined) return [];
  const { alone, together } = conflict;
  if (alone.length > 0) return alone.map((broken) => `${brokenWords(axes, broken, system)}.`);
  const limits = together.map(({ limit, worst }) => limitWords(limit, worst, system));
  const last = together.at(-1);
  const least = last === undefined ? '' : ` Where the others hold: ${brokenWords(axes, last, system)}.`;
  return [`These do not hold at once: ${limits.join('; ')}.${least}`];
}

function brokenWords(
  [first, second]: readonly [Chosen, Chosen],
  { limit, u, v, worst }: Broken,
  system: DisplaySystem,
): string {
  const where = whereWords(first, u, second, v);
  const what = limitWords(limit, worst, system);
  if (worst === undefined) return `${what}, even when ${where}`;
  const { limited } = limit;
  const by = formatLimited(limited, excessOf(limited, worst), system);
  const over = limited.sense === 'at most' ? 'over' : 'under';
  return `${what}; even when ${where} it is ${formatLimited(limited, worst.value, system)}, ${by} ${over}, ${restState(worst)}`;
}

function whereWords(first: Chosen, u: number, second: Chosen, v: number): string {
  return `${stateWords(first, nearestAmount(first, u))} and ${stateWords(second, nearestAmount(second, v))}`;
}

function notesOf(window: OperatingWindow, system: DisplaySystem): string[] {
  const { axes, tolerances, sides, held, tried, points } = window;
  const { practice, off, elsewhere, unstated } = held;
  const TOLERANCES = {
    worst: 'Stated tolerances of masses and places count at their worst.',
    nominal: 'Masses and places count as stated, without their tolerances.',
    none: 'The files state no tolerances.',
  } as const;
  const counted = (count: number, one: string, many: string) =>
    count === 0 ? [] : [count === 1 ? `1 ${one}` : `${count} ${many}`];
  const left = [
    ...counted(practice, 'limit of common practice or recommendation', 'limits of common practice or recommendation'),
    ...counted(elsewhere, 'limit stated for another case', 'limits stated for other cases'),
  ];
  return [
    `On level ground. ${TOLERANCES[tolerances]}`,
    ...(rulesOf(window).some(({ at }) => at.length > 1)
      ? ['Between two figures of a sentence the bound changes in proportion.']
      : []),
    ...(sides.length > 0 ? ['Rules are rounded to the safe side, corners to the nearest figure.'] : []),
    ...axes
      .filter(isRestricted)
      .map(
        (axis) =>
          `Levels of ${axis.short} outside ${amountText(axis, axis.least)} to ${amountText(axis, axis.most)} are not reachable as the files state it, and were not looked at.`,
      ),
    ...(window.case === undefined && window.corners.length > 0 && points.some((point) => isOutside(window, point))
      ? [
          'A named case outside the window can hold all limits with what it has on board; the window leaves the rest open.',
        ]
      : []),
    ...(window.case === undefined && window.corners.length === 0
      ? ['A `reachable` block can say what else is on board; or the rest can be that of one case.']
      : []),
    ...(axes.some((axis) => axis.kind === 'item' && axis.pieces > 1)
      ? ['Fewer pieces of an item lie in proportion where all of them are stowed.']
      : []),
    ...(sides.some(({ exact }) => !exact)
      ? ['A limit that counts heights is taken on the safe side: its border is a little nearer than it has to be.']
      : []),
    ...tried.map((each) => triedWords(axes, each, system)),
    ...(left.length > 0 ? [`Not counted: ${listed(left)}.`] : []),
    ...(off.length > 0 ? [`Turned off: ${listed(off)}.`] : []),
    ...(unstated.length > 0 ? [`Not checked, since the files do not state it: ${unstatedWords(unstated)}.`] : []),
  ];
}

function isOutside({ borders }: OperatingWindow, point: CasePoint): boolean {
  return borders.some((border) => beyond(border, point) > 0);
}

function triedWords(
  [first, second]: readonly [Chosen, Chosen],
  { limit, at, broken }: Tried,
  system: DisplaySystem,
): string {
  const what = `Tried at ${at} pairs of amounts, not proved: ${limitWords(limit, broken[0]?.worst, system)}`;
  if (broken.length === 0) return `${what}. It holds at all of them.`;
  const worst = broken.reduce((most, each) => (each.worst.by > most.worst.by ? each : most));
  const where = whereWords(first, worst.u, second, worst.v);
  return `${what}. It is broken at ${broken.length} of them, most when ${where}, ${restState(worst.worst)}.`;
}

/** More of these are counted, not named. */
const MOST_UNSTATED = 3;

function unstatedWords(unstated: readonly string[]): string {
  const more = unstated.length - MOST_UNSTATED;
  return [
    ...unstated.slice(0, MOST_UNSTATED),
    ...(more > 0 ? [`and ${more} more; the table of limits has all`] : []),
  ].join('; ');
}
