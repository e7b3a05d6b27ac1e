import type { Concept } from '../catalogue/markets.ts';
import type { AxleGroup, RigModel, UnitModel } from '../semantics/model.ts';
import { axleWords } from './figures.ts';
import { couplingConcept } from './markets.ts';

/** A computed quantity as tables call it. */
export interface WordedQuantity {
  /** Stable dotted name. */
  readonly name: string;
  /** Name of the unit it is a figure of; undefined for the whole rig. */
  readonly unit: string | undefined;
  /** Without the name of the unit, in the language's words. */
  readonly label: string;
  /** What the label speaks of where markets have a word of their own for it. */
  readonly concept?: Concept;
}

/**
 * The loads, shares and centres of gravity that a rig can have while it stands, from the front; each once, under its first name:
 * what the next unit puts on the hitch is the coupling load of that one.
 */
export function wordedQuantities(rig: RigModel): readonly WordedQuantity[] {
  const whole = (name: string, label: string): WordedQuantity => ({ name: `rig.${name}`, unit: undefined, label });
  return [
    ...rig.units.flatMap((unit, index) => ofUnit(unit, index === 0)),
    ...(rig.units.length > 1 ? [whole('mass', 'all units'), whole('mass_ratio', 'trailers over vehicle')] : []),
  ];
}

function ofUnit(unit: UnitModel, isFirst: boolean): readonly WordedQuantity[] {
  const own = (name: string, label: string): WordedQuantity => ({
    name: `${unit.name}.${name}`,
    unit: unit.name,
    label,
  });
  const coupling =
    unit.coupling === undefined
      ? []
      : [
          { ...own('coupling.load', 'coupling'), concept: couplingConcept(unit) },
          own('coupling.share', 'coupling share'),
        ];
  return [
    ...coupling,
    ...unit.groups.flatMap((group, index) => ofGroup(group, isFirst && index === 0, own)),
    ...(unit.groups.length > 1 ? [own('axles_total', 'all axles')] : []),
    own('mass', 'mass'),
    own('payload', 'payload'),
    own('cg.back', 'CG back'),
    own('cg.left', 'CG left'),
    own('cg.up', 'CG up'),
  ];
}

function ofGroup(
  group: AxleGroup,
  canLose: boolean,
  own: (name: string, label: string) => WordedQuantity,
): readonly WordedQuantity[] {
  const words = axleWords(group);
  const sides = (prefix: string, label: string) => [
    own(`${prefix}.load`, label),
    own(`${prefix}.left`, `${label}, left`),
    own(`${prefix}.right`, `${label}, right`),
  ];
  const axles = group.axles.length < 2 ? [] : group.axles.map((_, index) => index + 1);
  const prefixed = group.name === 'axles' ? '' : `${group.name} `;
  return [
    ...sides(group.name, words),
    own(`${group.name}.imbalance`, `${words}, sides apart`),
    ...(canLose ? [own(`${group.name}.lost`, `${words}, share lost`)] : []),
    ...axles.flatMap((axle) => sides(`${group.name}.axle${axle}`, `${prefixed}axle ${axle}`)),
  ];
}
