import { finding } from '../diagnostics/create.ts';
import { EXTENTS } from '../diagnostics/extents.ts';
import type { Location } from '../diagnostics/finding.ts';
import type { TankShape } from '../mechanics/tank.ts';
import type { Position } from '../mechanics/vector.ts';
import type { BodyOutline, UnitModel } from '../semantics/model.ts';
import type { RigResult } from '../semantics/state.ts';
import { isOwn, ownPlace, pointAt } from './places.ts';
import type { Rule } from './rule.ts';

/** Overhangs of less than a millimetre are rounding, m. */
const ROUNDING = 1e-3;

/**
 * Things that reach beyond the outline of the body along or across the unit, or below the road. A unit alone shows what
 * is built into it, a rig what is stowed at a place of its own.
 */
export const outsideBody: Rule = {
  keys: ['outside-body'],
  *check(result) {
    for (const [index, unit] of result.rig.units.entries()) {
      if (unit.body === undefined) continue;
      const things = result.rig.standalone ? builtIn(unit) : stowedLoose(result, index);
      for (const thing of things) {
        // A variant speaks only of what it states itself.
        if (!isOwn(result, thing.location) && !isOwn(result, unit.body.location)) continue;
        const beyond = furthest(thing, unit, unit.body);
        if (beyond.by <= ROUNDING) continue;
        const place = ownPlace(result, thing.location, unit.body.location);
        yield finding('outside-body', EXTENTS['outside-body'], { what: thing.name, ...beyond }, place, [
          ...pointAt(place, unit.body.location, `body of ${unit.name}`),
        ]);
      }
    }
  },
};

interface Thing {
  readonly name: string;
  readonly centre: Position;
  /** Extents along and across, m; 0 where not known. */
  readonly length: number;
  readonly width: number;
  readonly location: Location;
}

function builtIn(unit: UnitModel): Thing[] {
  const fittings = unit.parts.filter(({ kind }) => kind === 'fitting');
  return [
    ...unit.lockers.map(({ name, centre, length = 0, width = 0, location }) => ({
      name: `${unit.name}.${name}`,
      centre,
      length,
      width,
      location,
    })),
    ...unit.tanks.map(({ name, centre, shape, location }) => ({
      name: `${unit.name}.${name}`,
      centre,
      ...planOf(shape),
      location,
    })),
    // A fitting may stick out, as a lamp or an awning does: its centre counts.
    ...fittings.map(({ name, body, location }) => centred(`${unit.name}.${name}`, body.centre, location)),
  ];
}

function stowedLoose({ rig }: RigResult, index: number): Thing[] {
  return [...rig.stowed, ...rig.cases.flatMap(({ stowed }) => stowed)]
    .filter(({ unit, locker }) => unit === index && locker === undefined)
    .map(({ item, centre, location }) => centred(item.name, centre, location));
}

function centred(name: string, centre: Position, location: Location): Thing {
  return { name, centre, length: 0, width: 0, location };
}

function planOf(shape: TankShape): { readonly length: number; readonly width: number } {
  switch (shape.kind) {
    case 'box':
      return shape.size;
    case 'upright-cylinder':
      return { length: shape.diameter, width: shape.diameter };
    case 'lying-cylinder':
      return shape.axis === 'x'
        ? { length: shape.length, width: shape.diameter }
        : { length: shape.diameter, width: shape.length };
    case 'point':
      return { length: 0, width: 0 };
  }
}

/** How far, and where, a thing reaches out most. The drawbar of a trailer belongs to it up to the coupling. */
function furthest({ centre, length, width }: Thing, { coupling }: UnitModel, body: BodyOutline) {
  const front = Math.max(body.front, coupling?.x ?? body.front);
  const half = body.width === undefined ? Number.POSITIVE_INFINITY : body.width / 2;
  const sides = [
    { by: centre.x + length / 2 - front, side: coupling ? 'ahead of the coupling' : 'ahead of the body' },
    { by: body.rear - (centre.x - length / 2), side: 'behind the rear end of the body' },
    { by: centre.y + width / 2 - half, side: 'beyond the left side of the body' },
    { by: -half - (centre.y - width / 2), side: 'beyond the right side of the body' },
    { by: -centre.z, side: 'below the road' },
  ];
  return sides.reduce((most, each) => (each.by > most.by ? each : most));
}
