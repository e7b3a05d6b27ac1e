import fc from 'fast-check';
import { expect, test } from 'vitest';
import { standingOf } from '../../language/rules/reach/breach.ts';
import { reachesOf } from '../../language/rules/reach/check-reach.ts';
import { reachLimits } from '../../language/rules/reach/reach-limit.ts';
import { places, whole } from './draws.ts';
import { resultsOf } from './reachable-rigs.ts';

/** kg, and m behind the ball of the trailer. */
interface Drawn {
  readonly tare: number;
  readonly tareAt: number;
  readonly fresh: number;
  readonly freshAt: number;
  readonly freshEmpty: number;
  readonly fuel: number;
  readonly crate: number;
  readonly crateAt: number;
}

const drawn: fc.Arbitrary<Drawn> = fc.record({
  tare: whole(1500, 2600),
  tareAt: places(2.2, 2.9),
  fresh: whole(50, 900),
  freshAt: places(0.5, 4),
  freshEmpty: whole(0, 20),
  fuel: whole(10, 90),
  crate: whole(20, 400),
  crateAt: places(0.3, 4.2),
});

const AXLE = 3;
const TRACK = 1.5;
/** m left. */
const CRATE_SIDE = 0.4;
const MATE = 80;

const mm = (metres: number) => `${Math.round(metres * 1000)} mm`;

const textOf = ({ tare, tareAt, fresh, freshAt, freshEmpty, fuel, crate, crateAt }: Drawn) => `vehicle Truck {
  wheelbase 3200 mm, track 1680 mm
  tare 1100 kg on front, 1000 kg on rear, 600 mm up
  hitch ball at 1100 mm behind rear, 440 mm up
  limits { CCC 400 kg  OCCC 500 kg }
  seat mate ${MATE} kg at 1300 mm back, 700 mm up
  tank fuel ${fuel} L of diesel at 2000 mm back, 400 mm up
  tank wash 40 L of water at 2500 mm back, 400 mm up
}
trailer Hauler {
  coupling ball 50 mm, 440 mm up
  axles single at ${mm(AXLE)} back, track ${mm(TRACK)}, tyres "165R13 84S"
  tare ${tare} kg at ${mm(tareAt)} back, 500 mm up
  limits { ATM 4000 kg  CCC 800 kg }
  tank fresh ${fresh} L of water at ${mm(freshAt)} back, 500 mm up, size 1200 x 800 x 1200 mm, empty ${freshEmpty} kg
}
item crate ${crate} kg
rig Errand in DE {
  tow Truck
  haul Hauler
  stow crate in Hauler at ${mm(crateAt)} back, ${mm(CRATE_SIDE)} left, 500 mm up
  case out { fresh 50 %  fuel 50 %  wash 50 % }
  reachable { optional mate, crate }
}
`;

interface Figures {
  readonly load: number;
  readonly mass: number;
  readonly tyre: number;
  readonly cargoOfTruck: number;
  readonly boardOfTruck: number;
  readonly cargoOfHauler: number;
}

/** Every corner, by the lever rule: fuel is no cargo, and a tank's own mass is none. */
function* figuresOf({ tare, tareAt, fresh, freshAt, freshEmpty, crate, crateAt }: Drawn): Iterable<Figures> {
  const share = (at: number) => (AXLE - at) / AXLE;
  for (const wash of [0, 40]) {
    for (const mate of [0, MATE]) {
      for (const water of [0, fresh]) {
        for (const box of [0, crate]) {
          const load = tare * share(tareAt) + (water + freshEmpty) * share(freshAt) + box * share(crateAt);
          const mass = tare + water + freshEmpty + box;
          yield {
            load,
            mass,
            tyre: (mass - load) / 2 + (box * CRATE_SIDE) / TRACK,
            cargoOfTruck: wash + load,
            boardOfTruck: wash + mate + load,
            cargoOfHauler: water + box,
          };
        }
      }
    }
  }
}

test('limits on cargo, tyres and coupling loads are proved by the worst of every corner, by the lever rule', () => {
  fc.assert(
    fc.property(drawn, (each) => {
      const result = resultsOf({ 'main.rig': textOf(each) }).find(({ rig }) => rig.name === 'Errand');
      const reaches = result && reachesOf(result);
      if (result === undefined || reaches === undefined) throw new Error('no loads');
      const { whole: everything, bases, loads } = reaches;
      const told = reachLimits(result)
        .filter(({ code }) => ['RW802', 'RW834', 'RW846'].includes(code))
        .map(({ code, limited }) => {
          const standing = standingOf(limited, everything, everything.free, bases, loads);
          if (standing === undefined) return [code, undefined];
          const { value, limit } = standing.worst;
          return [code, standing.found, limited.limitName.slice(0, 8), value - limit];
        });
      const corners = [...figuresOf(each)];
      const most = (of: (figures: Figures) => number) => expect.closeTo(Math.max(...corners.map(of)), 6);
      // StVZO § 44(3): 15 % of the mass and 2.00 t. Load index 84: 500 kg.
      expect(told).toEqual([
        ['RW834', 'proved', 'its OCCC', most(({ boardOfTruck }) => boardOfTruck - 500)],
        ['RW834', 'proved', 'its CCC', most(({ cargoOfTruck }) => cargoOfTruck - 400)],
        ['RW834', 'proved', 'its CCC', most(({ cargoOfHauler }) => cargoOfHauler - 800)],
        ['RW846', 'proved', 'the capa', most(({ tyre }) => tyre - 500 / 1.1)],
        ['RW802', 'proved', 'the most', most(({ load, mass }) => load - Math.min(0.15 * mass, 2000))],
      ]);
    }),
    { numRuns: 60 },
  );
});
