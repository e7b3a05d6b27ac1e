import type { ReadStatement } from '../arguments.ts';
import type { UnitModel } from '../model.ts';
import { nameOf, reportUnknown } from '../names.ts';
import { locate, report } from '../scope.ts';
import { readRaisedEnd } from './raised-end.ts';
import { TOTAL, type Weighable, weighables, weighablesRaised } from './reading-names.ts';
import type { WeighedRig } from './weighed-rig.ts';
import type { RaisedEnd } from './weighing-model.ts';

/** How units stand while they are weighed, and what of them can stand on a scale. */
export interface PassPlace {
  readonly kind: 'coupled' | 'solo' | 'raised';
  /** The units of the rig that stand there. */
  readonly units: readonly UnitModel[];
  /** Index in the rig of the unit that stands alone. */
  readonly unit?: number;
  readonly raised?: RaisedEnd;
  readonly weighables: readonly Weighable[];
  /** How messages speak of it: `coupled up`, `with Hauler alone`. */
  readonly words: string;
  /** How messages quote its line: `coupled`, `solo Hauler`. */
  readonly head: string;
  /** How its line goes on behind the head, in examples. */
  readonly example: string;
}

/** The rig as it stands; of a unit with a block of its own, the unit alone. */
export function coupledPlace({ units }: WeighedRig): PassPlace {
  const words = units.length > 1 ? 'coupled up' : 'as it stands';
  const can = weighables(units);
  const example = `{ ${can.at(-2)?.name ?? TOTAL} 1200 kg }`;
  return { kind: 'coupled', units, weighables: can, words, head: 'coupled', example };
}

/**
 * How the units of a `coupled`, `solo` or `raised` line stand; undefined where that is not clear, which is reported.
 */
export function passPlace(read: ReadStatement, rig: WeighedRig): PassPlace | undefined {
  const { line } = read;
  const { head, objects } = line.statement;
  if (head.text === 'coupled') return coupledLine(read, rig);
  const [named, second] = objects;
  if (named === undefined) return undefined;
  for (const wrong of [...objects.flatMap(({ count }) => count ?? []), ...(second === undefined ? [] : [second])]) {
    const part = wrong === second ? 'second unit' : 'count';
    report(rig.scope, 'unexpected-part', { part, head: head.text, accepted: 'one unit' }, locate(line, wrong));
  }
  const raised = head.text === 'raised';
  const words = nameOf(named.reference).split('.');
  const index = unitIndex(words[0] ?? '', rig.units);
  const unit = rig.units[index ?? -1];
  if (index === undefined || unit === undefined || (!raised && words.length > 1)) {
    const wanted = raised ? 'end of a weighed unit' : 'weighed unit';
    const names = rig.units.flatMap((each) =>
      raised ? endsOf(each).map((end) => `${each.name}.${end}`) : [each.name],
    );
    reportUnknown(rig.scope, line, named.reference, wanted, names);
    return undefined;
  }
  if (!raised) {
    const can = weighables([unit]);
    const example = `${unit.name} { ${can[0]?.short ?? 'total'} 1200 kg }`;
    return {
      kind: 'solo',
      units: [unit],
      unit: index,
      weighables: can,
      words: `with ${unit.name} alone`,
      head: `solo ${unit.name}`,
      example,
    };
  }
  const support = words[0] === unit.name ? words.slice(1).join('.') : words.join('.');
  const end = readRaisedEnd(read, { unit, support, reference: named.reference }, rig);
  if (end === undefined) return undefined;
  return {
    kind: 'raised',
    units: [unit],
    unit: index,
    raised: end,
    weighables: weighablesRaised(unit),
    words: `with ${unit.name}.${support} raised`,
    head: `raised ${unit.name}.${support}`,
    example: `${unit.name}.${support} 12 deg, wheel_radius 340 mm { ${support} 1100 kg }`,
  };
}

function coupledLine({ line }: ReadStatement, rig: WeighedRig): PassPlace | undefined {
  const [only, another] = rig.units;
  if (only === undefined || another !== undefined) return coupledPlace(rig);
  const { head } = line.statement;
  const accepted = `'solo ${only.name} in' with another case`;
  report(
    rig.scope,
    'unexpected-part',
    { part: `'coupled' of ${only.name} by itself`, head: 'weighing', accepted },
    locate(line, head),
  );
  return undefined;
}

/** The unit of that name, or the only unit for the name of an end of it. */
function unitIndex(name: string, units: readonly UnitModel[]): number | undefined {
  const index = units.findIndex((unit) => unit.name === name);
  if (index >= 0) return index;
  const [only, another] = units;
  return only !== undefined && another === undefined && endsOf(only).includes(name) ? 0 : undefined;
}

function endsOf({ coupling, groups }: UnitModel): readonly string[] {
  return [...(coupling === undefined ? [] : ['coupling']), ...groups.map(({ name }) => name)];
}
