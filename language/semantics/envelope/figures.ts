import type { Figure } from '../../mechanics/envelope.ts';
import {
  blendInfluences,
  type Influence,
  massInfluence,
  payloadInfluence,
  sumInfluences,
  unitInfluence,
} from '../../mechanics/influence.ts';
import { DIMENSIONLESS, type Dimension, LENGTH, MASS } from '../../units/dimension.ts';
import type { RigModel, UnitModel } from '../model.ts';
import type { MotionLoads } from '../state.ts';

/** A computed quantity as a function of all masses: offset + scale · figure, or the size of that without its sign. */
export interface QuantityFigure {
  readonly figure: Figure;
  readonly scale: number;
  readonly offset: number;
  readonly absolute: boolean;
  readonly dimension: Dimension;
}

const PLAIN = { scale: 1, offset: 0, absolute: false } as const;

/**
 * The quantities of a rig in a motion that are loads or ratios of loads, by their stable names; undefined for others
 * (inertias, names that the rig does not have).
 */
export function figureOf(rig: RigModel, loads: MotionLoads, name: string): QuantityFigure | undefined {
  const load = loads.influences.get(name);
  if (load !== undefined) return { ...PLAIN, figure: { numerator: load }, dimension: MASS };
  if (name === 'rig.mass_ratio') return massRatio(rig);
  const index = rig.units.findIndex((unit) => name.startsWith(`${unit.name}.`));
  const unit = rig.units[index];
  return unit && ofUnit(rig, loads, unit, index, name.slice(unit.name.length + 1));
}

/** The sum of loads or masses of a rig; undefined unless all of them are. */
export function figureOfSum(rig: RigModel, loads: MotionLoads, names: readonly string[]): QuantityFigure | undefined {
  const found = names.flatMap((name) => figureOf(rig, loads, name) ?? []);
  const areLoads = found.every(({ figure, scale }) => figure.denominator === undefined && scale === 1);
  if (found.length < names.length || !areLoads) return undefined;
  return {
    ...PLAIN,
    figure: {
      numerator: sumInfluences(
        rig.units.length,
        found.map(({ figure }) => figure.numerator),
      ),
    },
    offset: found.reduce((sum, { offset }) => sum + offset, 0),
    dimension: MASS,
  };
}

/** Names of the derived quantities of a rig that have a figure, beside those of the loads. */
export function derivedFigures({ units }: RigModel): readonly string[] {
  return [
    ...units.flatMap(({ name, groups }) => [
      ...['payload', 'cg.back', 'cg.left', 'cg.up', 'coupling.share'].map((each) => `${name}.${each}`),
      ...groups.flatMap((group) => [`${name}.${group.name}.imbalance`, `${name}.${group.name}.lost`]),
    ]),
    'rig.mass_ratio',
  ];
}

function ofUnit(
  rig: RigModel,
  { influences, soloFront }: MotionLoads,
  unit: UnitModel,
  index: number,
  own: string,
): QuantityFigure | undefined {
  const count = rig.units.length;
  const mass = massInfluence(count, [index]);
  const ratio = (numerator: Influence | undefined, denominator: Influence | undefined) =>
    numerator && denominator && { ...PLAIN, figure: { numerator, denominator }, dimension: DIMENSIONLESS };
  const centre = (axis: 'x' | 'y' | 'z', scale: number): QuantityFigure => ({
    ...PLAIN,
    figure: { numerator: unitInfluence(count, index, { [axis]: 1 }), denominator: mass },
    scale,
    dimension: LENGTH,
  });
  switch (own) {
    case 'payload':
      return { ...PLAIN, figure: { numerator: payloadInfluence(count, index) }, dimension: MASS };
    case 'cg.back':
      return centre('x', -1);
    case 'cg.left':
      return centre('y', 1);
    case 'cg.up':
      return centre('z', 1);
    case 'coupling.share':
      return ratio(influences.get(`${unit.name}.coupling.load`), mass);
  }
  const [group, figure] = own.split('.');
  const load = influences.get(`${unit.name}.${group}.load`);
  const position = unit.groups.findIndex(({ name }) => name === group);
  if (figure === 'lost' && index === 0 && position === 0) {
    const share = ratio(load, soloFront);
    return share && { ...share, scale: -1, offset: 1 };
  }
  if (figure !== 'imbalance') return undefined;
  const left = influences.get(`${unit.name}.${group}.left`);
  const right = influences.get(`${unit.name}.${group}.right`);
  const difference = left && right && ratio(blendInfluences(left, 1, right, -1), load);
  return difference && { ...difference, absolute: true };
}

function massRatio({ units }: RigModel): QuantityFigure | undefined {
  if (units[0]?.kind !== 'vehicle' || units.length < 2) return undefined;
  const trailers = units.map((_, index) => index).slice(1);
  const figure = { numerator: massInfluence(units.length, trailers), denominator: massInfluence(units.length, [0]) };
  return { ...PLAIN, figure, dimension: DIMENSIONLESS };
}
