import type { Location } from '../../diagnostics/finding.ts';
import {
  type Choice,
  cornerSteps,
  cornersOf,
  type Filling,
  type FreeMass,
  type PlacedMass,
  type PlaceTolerance,
  shifted,
} from '../../mechanics/envelope.ts';
import { scaleInertia, zeroInertia } from '../../mechanics/inertia.ts';
import { type MassSource, TARE } from '../../mechanics/influence.ts';
import type { Body } from '../../mechanics/mass.ts';
import { levelWithSurfaceAt } from '../../mechanics/tank.ts';
import type { Position } from '../../mechanics/vector.ts';
import type { CaseModel, Part, Seat, Stowed, Tank, UnitModel } from '../model.ts';
import { levelOf, SEAT, tankBody, tankSort } from '../sources.ts';
import type { Source, SourceKind } from '../state.ts';

/** Something that has a mass, with everything it can be in the states that are looked at. */
export interface FreeSource extends FreeMass {
  /** `Tourer.fresh`, `Truck.passenger`; of items the item's name, wherever its pieces lie. */
  readonly name: string;
  readonly kind: SourceKind;
  readonly location: Location;
  /** What a case has of it, tolerances apart. */
  readonly inCase: (state: CaseModel) => Choice;
  /** One of the choices, or of what a tank can be between them, as sources of a load state. */
  readonly sourcesOf: (choice: Choice) => readonly MassSource<Source>[];
  /** Of a tank: its level in such a choice. */
  readonly levelIn?: (choice: Choice) => number;
  /** Of a tank: the choice in which it stands at a level, or at the nearest one that it can have; tolerances apart. */
  readonly atLevel?: (level: number) => Choice;
  /** Of stowed items: what is stowed where in such a choice. */
  readonly stowedIn?: (choice: Choice) => readonly Stowed[];
  /** Its stated tolerances, each on its own in what a case has of it; none where it is not on board. */
  readonly tolerancesIn: (state: CaseModel) => readonly ToleranceEnds[];
  /** Of tanks and items: how much of it there is. */
  readonly amounts?: Amounts;
}

/** A stated tolerance at its two ends, everything else as stated. */
export interface ToleranceEnds {
  /** What is uncertain: the mass, or a coordinate of the place. */
  readonly of: 'mass' | 'x' | 'y' | 'z';
  /** Half width, kg or m: of a tank that of its content when full, of an item that of one piece. */
  readonly halfWidth: number;
  readonly lower: Choice;
  readonly upper: Choice;
}

/** How much there is of a tank's content (its level) or of an item (its pieces), as a figure. */
export interface Amounts {
  /** The levels that are looked at; from no piece to as many as lie anywhere at once. */
  readonly least: number;
  readonly most: number;
  readonly inCase: (state: CaseModel) => number;
  /** One for each density, mass of a piece, or arrangement of the pieces that there can be. */
  readonly ways: readonly Way[];
  /** As it is stated, tolerances apart; of several arrangements that of a case. */
  readonly nominal: (amount: number, state: CaseModel) => Choice;
}

/**
 * What an amount weighs, and where: in proportion to it, but for the height of a tank's content. Fewer or more pieces lie in
 * proportion at the places of their arrangement.
 */
export type Way = (amount: number) => Choice;

/** Whether it is not the same in all states. */
export function isFree({ choices, sums, fillings }: FreeMass): boolean {
  return choices.length > 1 || sums !== undefined || fillings !== undefined;
}

