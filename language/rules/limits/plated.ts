import { COUPLINGS } from '../../diagnostics/couplings.ts';
import { LOADS } from '../../diagnostics/loads.ts';
import { blendInfluences } from '../../mechanics/influence.ts';
import { systemOfRig } from '../../semantics/display-system.ts';
import type { AxleGroup, LimitName, RigModel, UnitModel } from '../../semantics/model.ts';
import { MASS, SPEED } from '../../units/dimension.ts';
import { type LimitedLoad, type LimitKey, limitedLoads } from '../limited-loads.ts';
import { restorationOf } from '../restores-too-much.ts';
import { beyond, influenceOf, sumOf } from '../states.ts';
import { carriesLoad, groupSubject, withinSentence } from '../subjects.ts';
import { heaviestTyre, heaviestTyreBeyond, tyreRatingOf } from '../tyre-rating.ts';
import type { AssessedText, Assessment, Limited, MissingRating, Unstated } from './limit-rule.ts';
import { AMOUNTS, axleRatingToWrite, couplingRatingToWrite, limitToWrite, tyresToWrite } from './to-write.ts';

/**
 * What plates, papers and tyre markings state, for the table of limits. Their diagnostics come from rules of their own, which
 * read the same quantities and limits.
 */
export const PLATED_LIMITS: readonly AssessedText[] = [
  plated(LOADS['over-axle-rating'], ['over-axle-rating'], (rig) => unrated(rig, isSingle)),
  plated(LOADS['over-group-rating'], ['over-group-rating'], (rig) => unrated(rig, isSeveral)),
  plated(LOADS['over-GVM'], ['over-GVM'], (rig) => unplated(rig, 'vehicle', 'GVM')),
  plated(LOADS['over-ATM'], ['over-ATM'], (rig) => unplated(rig, 'trailer', 'ATM')),
  plated(LOADS['over-GTM'], ['over-GTM'], () => []),
  plated(LOADS['over-GCM'], ['over-GCM'], (rig) => (tows(rig) ? unplated(rig, 'vehicle', 'GCM') : [])),
  plated(LOADS['over-towing'], ['over-towing', 'over-towing-unbraked'], withoutTowingRating),
  plated(LOADS['over-payload'], ['over-payload'], () => []),
  plated(COUPLINGS['over-coupling-rating'], ['over-coupling-rating'], withoutCouplingRating),
  {
    definition: COUPLINGS['tyre-overloaded'],
    markets: 'everywhere',
    assess: ({ rig }) => groups(rig).map((group) => tyreLoad(rig, group)),
  },
  {
    definition: COUPLINGS['tyre-too-slow'],
    markets: 'everywhere',
    assess: ({ rig }) => groups(rig).flatMap((group) => tyreSpeed(rig, group)),
  },
  { definition: LOADS['restores-too-much'], markets: ['US', 'CA'], assess: ({ rig }) => frontLoad(rig) },
];

function plated(
  definition: AssessedText['definition'],
  keys: readonly LimitKey[],
  unstated: (rig: RigModel) => readonly Unstated[],
): AssessedText {
  return {
    definition,
    markets: 'everywhere',
    assess: ({ rig }) => [
      ...limitedLoads(rig)
        .filter(({ key }) => keys.includes(key))
        .map(asLimited),
      ...unstated(rig),
    ],
  };
}

function asLimited({ subject, names, limit, limitName }: LimitedLoad): Limited {
  return {
    kind: 'limited',
    subject,
    quantity: 'the load',
    sense: 'at most',
    dimension: MASS,
    limitName,
    location: limit.location,
    compare: (state) => {
      const value = sumOf(state, names);
      return value === undefined ? undefined : { value, limit: limit.value };
    },
    excess: (state) => beyond(influenceOf(state, names), limit.value),
  };
}

interface GroupOfUnit {
  readonly unit: UnitModel;
  readonly group: AxleGroup;
}

const isSingle = ({ axles }: AxleGroup) => axles.length === 1;
const isSeveral = ({ axles }: AxleGroup) => axles.length > 1;

function groups(rig: RigModel, wanted: (group: AxleGroup) => boolean = () => true): GroupOfUnit[] {
  return rig.units.flatMap((unit) => unit.groups.filter(wanted).map((group) => ({ unit, group })));
}

function unrated(rig: RigModel, wanted: (group: AxleGroup) => boolean): Unstated[] {
  return groups(rig, (group) => wanted(group) && group.rating === undefined).map(({ unit, group }) => ({
    kind: 'unstated',
    subject: groupSubject(unit, group),
    quantity: 'the load',
    missing: axleRatingToWrite(unit, group, systemOfRig(rig)),
    rating: { unit, name: 'rating', quantities: [`${unit.name}.${group.name}.load`], line: group.location },
  }));
}

/** What the limits of a whole unit are on, where it is not its mass. */
const LIMITED_QUANTITIES: Readonly<Partial<Record<LimitName, (unit: UnitModel) => string>>> = {
  GVM: ({ name }) => `${name}.axles_total`,
  GCM: () => 'rig.mass',
};

