import { scaleLinear } from 'd3-scale';
import { formatNumber } from '../units/display.ts';
import { type Group, line, type Point, type Shape, text } from './drawing.ts';

/** The part of a drawing that curves are drawn in, px. */
export interface Frame {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** What an axis spans, in the unit it is labelled in. */
export interface Range {
  readonly least: number;
  readonly most: number;
}

/** A frame with a figure along each side. */
export interface Plane {
  readonly frame: Frame;
  /** Place of a pair of figures, px. */
  readonly place: (x: number, y: number) => Point;
  /** Axes with ticks, figures and labels. */
  readonly axes: Group;
  /** What the axes span: `y` widened to round figures. */
  readonly x: Range;
  readonly y: Range;
}

export interface PlaneOptions {
  readonly x: Range & { readonly label: string; readonly ticks: number };
  /** `above`: px from the frame up to the label. */
  readonly y: Range & { readonly label: string; readonly ticks: number; readonly above?: number };
}

/** A plane of two linear scales; `y` grows upward. */
export function planeOf(frame: Frame, { x, y }: PlaneOptions): Plane {
  const across = scaleLinear([x.least, x.most], [frame.left, frame.right]);
  const up = scaleLinear([y.least, y.most], [frame.bottom, frame.top]).nice(y.ticks);
  const [least = y.least, most = y.most] = up.domain();
  const shapes: Shape[] = [];
  for (const tick of up.ticks(y.ticks)) {
    const at = up(tick);
    shapes.push(line('grid', { x: frame.left, y: at }, { x: frame.right, y: at }));
    shapes.push(text('remark', frame.left - 8, at + 4, formatNumber(tick, 4, 6), 'end'));
  }
  for (const tick of across.ticks(x.ticks)) {
    const at = across(tick);
    shapes.push(line('grid', { x: at, y: frame.top }, { x: at, y: frame.bottom }));
    shapes.push(line('axis', { x: at, y: frame.bottom }, { x: at, y: frame.bottom + 5 }));
    shapes.push(text('remark', at, frame.bottom + 18, formatNumber(tick, 4, 6), 'middle'));
  }
  shapes.push(line('axis', { x: frame.left, y: frame.bottom }, { x: frame.right, y: frame.bottom }));
  shapes.push(line('axis', { x: frame.left, y: frame.top }, { x: frame.left, y: frame.bottom }));
  shapes.push(text('remark', frame.right, frame.bottom + 34, x.label, 'end'));
  shapes.push(text('remark', frame.left, frame.top - (y.above ?? 8), y.label));
  return {
    frame,
    place: (horizontal, vertical) => ({ x: across(horizontal), y: up(vertical) }),
    axes: { shapes },
    x: { least: x.least, most: x.most },
    y: { least, most },
  };
}
