import type { Curve, Drawing, Mark, Role, Shape, Text } from '../../../language/drawing/drawing.ts';

export const shapesOf = ({ groups }: Drawing): Shape[] => groups.flatMap(({ shapes }) => shapes);

export const textsOf = (drawing: Drawing): Text[] => shapesOf(drawing).filter((shape) => shape.shape === 'text');

export const wordsOf = (drawing: Drawing): string[] => textsOf(drawing).map(({ text }) => text);

export const curvesOf = (drawing: Drawing, role: Role): Curve[] =>
  shapesOf(drawing).filter((shape): shape is Curve => shape.shape === 'curve' && shape.role === role);

export const marksOf = (drawing: Drawing, kind: Mark['shape']): Mark[] =>
  shapesOf(drawing).filter((shape): shape is Mark => shape.shape === kind);

/** Reads a figure off the place of its axis, as someone with a ruler would: through two ticks with their figures. */
export function rulerOf(ticks: readonly { readonly at: number; readonly text: string }[]): (place: number) => number {
  const [first, last] = [ticks[0], ticks[ticks.length - 1]];
  if (first === undefined || last === undefined || first.at === last.at) throw new Error('an axis needs two ticks');
  const value = ({ text }: { readonly text: string }) => Number(text.replaceAll('\u202f', ''));
  return (place) => value(first) + ((place - first.at) / (last.at - first.at)) * (value(last) - value(first));
}

/** Rulers of the frame whose left lower corner is at `left`, `bottom`. */
export function rulers(
  drawing: Drawing,
  { left, right, top, bottom }: Record<'left' | 'right' | 'top' | 'bottom', number>,
) {
  const texts = textsOf(drawing).filter(({ role, text }) => role === 'remark' && /^-?[\d.\u202f]+$/.test(text));
  const up = texts.filter(
    ({ at, anchor }) => anchor === 'end' && at.x === left - 8 && at.y > top - 9 && at.y < bottom + 9,
  );
  const across = texts.filter(
    ({ at, anchor }) => anchor === 'middle' && at.y === bottom + 18 && at.x >= left && at.x <= right,
  );
  return {
    x: rulerOf(across.map(({ at, text }) => ({ at: at.x, text }))),
    y: rulerOf(up.map(({ at, text }) => ({ at: at.y - 4, text }))),
  };
}
