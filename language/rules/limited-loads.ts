import type { AxleGroup, Limit, LimitName, RigModel, UnitModel } from '../semantics/model.ts';
import { carriesLoad, groupSubject } from './subjects.ts';

/** The catalogue entries for loads over a limit. */
export type LimitKey =
  | 'over-axle-rating'
  | 'over-group-rating'
  | 'over-GVM'
  | 'over-ATM'
  | 'over-GTM'
  | 'over-GCM'
  | 'over-towing'
  | 'over-towing-unbraked'
  | 'over-payload'
  | 'over-coupling-rating';

/** A load of a rig that a plate or paper limits. */
export interface LimitedLoad {
  readonly key: LimitKey;
  /** What carries the load, as a message begins. */
  readonly subject: string;
  /** Computed quantities whose sum is limited. */
  readonly names: readonly string[];
  readonly limit: Limit;
  /** `its rating`, `the GVM`. */
  readonly limitName: string;
}

/** All loads of a rig that have a limit, front to rear. */
export function limitedLoads(rig: RigModel): readonly LimitedLoad[] {
  return [
    ...rig.units.flatMap((unit, index) => [
      ...unit.groups.flatMap((group) => axleLoad(unit, group)),
      ...grossLoads(rig, unit, index),
      ...payload(rig, unit, index),
      ...couplingLoad(rig, unit, index),
    ]),
    ...combinationLoads(rig),
  ];
}

function axleLoad(unit: UnitModel, group: AxleGroup): LimitedLoad[] {
  const { rating } = group;
  if (rating === undefined) return [];
  const key = group.axles.length > 1 ? 'over-group-rating' : 'over-axle-rating';
  const names = [`${unit.name}.${group.name}.load`];
  return [{ key, subject: groupSubject(unit, group), names, limit: rating, limitName: 'its rating' }];
}

function grossLoads(rig: RigModel, unit: UnitModel, index: number): LimitedLoad[] {
  const axles = [`${unit.name}.axles_total`];
  if (unit.kind === 'vehicle') {
    const withCoupling = hasTrailerBehind(rig, index) ? `${unit.name} with its coupling load` : unit.name;
    return plate(unit, 'GVM', { key: 'over-GVM', subject: withCoupling, names: axles });
  }
  return [
    ...plate(unit, 'ATM', { key: 'over-ATM', subject: unit.name, names: [`${unit.name}.mass`] }),
    ...plate(unit, 'GTM', { key: 'over-GTM', subject: `Axles of ${unit.name}`, names: axles }),
  ];
}

/** What is on board beyond the tare; on a vehicle also what stands on its hitch. */
function payload(rig: RigModel, unit: UnitModel, index: number): LimitedLoad[] {
  const hitch = unit.kind === 'vehicle' && hasTrailerBehind(rig, index) ? [`${unit.name}.hitch.load`] : [];
  const names = [`${unit.name}.payload`, ...hitch];
  const subject = hitch.length === 0 ? `Payload of ${unit.name}` : `Payload of ${unit.name}, coupling load included`;
  return plate(unit, 'payload', {
    key: 'over-payload',
    subject,
    names,
  });
}

function hasTrailerBehind(rig: RigModel, index: number): boolean {
  const coupling = rig.units[index + 1]?.coupling;
  return coupling !== undefined && carriesLoad(coupling);
}

type Limited = Pick<LimitedLoad, 'key' | 'subject' | 'names'>;

const LIMIT_WORDS: Readonly<Partial<Record<LimitName, string>>> = {
  payload: 'its limit',
  towing: 'the towing rating',
  towing_unbraked: 'the towing rating without brakes',
};

function plate(unit: UnitModel, name: LimitName, limited: Limited): LimitedLoad[] {
  const limit = unit.limits[name];
  return limit === undefined ? [] : [{ ...limited, limit, limitName: LIMIT_WORDS[name] ?? `the ${name}` }];
}

/** The lowest of the limits that the two halves of a joint and their units state. */
function couplingLoad(rig: RigModel, trailer: UnitModel, index: number): LimitedLoad[] {
  const { coupling } = trailer;
  if (coupling === undefined || !carriesLoad(coupling)) return [];
  const ahead = rig.units[index - 1];
  const stated: readonly (readonly [string, Limit | undefined])[] = [
    [`the coupling limit of ${trailer.name}`, trailer.limits.coupling],
    [`the coupling rating of ${trailer.name}`, coupling.rating],
    [`the hitch rating of ${ahead?.name}`, ahead?.hitch?.rating],
    [`the coupling limit of ${ahead?.name}`, ahead?.limits.coupling],
  ];
  let governing: LimitedLoad | undefined;
  for (const [limitName, limit] of stated) {
    if (limit === undefined || (governing !== undefined && governing.limit.value <= limit.value)) continue;
    const subject = `Coupling of ${trailer.name}`;
    governing = { key: 'over-coupling-rating', subject, names: [`${trailer.name}.coupling.load`], limit, limitName };
  }
  return governing === undefined ? [] : [governing];
}

/** What the vehicle may weigh together with what it tows, and what it may tow. */
function combinationLoads(rig: RigModel): LimitedLoad[] {
  const vehicle = rig.units.find(({ kind }) => kind === 'vehicle');
  if (vehicle === undefined) return [];
  const loads = plate(vehicle, 'GCM', { key: 'over-GCM', subject: 'Combination', names: ['rig.mass'] });
  const towed = rig.units.filter(({ kind }) => kind === 'trailer');
  const unbraked = towed.filter(({ brakes }) => brakes === 'unbraked');
  if (unbraked.length > 0) {
    loads.push(...plate(vehicle, 'towing_unbraked', { key: 'over-towing-unbraked', ...towedMass(unbraked) }));
  }
  // A rating without brakes, where there is one, is the stricter of the two.
  const unbrakedAlone = unbraked.length === towed.length && vehicle.limits.towing_unbraked !== undefined;
  if (towed.length > 0 && !unbrakedAlone) {
    loads.push(...plate(vehicle, 'towing', { key: 'over-towing', ...towedMass(towed) }));
  }
  return loads;
}

function towedMass(trailers: readonly UnitModel[]): Pick<LimitedLoad, 'subject' | 'names'> {
  return {
    subject: trailers.map(({ name }) => name).join(' and '),
    names: trailers.map(({ name }) => `${name}.mass`),
  };
}
