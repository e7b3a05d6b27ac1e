import fc from 'fast-check';
import { expect, test } from 'vitest';
import { standingOf } from '../../language/rules/reach/breach.ts';
import { reachesOf } from '../../language/rules/reach/check-reach.ts';
import { reachLimits } from '../../language/rules/reach/reach-limit.ts';
import { places, whole } from './draws.ts';
import { resultsOf } from './reachable-rigs.ts';

/** kg; places in m behind the front axle of the vehicle, or behind the ball of the trailer. */
interface Drawn {
  readonly kerb: number;
  readonly kerbOff: number;
  readonly tare: number;
  readonly tareOff: number;
  readonly tareAt: number;
  readonly box: number;
  readonly boxOff: number;
  readonly boxAt: number;
  readonly fuel: number;
  readonly water: number;
  readonly waterOff: number;
  readonly waterAt: number;
  readonly crateOff: number;
}

const drawn: fc.Arbitrary<Drawn> = fc.record({
  kerb: whole(1500, 2500),
  kerbOff: whole(0, 60),
  tare: whole(400, 900),
  tareOff: whole(0, 60),
  tareAt: places(2.5, 3.2),
  box: whole(20, 80),
  boxOff: whole(0, 15),
  boxAt: places(-0.5, 4),
  fuel: whole(10, 90),
  water: whole(20, 120),
  waterOff: whole(0, 10),
  waterAt: places(0.5, 4),
  crateOff: whole(0, 8),
});

const WHEELBASE = 3;
const OVERHANG = 1;
const AXLE = 3;
const SEAT = { mass: 80, at: 1.3 };
const FUEL_AT = 2;
const CRATE = { mass: 40, at: 1.5 };

const mm = (metres: number) => `${Math.round(metres * 1000)} mm`;
const behind = (at: number) => `${mm(Math.abs(at))} ${at < 0 ? 'ahead' : 'back'}`;

/** The limits are what no state is near; what counts is the worst value of each sum. */
const textOf = (each: Drawn, sums: readonly string[]) => `vehicle Truck {
  wheelbase ${mm(WHEELBASE)}, track 1600 mm
  tare ${each.kerb / 2} kg on front, ${each.kerb / 2} kg on rear, 600 mm up, tolerance ${each.kerbOff} kg
  hitch ball at ${mm(OVERHANG)} behind rear, 440 mm up
  seat mate ${SEAT.mass} kg at ${mm(SEAT.at)} back, 700 mm up
  tank fuel ${each.fuel} L of water at ${mm(FUEL_AT)} back, 400 mm up
}
trailer Hauler {
  coupling ball 50 mm, 440 mm up
  axles single at ${mm(AXLE)} back, track 1500 mm
  tare ${each.tare} kg at ${behind(each.tareAt)}, 500 mm up, tolerance ${each.tareOff} kg
  fitting box ${each.box} kg at ${behind(each.boxAt)}, 500 mm up, tolerance ${each.boxOff} kg
  tank fresh ${each.water} L of water at ${behind(each.waterAt)}, 500 mm up, tolerance ${each.waterOff} %
}
item crate ${CRATE.mass} kg tolerance ${each.crateOff} kg
rig Errand {
  tow Truck
  haul Hauler
  stow crate in Hauler at ${behind(CRATE.at)}, 500 mm up
  case out { fresh 50 %  fuel 50 % }
  reachable { optional mate, crate }
${sums.map((sum) => `  require ${sum} between -100 t and 100 t`).join('\n')}
}
`;

/** What is where, kg, in one corner of everything that the drawn rig can be. */
interface Corner {
  readonly kerb: number;
  readonly tare: number;
  readonly box: number;
  readonly fuel: number;
  readonly mate: number;
  readonly water: number;
  readonly crate: number;
}

function* cornersOf(each: Drawn): Iterable<Corner> {
  const off = (mass: number, half: number) => [mass - half, mass + half];
  for (const kerb of off(each.kerb, each.kerbOff)) {
    for (const tare of off(each.tare, each.tareOff)) {
      for (const box of off(each.box, each.boxOff)) {
        for (const fuel of [0, each.fuel]) {
          for (const mate of [0, SEAT.mass]) {
            for (const water of [0, ...off(each.water, (each.water * each.waterOff) / 100)]) {
              for (const crate of [0, ...off(CRATE.mass, each.crateOff)]) {
                yield { kerb, tare, box, fuel, mate, water, crate };
              }
            }
          }
        }
      }
    }
  }
}

/** By the lever rule, and by what a payload is: all that is added to the empty unit, whatever that weighs. */
function figuresOf(each: Drawn, { kerb, tare, box, fuel, mate, water, crate }: Corner) {
  const share = (at: number) => (AXLE - at) / AXLE;
  const coupling =
    tare * share(each.tareAt) + box * share(each.boxAt) + water * share(each.waterAt) + crate * share(CRATE.at);
  const rear = kerb / 2 + (fuel * FUEL_AT + mate * SEAT.at + coupling * (WHEELBASE + OVERHANG)) / WHEELBASE;
  return { coupling, rear, mass: kerb + fuel + mate, ofTruck: fuel + mate, ofHauler: water + crate };
}

type Figures = ReturnType<typeof figuresOf>;

const SUMS: readonly (readonly [string, (figures: Figures) => number])[] = [
  ['Truck.payload + Hauler.coupling.load', ({ ofTruck, coupling }) => ofTruck + coupling],
  ['Truck.payload + Hauler.payload', ({ ofTruck, ofHauler }) => ofTruck + ofHauler],
  ['Truck.payload + Truck.rear.load', ({ ofTruck, rear }) => ofTruck + rear],
  ['3 * Truck.payload - Truck.mass', ({ ofTruck, mass }) => 3 * ofTruck - mass],
  ['Hauler.coupling.load - Hauler.payload / 2', ({ ofHauler, coupling }) => coupling - ofHauler / 2],
];

test('sums with a payload are with tolerances what trying every corner gives: those of the tare count where its load does', () => {
  fc.assert(
    fc.property(drawn, (each) => {
      const names = SUMS.map(([sum]) => sum);
      const result = resultsOf({ 'main.rig': textOf(each, names) }).find(({ rig }) => rig.name === 'Errand');
      const reaches = result && reachesOf(result);
      if (result === undefined || reaches === undefined) throw new Error('no loads');
      const { whole, bases, loads } = reaches;
      const corners = [...cornersOf(each)].map((corner) => figuresOf(each, corner));
      const limits = reachLimits(result).filter(({ code }) => code === 'RW581');
      const told = limits.map(({ limited }) => {
        const standing = standingOf(limited, whole, whole.toleranced, bases, loads);
        return [limited.sense, standing?.found, standing?.worst.value];
      });
      const expected = SUMS.flatMap(([, sumOf]) => {
        const values = corners.map(sumOf);
        return [
          ['at least', 'proved', expect.closeTo(Math.min(...values), 6)],
          ['at most', 'proved', expect.closeTo(Math.max(...values), 6)],
        ];
      });
      expect(told).toEqual(expected);
    }),
    { numRuns: 40 },
  );
});
