import type { ToleranceEnds } from '../../language/semantics/envelope/free-source.ts';
import { stateWith, unitsWith } from '../../language/semantics/evaluate.ts';
import type { CaseModel, Part, RigModel, Stowed, Tank } from '../../language/semantics/model.ts';
import { sourcesOf } from '../../language/semantics/sources.ts';
import type { RigResult, StateResult } from '../../language/semantics/state.ts';

/** How far something is within its tolerance, -1 to 1, by the name of what it is and of what is uncertain. */
export type Deviations = (name: string, of: ToleranceEnds['of']) => number;

/** The quantities of a case whose masses and places deviate: from the model and evaluated as any case. */
export function deviated(
  { rig, motions: [loads] }: RigResult,
  state: CaseModel,
  by: Deviations,
): StateResult['quantities'] {
  if (loads === undefined) throw new Error('no loads');
  const off = (half: number, name: string, of: ToleranceEnds['of']) => (half > 0 ? half * by(name, of) : 0);
  const part =
    (unit: string) =>
    (each: Part): Part => {
      const name = `${unit}.${each.name}`;
      const { body, tolerance = 0, placeTolerance: { x = 0, y = 0, z = 0 } = {} } = each;
      const mass = body.mass + off(Math.min(body.mass, tolerance), name, 'mass');
      const centre = {
        x: body.centre.x + off(x, name, 'x'),
        y: body.centre.y + off(y, name, 'y'),
        z: body.centre.z + off(z, name, 'z'),
      };
      return { ...each, body: { ...body, mass, centre } };
    };
  const tank =
    (unit: string) =>
    (each: Tank): Tank => {
      const content = each.content + off(each.tolerance ?? 0, `${unit}.${each.name}`, 'mass');
      const density = each.content > 0 ? (each.fluid.density * content) / each.content : 0;
      return { ...each, content, fluid: { ...each.fluid, density } };
    };
  const lying = (each: Stowed): Stowed => {
    const { item } = each;
    return { ...each, item: { ...item, mass: item.mass + off(item.tolerance ?? 0, item.name, 'mass') } };
  };
  const other: RigModel = {
    ...rig,
    stowed: rig.stowed.map(lying),
    units: rig.units.map((unit) => ({
      ...unit,
      parts: unit.parts.map(part(unit.name)),
      tanks: unit.tanks.map(tank(unit.name)),
    })),
  };
  const sources = sourcesOf(other, { ...state, stowed: state.stowed.map(lying) });
  return stateWith(rig, loads, state, sources, unitsWith(other, sources), '').quantities;
}

/** A deviation for each tolerance, drawn once for a state. */
export function drawn(draw: () => number): Deviations {
  const known = new Map<string, number>();
  return (name, of) => {
    const key = `${name} ${of}`;
    const value = known.get(key) ?? draw();
    known.set(key, value);
    return value;
  };
}
