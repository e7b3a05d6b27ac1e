import type { Frame } from './axes.ts';
import { type Point, type Text, text } from './drawing.ts';
import { FONT_SIZE } from './style.ts';
import { textWidth } from './words.ts';

/** A text that belongs to a point. */
export interface PointLabel {
  readonly at: Point;
  readonly role: 'label' | 'remark';
  readonly text: string;
  /** Where it may stand: beside a point that is marked, or about a place that is not, if there is room. */
  readonly where: 'beside' | 'about';
}

interface Area {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** px between a point and its label. */
const GAP = 8;
/** Height of a line over the size of its font. */
const LINE = 1.2;
/** px on either side of a point that stay free. */
const CLEARANCE = { marked: 5, obstacle: 2 };

/**
 * Labels by their points, inside a frame, each where no earlier one, no marked point and no obstacle stands; at the first
 * place where all are taken; about a place that is not marked none stands then.
 */
export function placeLabels(labels: readonly PointLabel[], frame: Frame, obstacles: readonly Point[] = []): Text[] {
  const taken = [
    ...obstacles.map((point) => around(point, CLEARANCE.obstacle)),
    ...labels.flatMap(({ at, where }) => (where === 'beside' ? [around(at, CLEARANCE.marked)] : [])),
  ];
  return labels.flatMap((label) => {
    const places = placesOf(label);
    const within = places.filter(({ area }) => isInside(area, frame));
    const free = within.find(({ area }) => !taken.some((other) => overlap(area, other)));
    if (free === undefined && label.where === 'about') return [];
    const chosen = free ?? within[0] ?? places[0];
    if (chosen !== undefined) taken.push(chosen.area);
    return [chosen?.label ?? text(label.role, label.at.x, label.at.y, label.text)];
  });
}

/** Rows from the point, the nearest first; upward is negative. */
const ROWS = [0, -1, 1, -2, 2, -3, 3];

function placesOf({ at, role, text: words, where }: PointLabel): { readonly area: Area; readonly label: Text }[] {
  const [width, height] = [textWidth(words, role), FONT_SIZE[role] * LINE];
  return ROWS.flatMap((row) => {
    const y = at.y + row * height;
    const place = (anchor: Text['anchor'], x: number, left: number) => ({
      area: { left, right: left + width, top: y - height / 2, bottom: y + height / 2 },
      label: text(role, x, y + height / 3, words, anchor),
    });
    const middle = place('middle', at.x, at.x - width / 2);
    if (where === 'about') return [middle];
    const sides = [place('start', at.x + GAP, at.x + GAP), place('end', at.x - GAP, at.x - GAP - width)];
    return row === 0 ? sides : [...sides, middle];
  });
}

const around = ({ x, y }: Point, by: number): Area => ({ left: x - by, right: x + by, top: y - by, bottom: y + by });

function isInside(area: Area, frame: Frame): boolean {
  return area.left >= frame.left && area.right <= frame.right && area.top >= frame.top && area.bottom <= frame.bottom;
}

function overlap(a: Area, b: Area): boolean {
  return a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
}
