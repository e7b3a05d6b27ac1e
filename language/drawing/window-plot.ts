import { amountText, nearestAmount } from '../rules/window/amount.ts';
import type { Chosen } from '../rules/window/choose.ts';
import type { OperatingWindow } from '../rules/window/window.ts';
import { heldText, type WindowWords, windowWords } from '../rules/window/words.ts';
import { VOLUME } from '../units/dimension.ts';
import { type DisplaySystem, formatValue } from '../units/display.ts';
import { type Plane, planeOf } from './axes.ts';
import { captionGroup } from './caption.ts';
import { type Drawing, type Group, line, mark, type Point, type Shape, type Text, text } from './drawing.ts';
import { hatchAround } from './hatch.ts';
import { placeLabels } from './labels.ts';
import { FONT_SIZE } from './style.ts';
import { breakText, fitText, textWidth } from './words.ts';

const WIDTH = 980;
const FRAME = { left: 70, right: 590, top: 100, bottom: 520 };
const LABELS = 622;
const LINE = 16;

/**
 * The window of two amounts as a polygon: what is not allowed is hatched, each side has the number of its limit, which stands
 * beside it and in the rules below; named cases are points. For printing, too.
 */
export function windowPlot(window: OperatingWindow, system: DisplaySystem = 'metric', caution = ''): Drawing {
  const { axes, result } = window;
  const [first, second] = axes;
  const words = windowWords(window, system);
  const plane = planeOf(FRAME, { x: rangeOf(first, system), y: { ...rangeOf(second, system), above: 12 } });
  const place = (u: number, v: number): Point => plane.place(shown(first, u), shown(second, v));
  const paragraphs = [
    words.verdict,
    ...words.rules.map(({ rule, limit }, index) => `${index + 1}: ${rule}: ${limit}.`),
    ...words.conflicts,
    ...words.notes,
    ...(caution === '' ? [] : [caution]),
  ];
  const caption = captionGroup(paragraphs, { left: 16, top: FRAME.bottom + 50, width: WIDTH - 32 });
  return {
    name: `window-${result.rig.name}-${first.name}-${second.name}`,
    width: WIDTH,
    height: FRAME.bottom + 50 + caption.height + 18,
    title: `${result.rig.name}: operating window of ${first.short} and ${second.short}`,
    description: paragraphs.join(' '),
    groups: [
      headingGroup(window, words),
      plane.axes,
      outside(window, place),
      ...borderGroups(window, words, place),
      pointGroup(window, plane, place),
      limitList(window, words),
      caption.group,
    ],
  };
}

/** Levels in per cent, pieces as they are. */
function shown({ kind }: Chosen, amount: number): number {
  return kind === 'tank' ? 100 * amount : amount;
}

/** Ticks of an axis of levels. */
const TICKS = 10;

function rangeOf(chosen: Chosen, system: DisplaySystem) {
  const { least, most, short, kind } = chosen;
  const label =
    kind === 'tank'
      ? `${short}, % of ${formatValue(chosen.tank.capacity, VOLUME, system)}`
      : `${short}, pieces on board`;
  const ticks = kind === 'tank' ? TICKS : Math.min(TICKS, Math.max(1, chosen.pieces));
  return { least: shown(chosen, least), most: shown(chosen, most), label, ticks };
}

type Place = (u: number, v: number) => Point;

function outside({ box: { u, v }, corners }: OperatingWindow, place: Place): Group {
  const [low, high] = [place(u.least, v.least), place(u.most, v.most)];
  const polygon = corners.map((corner) => place(corner.u, corner.v));
  const border = [low, { x: high.x, y: low.y }, high, { x: low.x, y: high.y }, low];
  const middle = { x: (low.x + high.x) / 2, y: (low.y + high.y) / 2 };
  return {
    title: 'Hatched: some limit can be broken',
    shapes: [
      ...hatchAround({ left: low.x, right: high.x, top: high.y, bottom: low.y }, polygon),
      ...border.slice(1).map((to, index): Shape => line('axis', border[index] ?? to, to)),
      ...(corners.length === 0
        ? [text('label', middle.x, middle.y, 'no window: nothing here holds every limit', 'middle')]
        : []),
    ],
  };
}

/** The sides of the box that bound the window, then the sides that limits make. */
function borderGroups({ corners, sides }: OperatingWindow, words: WindowWords, place: Place): Group[] {
  const plain = corners.flatMap((corner, index): Shape[] => {
    const next = corners[(index + 1) % corners.length];
    if (corner.side !== undefined || next === undefined) return [];
    return [line('zero', place(corner.u, corner.v), place(next.u, next.v))];
  });
  const limited = sides.map((side, index): Group => {
    const points = side.corners.map(({ u, v }) => place(u, v));
    const at = middleOf(points);
    const title = words.rules[index];
    return {
      ...(title === undefined ? {} : { title: `${title.limit}. ${title.rule}` }),
      shapes: [
        { shape: 'curve', role: 'curve', series: index, points },
        text('label', at.x, at.y + FONT_SIZE.label / 3, String(index + 1), 'middle'),
      ],
    };
  });
  return [{ shapes: plain }, ...limited];
}

function middleOf(points: readonly Point[]): Point {
  const [a, b] = [points[Math.floor((points.length - 1) / 2)], points[Math.ceil((points.length - 1) / 2)]];
  const [first, last] = points.length === 2 ? points : [a, b];
  if (first === undefined || last === undefined) return { x: 0, y: 0 };
  return { x: (first.x + last.x) / 2, y: (first.y + last.y) / 2 };
}

