import { deviationOfResolution } from '../../mechanics/weighing/observation.ts';
import type { Reference } from '../../syntax/tree.ts';
import { readMeasured } from '../measured.ts';
import { nameOf } from '../names.ts';
import { nearestName } from '../nearest.ts';
import { type Line, locate, report } from '../scope.ts';
import type { PassPlace } from './pass-place.ts';
import type { Weighable } from './reading-names.ts';
import { isOfScale } from './scale.ts';
import type { WeighedRig } from './weighed-rig.ts';
import type { ReadingModel, ScaleAccuracy } from './weighing-model.ts';

/** The readings of a pass; what cannot be read is reported and left out. */
export function readReadings(
  lines: readonly Line[],
  place: PassPlace,
  scale: ScaleAccuracy,
  rig: WeighedRig,
): readonly ReadingModel[] {
  const readings: ReadingModel[] = [];
  for (const line of lines) {
    const reading = readReading(line, place, scale, rig);
    if (reading === undefined) continue;
    const before = readings.find(({ quantity }) => quantity === reading.quantity);
    if (before === undefined) readings.push(reading);
    else {
      const part = `the reading of ${reading.name}`;
      report(rig.scope, 'repeated-part', { part, head: place.head }, reading.location, [
        { location: before.location, message: 'The first one.' },
      ]);
    }
  }
  return readings;
}

function readReading(
  line: Line,
  place: PassPlace,
  scale: ScaleAccuracy,
  { scope, namesFor }: WeighedRig,
): ReadingModel | undefined {
  const { statement } = line;
  const { head } = statement;
  // `coupling` and `axles` are keywords elsewhere; here they name what was weighed.
  const subject: Reference = statement.subject ?? { path: [head], start: head.start, end: head.end };
  const name = nameOf(subject);
  const found = findWeighable(name, place.weighables);
  if (found === undefined) {
    if (!statement.broken || statement.subject !== undefined) reportNoWeighable(name, subject, line, place, scope);
    return undefined;
  }
  const [argument, second] = statement.arguments;
  if (argument?.kind !== 'value' || argument.keyword !== undefined || second !== undefined) {
    if (!statement.broken) {
      const part = argument === undefined ? 'what the scale read' : 'a plain reading';
      report(
        scope,
        'missing-part',
        { what: name, part, example: `${name} 1240 kg` },
        locate(line, second ?? argument ?? subject),
      );
    }
    return undefined;
  }
  if (argument.value.direction !== undefined || statement.block !== undefined) {
    const part = statement.block === undefined ? 'place' : 'block';
    report(scope, 'unexpected-part', { part, head: name, accepted: 'what the scale read' }, locate(line, argument));
    return undefined;
  }
  const wanted = {
    what: `the reading of ${found.name}`,
    kinds: ['mass'],
    sign: 'not negative',
    tolerance: true,
  } as const;
  const measured = readMeasured(argument.value, wanted, { scope, line, names: namesFor(line) });
  if (measured === undefined) return undefined;
  const { tolerance } = measured;
  if (tolerance !== undefined && tolerance !== 0) {
    const what = `The tolerance of the reading of ${found.name}`;
    if (!isOfScale(tolerance, what, argument.value, line, scope)) return undefined;
  }
  const deviation = tolerance === undefined || tolerance === 0 ? scale.deviation : deviationOfResolution(2 * tolerance);
  return {
    name: found.name,
    quantity: found.quantity,
    value: measured.value,
    deviation,
    location: locate(line, subject),
  };
}

/** What a name stands for: a full name, or one without its unit where only one unit has it. */
function findWeighable(name: string, weighables: readonly Weighable[]): Weighable | undefined {
  const full = weighables.find((weighable) => weighable.name === name);
  if (full !== undefined) return full;
  const [only, another] = weighables.filter(({ short }) => short === name);
  return another === undefined ? only : undefined;
}

function reportNoWeighable(
  name: string,
  subject: Reference,
  line: Line,
  place: PassPlace,
  scope: Parameters<typeof report>[0],
): void {
  const names = place.weighables.flatMap(({ name: full, short }) => (short === undefined ? [full] : [full, short]));
  const several = place.weighables.filter(({ short }) => short === name).map(({ name: full }) => full);
  const hitch = hitchOf(name, place);
  const hinged = hingedOf(name, place);
  const nearest =
    hitch === undefined && hinged === undefined && several.length === 0 ? nearestName(name, names) : undefined;
  report(
    scope,
    'reading-of-nothing',
    {
      name,
      pass: place.words,
      several,
      known: place.weighables
        .filter(({ quantity }) => !/\.(?:left|right)$/.test(quantity))
        .map(({ name: full }) => full),
      ...(hitch === undefined ? {} : { hitch }),
      ...(hinged === undefined ? {} : { hinged }),
      ...(nearest === undefined ? {} : { nearest }),
    },
    locate(line, subject),
  );
}

/** The trailer whose coupling a reading asks for though its hinged drawbar carries nothing. */
function hingedOf(name: string, { units }: PassPlace): string | undefined {
  const hinged = units.filter(({ coupling }) => coupling?.kind === 'drawbar').map((unit) => unit.name);
  const full = hinged.find((unit) => name === `${unit}.coupling`);
  return full ?? (name === 'coupling' && hinged.length === 1 ? hinged[0] : undefined);
}

/** The vehicle whose hitch a reading asks for, as if it had a coupling of its own. */
function hitchOf(name: string, { units }: PassPlace): string | undefined {
  const vehicle = units.find(({ kind }) => kind === 'vehicle');
  if (vehicle === undefined) return undefined;
  const words = ['coupling', 'hitch'].flatMap((part) => [
    `${vehicle.name}.${part}`,
    ...(units.length === 1 ? [part] : []),
  ]);
  return words.includes(name) ? vehicle.name : undefined;
}