function unplated(rig: RigModel, kind: UnitModel['kind'], name: LimitName): Unstated[] {
  return rig.units
    .filter((unit) => unit.kind === kind && unit.limits[name] === undefined)
    .map((unit) => ({
      kind: 'unstated',
      subject: unit.name,
      quantity: 'the load',
      missing: limitToWrite(unit, name, systemOfRig(rig)),
      rating: { unit, name, quantities: [LIMITED_QUANTITIES[name]?.(unit) ?? `${unit.name}.mass`] },
    }));
}

function tows(rig: RigModel): boolean {
  return rig.units[0]?.kind === 'vehicle' && rig.units.length > 1;
}

function withoutTowingRating(rig: RigModel): Unstated[] {
  const [vehicle] = rig.units;
  if (!tows(rig) || vehicle === undefined) return [];
  const { towing, towing_unbraked: unbraked } = vehicle.limits;
  if (towing !== undefined || unbraked !== undefined) return [];
  const missing = limitToWrite(vehicle, 'towing', systemOfRig(rig));
  return [{ kind: 'unstated', subject: vehicle.name, quantity: 'the load', missing }];
}

function withoutCouplingRating(rig: RigModel): Unstated[] {
  const rated = new Set(
    limitedLoads(rig).flatMap(({ key, subject }) => (key === 'over-coupling-rating' ? [subject] : [])),
  );
  return rig.units.flatMap((unit) => {
    const { name, coupling } = unit;
    const subject = `Coupling of ${name}`;
    if (coupling === undefined || !carriesLoad(coupling) || rated.has(subject)) return [];
    const missing = couplingRatingToWrite(unit, systemOfRig(rig));
    const rating: MissingRating = {
      unit,
      name: 'rating',
      quantities: [`${unit.name}.coupling.load`],
      line: coupling.location,
    };
    return [{ kind: 'unstated', subject, quantity: 'the load', missing, rating }];
  });
}

/** The most loaded tyre of a group. */
function tyreLoad(rig: RigModel, { unit, group }: GroupOfUnit): Assessment {
  const { tyres } = group;
  const subject = `Tyres of ${withinSentence(groupSubject(unit, group))}`;
  const quantity = 'the load on the heaviest wheel’s tyres, each';
  const rating = tyres && tyreRatingOf(rig, unit, tyres);
  if (tyres === undefined || rating === undefined || tyres.count < 1) {
    const missing = tyresToWrite(tyres === undefined ? 'tyres' : 'load index', unit, group, systemOfRig(rig));
    return { kind: 'unstated', subject, quantity, missing };
  }
  const load = heaviestTyre(unit, group, tyres.count);
  return {
    kind: 'limited',
    subject,
    quantity,
    sense: 'at most',
    dimension: MASS,
    limitName: tyres.dual ? `${rating.name} as one of two` : rating.name,
    location: tyres.location,
    compare: (state) => {
      const value = load(state);
      return value === undefined ? undefined : { value, limit: rating.capacity };
    },
    excess: (state) => heaviestTyreBeyond(unit, group, tyres.count, rating.capacity, state),
  };
}

const METRES_PER_SECOND_PER_KMH = 1 / 3.6;

function tyreSpeed(rig: RigModel, { unit, group }: GroupOfUnit): Assessment[] {
  const { tyres } = group;
  if (tyres === undefined) return [];
  const subject = `Tyres of ${withinSentence(groupSubject(unit, group))}`;
  const quantity = 'the intended speed';
  const { speed: most } = tyres;
  const speed = rig.travel?.speed;
  if (speed === undefined || most === undefined) {
    const system = systemOfRig(rig);
    const missing =
      speed === undefined
        ? `an intended speed of the rig (travel ${AMOUNTS.speed[system]})`
        : tyresToWrite('speed symbol', unit, group, system);
    return [{ kind: 'unstated', subject, quantity, missing }];
  }
  const limit = most * METRES_PER_SECOND_PER_KMH;
  return [
    {
      kind: 'limited',
      subject,
      quantity,
      sense: 'at most',
      dimension: SPEED,
      limitName: 'the speed symbol of the tyre',
      location: tyres.location,
      fixed: true,
      compare: () => ({ value: speed, limit }),
    },
  ];
}

/** The front axle with a weight-distribution device: it restores 100 % where the load is that without the trailer. */
function frontLoad(rig: RigModel): Limited[] {
  const restoration = tows(rig) ? restorationOf(rig) : undefined;
  const front = restoration?.vehicle.groups[0];
  if (restoration === undefined || front === undefined) return [];
  const { vehicle, location, compare } = restoration;
  return [
    {
      kind: 'limited',
      subject: groupSubject(vehicle, front),
      quantity: 'the load with the weight-distribution device',
      sense: 'at most',
      dimension: MASS,
      limitName: 'its load without the trailer (restoration of 100 %)',
      location,
      compare,
      excess: (state, { soloFront }) => {
        const load = influenceOf(state, [`${vehicle.name}.${front.name}.load`]);
        return load && soloFront && [blendInfluences(load, 1, soloFront, -1)];
      },
    },
  ];
}