/** A part of a unit: it varies by its tolerances alone. `toleranced` is the share of each tolerance that counts, here and below. */
export function freePart(unit: UnitModel, index: number, part: Part, toleranced: number): FreeSource {
  const { mass, centre } = part.body;
  const nominal: Choice = [{ unit: index, mass, centre, sort: TARE }];
  const half = toleranced * (part.tolerance ?? 0);
  const around = shareOf(part.placeTolerance, toleranced);
  const name = `${unit.name}.${part.name}`;
  const { kind, location } = part;
  return {
    name,
    kind,
    location,
    choices: cornersOf({ unit: index, centre, sort: TARE }, [Math.max(0, mass - half), mass + half], around),
    inCase: () => nominal,
    sourcesOf: (choice) => choice.map((placed) => sourceOf(placed, { name, kind, location }, part.body)),
    tolerancesIn: () => [
      ...endsOf('mass', half, (by) => [{ unit: index, mass: mass + by, centre, sort: TARE }]),
      ...placeEnds(around, (step) => [{ unit: index, mass, centre: shifted(centre, step), sort: TARE }]),
    ],
  };
}

/** That share of the tolerances of a place, m. */
export function shareOf({ x = 0, y = 0, z = 0 }: PlaceTolerance = {}, share: number): Position {
  return { x: share * x, y: share * y, z: share * z };
}

/** The ends of each coordinate of a place with tolerances; `at` gives what is there a step from it. */
export function placeEnds(around: Position, at: (step: Position) => Choice): ToleranceEnds[] {
  return (['x', 'y', 'z'] as const).flatMap((axis) =>
    endsOf(axis, around[axis], (by) => at({ ...NO_STEP, [axis]: by })),
  );
}

export const NO_STEP: Position = { x: 0, y: 0, z: 0 };

export function endsOf(of: ToleranceEnds['of'], halfWidth: number, at: (by: number) => Choice): ToleranceEnds[] {
  return halfWidth > 0 ? [{ of, halfWidth, lower: at(-halfWidth), upper: at(halfWidth) }] : [];
}

/** The same choice for the same case, made once: it is asked for with every state that is told. */
export function byCase(choiceIn: (state: CaseModel) => Choice): (state: CaseModel) => Choice {
  const known = new WeakMap<CaseModel, Choice>();
  return (state) => {
    const choice = known.get(state) ?? choiceIn(state);
    known.set(state, choice);
    return choice;
  };
}

/** The ends of what a mass can be as shares of what is stated, by its tolerance as such a share: nothing weighs less than 0. */
export function scalesWithin(uncertain: number): readonly number[] {
  return uncertain > 0 ? [Math.max(0, 1 - uncertain), 1 + uncertain] : [1];
}

/** A tank at a level, with what of its density is there and how far it is from its place. */
interface Filled {
  readonly level: number;
  readonly body: Body;
  readonly scale: number;
  readonly step: Position;
}

const isSamePlace = (a: Position, b: Position): boolean => a.x === b.x && a.y === b.y && a.z === b.z;

