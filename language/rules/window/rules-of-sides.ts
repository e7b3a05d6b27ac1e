import type { Span } from '../../mechanics/half-planes.ts';
import { type Onward, type Printed, printed, toStep } from './amount.ts';
import type { Chosen } from './choose.ts';
import type { Side } from './sides.ts';
import type { OperatingWindow } from './window.ts';

/** A side of a window as a rule in printed figures: what keeps it and `Extents` stays inside the window. */
export interface SideRule {
  readonly side: Side;
  /** What is bounded. */
  readonly kept: Chosen;
  /** What tells by how much. */
  readonly by: Chosen;
  /**
   * The bound at amounts of the other, rising; one without an amount where it is the same at all of them. Where the first or
   * the last of them binds nothing, `onward` says that all amounts beyond it do not either.
   */
  readonly at: readonly { readonly when?: number; readonly bound: number; readonly onward?: Onward }[];
}

/** Between what the two amounts lie in the window, in printed figures. */
export interface Extents {
  readonly u: Printed;
  readonly v: Printed;
}

/** Undefined of no window. */
export function extentsOf({ corners, axes: [first, second], box }: OperatingWindow): Extents | undefined {
  if (corners.length === 0) return undefined;
  const span = (axis: 'u' | 'v'): Span => {
    const all = corners.map((corner) => corner[axis]);
    return { least: Math.min(...all), most: Math.max(...all) };
  };
  return { u: printed(first, span('u'), box.u), v: printed(second, span('v'), box.v) };
}

/** The rule of each side. */
export function rulesOf(window: OperatingWindow): SideRule[] {
  const extents = extentsOf(window);
  return extents === undefined ? [] : window.sides.map((side) => ruleOf(window, side, extents));
}

/** As many amounts of the other are told: the bound bends to the safe side between, so that fewer of them are safe too. */
const MOST_TOLD = 4;

function ruleOf({ axes: [first, second], box }: OperatingWindow, side: Side, extents: Extents): SideRule {
  const { axis, sense } = side.bounds;
  const isMost = sense === 'at most';
  const [kept, by] = axis === 'u' ? [first, second] : [second, first];
  const [own, other] = axis === 'u' ? [extents.u, extents.v] : [extents.v, extents.u];
  const free = isMost ? box[axis].most : box[axis].least;
  const lines = side.borders.map(({ a, b, c }) =>
    axis === 'u' ? { slope: -b / a, base: -c / a } : { slope: -a / b, base: -c / b },
  );
  const boundAt = (when: number): number => {
    const bounds = lines.map(({ slope, base }) => slope * when + base);
    const tightest = isMost ? Math.min(...bounds, box[axis].most) : Math.max(...bounds, box[axis].least);
    return toStep(Math.min(box[axis].most, Math.max(box[axis].least, tightest)), own.step, isMost ? 'down' : 'up');
  };
  const whens = tellingAmounts(side, lines, other, free);
  const bites = whens.map((when) => boundAt(when) !== free);
  const from = Math.max(0, bites.indexOf(true) - 1);
  const to = Math.min(whens.length, bites.lastIndexOf(true) + 2);
  const told = thinned(bites.includes(true) ? whens.slice(from, to) : whens);
  const at = told.map((when, index) => {
    const bound = boundAt(when);
    const isFree = bound === free;
    const onward: Onward | undefined =
      isFree && index === 0 && when > other.least
        ? 'less'
        : isFree && index === told.length - 1 && when < other.most
          ? 'more'
          : undefined;
    return { when, bound, ...(onward === undefined ? {} : { onward }) };
  });
  const [bound = free, ...others] = at.map((each) => each.bound);
  return { side, kept, by, at: others.every((each) => each === bound) ? [{ bound }] : at };
}

interface Line {
  readonly slope: number;
  readonly base: number;
}

/** Where a bound is told: at both ends, where it turns, and where it comes to bind nothing. Rising. */
function tellingAmounts(
  { corners, bounds: { axis, sense } }: Side,
  lines: readonly Line[],
  { least, most, step }: Printed,
  free: number,
): number[] {
  const turns = corners.slice(1, -1).map(({ u, v }) => toStep(axis === 'u' ? v : u, step, 'nearest'));
  const freed = lines.flatMap(({ slope, base }) =>
    slope === 0 ? [] : [toStep((free - base) / slope, step, slope > 0 === (sense === 'at most') ? 'up' : 'down')],
  );
  const within = [...turns, ...freed].filter((when) => when > least && when < most);
  return [...new Set([least, ...within, most])].sort((a, b) => a - b);
}

function thinned(all: readonly number[]): number[] {
  if (all.length <= MOST_TOLD) return [...all];
  const at = Array.from({ length: MOST_TOLD }, (_, index) => Math.round((index * (all.length - 1)) / (MOST_TOLD - 1)));
  return at.flatMap((index) => all[index] ?? []);
}
