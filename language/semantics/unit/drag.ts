import type { Value } from '../../syntax/tree.ts';
import { AREA } from '../../units/dimension.ts';
import { formatQuantity, formatValue } from '../../units/display.ts';
import { systemOf } from '../display-system.ts';
import { KIND_DIMENSIONS } from '../kinds.ts';
import { capital, type Measured, readMeasured } from '../measured.ts';
import type { Assumption, BodyDrag } from '../model.ts';
import { locate, report } from '../scope.ts';
import { contextOf, type UnitDraft, type UnitEntry } from './draft.ts';

/** Figures of the drag, with the most (SI) that a body can have. */
const FRONTAL_AREA = {
  what: 'the frontal area of the body',
  kind: 'area',
  /** Twice as wide and nearly twice as high as road laws allow. Common practice, no source. */
  most: 30,
} as const;
const DRAG_COEFFICIENT = {
  what: 'the drag coefficient of the body',
  kind: 'number',
  /** Over every shape of the handbooks: a half tube open to the stream has 2.3 (Hoerner, Fluid-Dynamic Drag; from memory). */
  most: 2.5,
} as const;

/** Drag raises the zero-damping speed, so of the coefficients of box bodies the least is the cautious one. */
const USUAL_COEFFICIENT = 0.85;

/** What the outline of a body says of its front, m. */
export interface Front {
  readonly width?: number;
  readonly height?: number;
  /** An error in the outline has been reported. */
  readonly broken: boolean;
}

/**
 * The drag of a body by its `body` line, what it leaves open filled in. Undefined where the line says nothing of it, or
 * where what it says cannot be read or is that of no body; then there is none.
 */
export function readDrag(draft: UnitDraft, entry: UnitEntry, front: Front): BodyDrag | undefined {
  const { keywords } = entry.read;
  const areaValue = keywords.get('frontal_area')?.[0];
  const coefficientValue = keywords.get('drag_coefficient')?.[0];
  const value = areaValue ?? coefficientValue;
  if (value === undefined) return undefined;
  const frontalArea =
    areaValue === undefined
      ? outlineArea(draft, entry, value, front)
      : readFigure(draft, entry, areaValue, FRONTAL_AREA);
  const coefficient =
    coefficientValue === undefined ? USUAL_COEFFICIENT : readFigure(draft, entry, coefficientValue, DRAG_COEFFICIENT);
  if (frontalArea === undefined || coefficient === undefined) return undefined;
  const location = locate(entry.line, entry.line.statement.head);
  const assumptions: Assumption[] = [];
  if (areaValue === undefined) {
    assumptions.push({
      text: `frontal area of the body of ${draft.name} not stated: its width times its height taken, ${formatValue(frontalArea, AREA, systemOf(draft.scope.declaration))}`,
      basis: 'rule of the language: wheels, roof loads and what else lies outside the outline are not in it',
      location,
    });
  }
  if (coefficientValue === undefined) {
    assumptions.push({
      text: `drag coefficient of the body of ${draft.name} not stated: ${USUAL_COEFFICIENT} taken`,
      basis:
        'the least of square-edged bodies one to four times as long as wide, alone in the stream, 0.85 to 1.05 (White, Fluid Mechanics, drag of three-dimensional bodies; from memory); behind a tow vehicle it may be less',
      location,
    });
  }
  return { frontalArea, coefficient, assumptions };
}

/** A figure as stated; what cannot be read or is that of no body is reported. */
function readFigure(
  draft: UnitDraft,
  entry: UnitEntry,
  value: Value,
  figure: typeof FRONTAL_AREA | typeof DRAG_COEFFICIENT,
): number | undefined {
  const { what, kind } = figure;
  const measured = readMeasured(value, { what, kinds: [kind], sign: 'positive' }, contextOf(draft, entry));
  return measured && atMost(draft, entry, value, measured, what, figure);
}

/** Width times height, where nothing else is said; a drag without either is reported. */
function outlineArea(draft: UnitDraft, entry: UnitEntry, value: Value, front: Front): number | undefined {
  const { width, height, broken } = front;
  if (width !== undefined && height !== undefined) {
    return atMost(
      draft,
      entry,
      value,
      { value: width * height },
      `${FRONTAL_AREA.what}, its width times its height,`,
      FRONTAL_AREA,
    );
  }
  if (broken) return undefined;
  const lacking = [...(width === undefined ? ['width'] : []), ...(height === undefined ? ['height'] : [])];
  report(
    draft.scope,
    'missing-part',
    {
      what: 'The drag of the body',
      part: `its frontal area, and the body has no ${lacking.join(' and no ')} to take it from`,
      example: 'frontal_area 4.6 m², drag_coefficient 0.8',
    },
    locate(entry.line, value),
  );
  return undefined;
}

function atMost(
  draft: UnitDraft,
  entry: UnitEntry,
  value: Value,
  found: Pick<Measured, 'value' | 'unit'>,
  what: string,
  { kind, most }: typeof FRONTAL_AREA | typeof DRAG_COEFFICIENT,
): number | undefined {
  if (found.value <= most) return found.value;
  const shown = (figure: number) => formatQuantity({ ...found, value: figure, dimension: KIND_DIMENSIONS[kind] });
  report(
    draft.scope,
    'out-of-range',
    { what: capital(what), wanted: `at most ${shown(most)}`, found: shown(found.value) },
    locate(entry.line, value),
  );
  return undefined;
}