/** Named cases, what was tried and broken, and the corners that limits make. */
function pointGroup(window: OperatingWindow, { frame }: Plane, place: Place): Group {
  const { axes, box, corners, points, tried } = window;
  const [first, second] = axes;
  const cases = new Map<string, { readonly at: Point; readonly names: string[] }>();
  for (const { name, u, v } of points) {
    const isShown = u >= box.u.least && u <= box.u.most && v >= box.v.least && v <= box.v.most;
    if (!isShown) continue;
    const at = place(u, v);
    const key = `${at.x} ${at.y}`;
    const known = cases.get(key);
    if (known === undefined) cases.set(key, { at, names: [name] });
    else known.names.push(name);
  }
  const named = [...cases.values()].map(({ at, names }) => ({
    at,
    role: 'label' as const,
    text: names.join(', '),
    where: 'beside' as const,
  }));
  // A bent side has corners of its own, closer together than their labels: the caption tells where it bends.
  const ends = new Set(window.sides.flatMap((side) => [side.corners[0], side.corners.at(-1)]));
  const turning = corners
    .filter((corner) => ends.has(corner))
    .map(({ u, v }) => ({
      at: place(u, v),
      role: 'remark' as const,
      where: 'beside' as const,
      text: `${amountText(first, nearestAmount(first, u))}, ${amountText(second, nearestAmount(second, v))}`,
    }));
  const middle = centreOf(corners.map(({ u, v }) => place(u, v)));
  const verdict =
    middle === undefined
      ? []
      : [{ at: middle, role: 'label' as const, text: `${heldText(window)} holds`, where: 'about' as const }];
  const lines = window.sides.flatMap((side) => dotted(side.corners.map(({ u, v }) => place(u, v))));
  const inside = verdict.map(({ text }) => text);
  const polygon = corners.map(({ u, v }) => place(u, v));
  // Beside a narrow window the verdict would say of the hatched part what holds in the other.
  const labels = placeLabels([...named, ...turning, ...verdict], frame, lines).filter(
    (label) => !inside.includes(label.text) || isTextInside(polygon, label),
  );
  return {
    shapes: [
      ...tried.flatMap(({ broken }) => broken.map(({ u, v }) => mark('cross', place(u, v)))),
      ...named.map(({ at }) => mark('dot', at)),
      ...labels,
    ],
  };
}

/** The mean of the corners: inside a convex polygon. */
function centreOf(points: readonly Point[]): Point | undefined {
  if (points.length === 0) return undefined;
  const mean = (axis: 'x' | 'y') => points.reduce((sum, point) => sum + point[axis], 0) / points.length;
  return { x: mean('x'), y: mean('y') };
}

/** Whether a text in the middle of its place lies inside a convex polygon. */
function isTextInside(polygon: readonly Point[], { at, text: words }: Text): boolean {
  const half = textWidth(words, 'label') / 2;
  const top = at.y - FONT_SIZE.label;
  return [at.x - half, at.x + half].every((x) => [top, at.y].every((y) => isInside(polygon, { x, y })));
}

/** On the same side of all sides of a convex polygon. */
function isInside(polygon: readonly Point[], { x, y }: Point): boolean {
  const turns = polygon.map((a, index) => {
    const b = polygon[(index + 1) % polygon.length] ?? a;
    return (b.x - a.x) * (y - a.y) - (b.y - a.y) * (x - a.x);
  });
  return turns.every((turn) => turn >= 0) || turns.every((turn) => turn <= 0);
}

/** px between the points that stand for a line. */
const DOTS = 4;

function dotted(points: readonly Point[]): Point[] {
  return points.slice(1).flatMap((b, index) => {
    const a = points[index] ?? b;
    const count = Math.max(1, Math.ceil(Math.hypot(b.x - a.x, b.y - a.y) / DOTS));
    return Array.from({ length: count + 1 }, (_, step) => ({
      x: a.x + ((b.x - a.x) * step) / count,
      y: a.y + ((b.y - a.y) * step) / count,
    }));
  });
}

/** The limits by number, each with a line in the look of its side. */
function limitList({ sides, conflict, tried }: OperatingWindow, words: WindowWords): Group {
  const width = WIDTH - LABELS - 58;
  const shapes: Shape[] = [];
  let y = FRAME.top + 8;
  for (const [index, { limit }] of words.rules.entries()) {
    if (sides[index] === undefined) continue;
    const lines = breakText(limit, 'label', width);
    shapes.push(line('curve', { x: LABELS, y: y - 4 }, { x: LABELS + 26, y: y - 4 }, index));
    shapes.push(text('label', LABELS + 32, y, `${index + 1}`));
    for (const [row, each] of lines.entries()) shapes.push(text('label', LABELS + 48, y + row * LINE, each));
    y += lines.length * LINE + 10;
  }
  const key = (marker: Shape[], words: string): void => {
    shapes.push(...marker, text('remark', LABELS + 48, y, words));
    y += LINE + 4;
  };
  const middle = () => ({ x: LABELS + 13, y: y - 4 });
  const [left, right] = [LABELS, LABELS + 26];
  if (sides.length > 0 || conflict !== undefined) {
    key(hatchAround({ left, right, top: y - 12, bottom: y + 3 }, []), 'some limit can be broken');
  }
  key([mark('dot', middle())], 'levels of a named case');
  if (tried.some(({ broken }) => broken.length > 0)) key([mark('cross', middle())], 'tried, and a limit is broken');
  return { shapes };
}

function headingGroup({ result: { rig } }: OperatingWindow, words: WindowWords): Group {
  const title = rig.title === undefined ? '' : ` – ${rig.title}`;
  const heading = `${rig.name}: operating window${title}`;
  return {
    shapes: [
      text('heading', 16, 28, fitText(heading, 'heading', WIDTH - 32)),
      text('remark', 16, 50, fitText(`${words.heading}; on level ground`, 'remark', WIDTH - 32)),
    ],
  };
}
