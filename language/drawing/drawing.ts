/**
 * Pictures as data: what is to be seen, where, and what it means. Lengths in px of the drawing, from its upper left corner,
 * x to the right and y downward. How a role looks is said in `style.ts`; `svg.ts` writes a drawing as text.
 */

/** What a shape means. */
export type Role =
  | 'paper'
  | 'grid'
  | 'axis'
  /** The line at damping or deflection 0. */
  | 'zero'
  /** Where motion grows instead of dying out. */
  | 'growing'
  /** The time a pulse lasts. */
  | 'pulse'
  /** The intended speed. */
  | 'intended'
  /** A curve that counts, and one beside it. */
  | 'curve'
  | 'thin-curve'
  /** Lines over what is not allowed. */
  | 'hatch'
  /** From a curve's end to its label. */
  | 'leader'
  /** A point on a curve that is spoken of. */
  | 'mark'
  | 'heading'
  | 'label'
  /** Smaller text: ticks, figures below a label. */
  | 'remark'
  /** What has to be known to read the drawing. */
  | 'caption';

export interface Point {
  readonly x: number;
  readonly y: number;
}

interface Drawn {
  readonly role: Role;
  /** Curves, leaders and marks of one series share colour and dashes; counted from 0. */
  readonly series?: number;
}

export interface Line extends Drawn {
  readonly shape: 'line';
  readonly from: Point;
  readonly to: Point;
}

/** Straight from point to point; interrupted where a coordinate is no number. */
export interface Curve extends Drawn {
  readonly shape: 'curve';
  readonly points: readonly Point[];
}

export interface Rectangle extends Drawn {
  readonly shape: 'rectangle';
  readonly at: Point;
  readonly width: number;
  readonly height: number;
}

export interface Mark extends Drawn {
  readonly shape: 'dot' | 'cross';
  readonly at: Point;
}

/** One line of text; `at` is on its baseline. */
export interface Text extends Drawn {
  readonly shape: 'text';
  readonly at: Point;
  readonly text: string;
  readonly anchor: 'start' | 'middle' | 'end';
}

export type Shape = Line | Curve | Rectangle | Mark | Text;

/** Shapes that belong together. */
export interface Group {
  /** What it is, shown when pointed at. */
  readonly title?: string;
  readonly shapes: readonly Shape[];
}

export interface Drawing {
  /** Unlike those of the other drawings on the same page. */
  readonly name: string;
  readonly width: number;
  readonly height: number;
  /** For those who do not see it: what it is, and what it shows. */
  readonly title: string;
  readonly description: string;
  readonly groups: readonly Group[];
}

export const line = (role: Role, from: Point, to: Point, series?: number): Line => ({
  shape: 'line',
  role,
  from,
  to,
  ...(series === undefined ? {} : { series }),
});

export const text = (role: Role, x: number, y: number, words: string, anchor: Text['anchor'] = 'start'): Text => ({
  shape: 'text',
  role,
  at: { x, y },
  text: words,
  anchor,
});

export const mark = (shape: Mark['shape'], at: Point, series?: number): Mark => ({
  shape,
  role: 'mark',
  at,
  ...(series === undefined ? {} : { series }),
});