/** A tank whose level lies between two ends. */
export function freeTank(
  unit: UnitModel,
  index: number,
  tank: Tank,
  { least, most }: { readonly least: number; readonly most: number },
  toleranced: number,
): FreeSource {
  const sort = tankSort(tank);
  const bodies = new WeakMap<PlacedMass, Filled>();
  const placedAt = (level: number, scale: number, step = NO_STEP): PlacedMass => {
    const { fluid } = tank;
    const centre = shifted(tank.centre, step);
    const body = tankBody({ ...tank, centre, fluid: { ...fluid, density: fluid.density * scale } }, level);
    const placed = { unit: index, mass: body.mass, centre: body.centre, sort };
    bodies.set(placed, { level, body, scale, step });
    return placed;
  };
  const uncertain = tank.content > 0 ? (toleranced * (tank.tolerance ?? 0)) / tank.content : 0;
  const scales = scalesWithin(uncertain);
  const around = shareOf(tank.placeTolerance, toleranced);
  /** Every corner of what is not certain about it but its level. */
  const corners = scales.flatMap((scale) => cornerSteps(around).map((step) => ({ scale, step })));
  const levels = least < most ? [least, most] : [least];
  const within = (level: number) => Math.min(most, Math.max(least, level));
  const fillings = corners.flatMap(({ scale, step }): Filling[] => {
    const content = tank.content * scale;
    if (!(least < most) || !(content > 0) || tank.shape.kind === 'point') return [];
    return [
      {
        at: (mass) => placedAt(within((mass - tank.empty) / content), scale, step),
        withSurfaceAt: (height) =>
          tank.empty + content * within(levelWithSurfaceAt(tank.shape, height - tank.centre.z - step.z)),
      },
    ];
  });
  const name = `${unit.name}.${tank.name}`;
  const { location } = tank;
  const known = (placed: PlacedMass) => bodies.get(placed);
  return {
    name,
    kind: 'tank',
    location,
    choices: levels.flatMap((level) => corners.map(({ scale, step }) => [placedAt(level, scale, step)])),
    ...(fillings.length > 0 ? { fillings } : {}),
    between: ([from], [to], share) => {
      const [a, b] = [from && known(from), to && known(to)];
      if (a === undefined || b === undefined || a.scale !== b.scale || !isSamePlace(a.step, b.step)) return undefined;
      return [placedAt(a.level + share * (b.level - a.level), a.scale, a.step)];
    },
    inCase: byCase((state) => [placedAt(levelOf(unit, tank, state).value, 1)]),
    sourcesOf: (choice) =>
      choice.map((placed) => sourceOf(placed, { name, kind: 'tank', location }, known(placed)?.body)),
    levelIn: ([placed]) => (placed && known(placed)?.level) ?? 0,
    tolerancesIn: (state) => {
      const { value } = levelOf(unit, tank, state);
      return [
        ...endsOf('mass', uncertain * tank.content, (by) => [placedAt(value, 1 + by / tank.content)]),
        ...placeEnds(around, (step) => [placedAt(value, 1, step)]),
      ];
    },
    amounts: {
      least,
      most,
      inCase: (state) => levelOf(unit, tank, state).value,
      ways: corners.map(({ scale, step }) => (level) => [placedAt(level, scale, step)]),
      nominal: (level) => [placedAt(level, 1)],
    },
    atLevel: (level) => [placedAt(within(level), 1)],
  };
}

/** A seat that is taken, empty, or either. */
export function freeSeat(
  unit: UnitModel,
  index: number,
  seat: Seat,
  taken: ReadonlySet<boolean>,
  isTaken: (state: CaseModel) => boolean,
  toleranced: number,
): FreeSource {
  const name = `${unit.name}.${seat.name}`;
  const { mass, centre } = seat;
  const sort = SEAT;
  const occupied: Choice = [{ unit: index, mass, centre, sort }];
  const half = toleranced * (seat.tolerance ?? 0);
  const around = shareOf(seat.placeTolerance, toleranced);
  const corners = cornersOf({ unit: index, centre, sort }, [Math.max(0, mass - half), mass + half], around);
  const { location } = seat;
  return {
    name,
    kind: 'seat',
    location,
    choices: [...taken].flatMap((is) => (is ? corners : [NOTHING])),
    inCase: (state) => (isTaken(state) ? occupied : NOTHING),
    sourcesOf: (choice) => choice.map((placed) => sourceOf(placed, { name, kind: 'seat', location })),
    tolerancesIn: (state) =>
      isTaken(state)
        ? [
            ...endsOf('mass', half, (by) => [{ unit: index, mass: mass + by, centre, sort }]),
            ...placeEnds(around, (step) => [{ unit: index, mass, centre: shifted(centre, step), sort }]),
          ]
        : [],
  };
}

/** Nothing on board. */
export const NOTHING: Choice = [];

/** A mass as a source; its inertia is that of the body it has nominally, in proportion. */
export function sourceOf(
  { unit, mass, centre, sort }: PlacedMass,
  source: Omit<Source, 'body'>,
  nominal?: Body,
): MassSource<Source> {
  const inertia =
    nominal === undefined || nominal.mass === 0 ? zeroInertia() : scaleInertia(nominal.inertia, mass / nominal.mass);
  const id = { ...source, body: { mass, centre, inertia } };
  return { id, unit, mass, centre, ...(sort === undefined ? {} : { sort }) };
}
