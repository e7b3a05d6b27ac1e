import fc from 'fast-check';
import type { AxleGroup, Combination, Field, Unit, WeightDistribution } from '../../language/mechanics/combination.ts';
import type { MassSource } from '../../language/mechanics/influence.ts';

/** A random combination of up to three units in a random field, with masses everywhere. */
export interface RandomRig {
  readonly combination: Combination;
  readonly field: Field;
  readonly sources: readonly MassSource[];
}

/** Evenly spread over the range; plain doubles would nearly all be next to zero. */
export function number(min: number, max: number): fc.Arbitrary<number> {
  return fc.integer({ min: 0, max: 1_000_000 }).map((step) => min + ((max - min) * step) / 1_000_000);
}

/** A group whose first axle is at 0; it is put in place later. */
const group = fc
  .record({
    spacings: fc.array(number(0.5, 1.4), { minLength: 0, maxLength: 2 }),
    tracks: fc.array(number(1.2, 2.3), { minLength: 3, maxLength: 3 }),
    rates: fc.array(number(3e4, 4e5), { minLength: 3, maxLength: 3 }),
    suspension: fc.constantFrom<AxleGroup['suspension']>('equalised', 'independent'),
  })
  .map(({ spacings, tracks, rates, suspension }) => {
    let x = 0;
    const places = [0, ...spacings.map((spacing) => (x -= spacing))];
    const axles = places.map((place, i) => ({ x: place, track: tracks[i] ?? 2, rate: rates[i] ?? 1e5 }));
    return { axles, suspension };
  });

function placed(groups: readonly AxleGroup[], gaps: readonly number[], ratesKnown: boolean): AxleGroup[] {
  let end = 0;
  return groups.map(({ axles, suspension }, i) => {
    const start = end - (gaps[i] ?? 1);
    end = start + (axles.at(-1)?.x ?? 0);
    return {
      suspension,
      axles: axles.map(({ x, track, rate }) => ({ x: start + x, track, rate: ratesKnown ? rate : undefined })),
    };
  });
}

function rear(groups: readonly AxleGroup[]): number {
  return Math.min(...groups.flatMap(({ axles }) => axles.map(({ x }) => x)));
}

const vehicle: fc.Arbitrary<Unit> = fc
  .record({
    groups: fc.array(group, { minLength: 2, maxLength: 3 }),
    gaps: fc.tuple(number(-0.5, 0.5), number(2, 4.5), number(1, 3)),
    ratesKnown: fc.boolean(),
    overhang: number(-0.8, 1.6),
    hitchHeight: number(0.3, 1.3),
  })
  .map(({ groups, gaps, ratesKnown, overhang, hitchHeight }) => {
    const inPlace = placed(groups, gaps, ratesKnown);
    const hitch = { x: rear(inPlace) - overhang, z: hitchHeight };
    return { groups: inPlace, couplingCarries: false, hitch, brakeShare: 1 };
  });

const trailer: fc.Arbitrary<Unit> = fc
  .record({
    carries: fc.boolean(),
    groups: fc.array(group, { minLength: 2, maxLength: 2 }),
    gaps: fc.tuple(number(0.8, 5), number(1.5, 4)),
    single: fc.boolean(),
    ratesKnown: fc.boolean(),
    couplingHeight: number(0.3, 1.3),
    overhang: number(-0.5, 2),
    hitchHeight: number(0.3, 1.3),
    brakeShare: number(0, 1.3),
  })
  .map((t) => {
    const groups = placed(t.carries && t.single ? t.groups.slice(0, 1) : t.groups, t.gaps, t.ratesKnown);
    return {
      groups,
      coupling: { x: 0, z: t.couplingHeight },
      couplingCarries: t.carries,
      hitch: { x: rear(groups) - t.overhang, z: t.hitchHeight },
      brakeShare: t.brakeShare,
    };
  });

const device: fc.Arbitrary<WeightDistribution> = fc.oneof(
  fc.record({ kind: fc.constant<'moment'>('moment'), moment: number(-4000, 8000) }),
  fc.record({ kind: fc.constant<'restored'>('restored'), share: number(0, 1.2) }),
);

const combination: fc.Arbitrary<Combination> = fc
  .record({
    lead: fc.option(vehicle),
    trailers: fc.array(trailer, { minLength: 0, maxLength: 2 }),
    alone: trailer,
    device: fc.option(device),
  })
  .map(({ lead, trailers, alone, device }) => {
    const units = [lead ?? alone, ...trailers];
    const fits = lead !== null && units[1]?.couplingCarries === true;
    return { units, weightDistribution: fits && device !== null ? device : undefined };
  });

export const field: fc.Arbitrary<Field> = fc.oneof(
  fc.constant({ grade: 0, deceleration: 0 }),
  fc.record({ grade: number(-0.3, 0.3), deceleration: fc.constant(0) }),
  fc.record({ grade: number(-0.3, 0.3), deceleration: number(-3, 8) }),
);

const mass = fc.record({
  place: fc.nat(2),
  mass: number(0, 2000),
  centre: fc.record({ x: number(-8, 1), y: number(-1.2, 1.2), z: number(0, 2.5) }),
});

/** Every draw has at least one mass, in unit 0. */
export const randomRig: fc.Arbitrary<RandomRig> = fc
  .record({ combination, field, masses: fc.array(mass, { minLength: 1, maxLength: 12 }) })
  .map(({ combination, field, masses }) => ({
    combination,
    field,
    sources: masses.map(({ place, mass, centre }, i) => ({
      id: `mass ${i}`,
      unit: i === 0 ? 0 : place % combination.units.length,
      mass,
      centre,
    })),
  }));
