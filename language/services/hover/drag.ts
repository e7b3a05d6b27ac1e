import { dragForce } from '../../mechanics/stability/drag.ts';
import { pointForceAt } from '../../mechanics/stability/train.ts';
import type { BodyDrag } from '../../semantics/model.ts';
import { USUAL_SPEED } from '../../semantics/stability/evaluate-stability.ts';
import { AREA, FORCE, SPEED } from '../../units/dimension.ts';
import { type DisplaySystem, formatNumber, formatValue } from '../../units/display.ts';
import { paragraphs, plain } from '../markdown.ts';
import { assumptionList, type HoverContext, inRigs, type UnitView } from './context.ts';

/** The drag on the body of a unit, at the speeds its rigs intend; undefined where the line of the body says nothing of it. */
export function dragHover(context: HoverContext, { unit, owner }: UnitView): string | undefined {
  const { system } = context;
  const drag = unit.body?.drag;
  if (drag === undefined) return undefined;
  const { frontalArea, coefficient, assumptions } = drag;
  const area = formatValue(frontalArea, AREA, system);
  return paragraphs(
    `**Drag of the air** on ${plain(unit.name)}: frontal area ${area}, drag coefficient ${formatNumber(coefficient)}, ${dragAt(drag, USUAL_SPEED, system)}`,
    inRigs(context, owner, ({ rig }) => {
      const speed = rig.travel?.speed;
      return speed === undefined ? undefined : dragAt(drag, speed, system);
    }),
    assumptionList(assumptions),
  );
}

/** `1 739 N at 100 km/h` */
function dragAt(drag: BodyDrag, speed: number, system: DisplaySystem): string {
  const force = -pointForceAt(dragForce(0, 0, drag), speed);
  return `${formatValue(force, FORCE, system)} at ${formatValue(speed, SPEED, system)}`;
}
