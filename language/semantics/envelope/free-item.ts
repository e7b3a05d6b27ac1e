import { type Choice, cornerSteps, type PlacedMass, shifted } from '../../mechanics/envelope.ts';
import type { Position } from '../../mechanics/vector.ts';
import type { CaseModel, Stowed, UnitModel } from '../model.ts';
import { ITEM, stowedBody, stowedName } from '../sources.ts';
import {
  type Amounts,
  byCase,
  endsOf,
  type FreeSource,
  NO_STEP,
  NOTHING,
  placeEnds,
  scalesWithin,
  shareOf,
  sourceOf,
} from './free-source.ts';

/**
 * All pieces of an item: each arrangement is where they can lie together. Its tolerance is that of what one piece weighs, so
 * that all of them are heavier or lighter together.
 */
export function freeItem(
  units: readonly UnitModel[],
  arrangements: readonly (readonly Stowed[])[],
  inCase: (state: CaseModel) => readonly Stowed[],
  first: Stowed,
  toleranced: number,
): FreeSource {
  const { item } = first;
  const lying = new WeakMap<PlacedMass, Stowed>();
  const placed = (stowed: readonly Stowed[], scale: number, steps: readonly Position[] = []): Choice =>
    stowed.map((each, index) => {
      const { mass, centre } = stowedBody(each);
      const place = {
        unit: each.unit,
        mass: mass * scale,
        centre: shifted(centre, steps[index] ?? NO_STEP),
        sort: ITEM,
      };
      lying.set(place, each);
      return place;
    });
  const uncertain = item.mass > 0 ? (toleranced * (item.tolerance ?? 0)) / item.mass : 0;
  const scales = scalesWithin(uncertain);
  const lain = arrangements.filter((each) => each.length > 0);
  const around = (stowed: readonly Stowed[]) => stowed.map((each) => shareOf(each.placeTolerance, toleranced));
  const share = (stowed: readonly Stowed[], pieces: number, scale: number, steps: readonly Position[] = []): Choice =>
    pieces > 0 ? placed(stowed, (scale * pieces) / piecesOf(stowed), steps) : NOTHING;
  const cornersOfAll = (stowed: readonly Stowed[]): readonly Choice[] =>
    stowed.length === 0
      ? [NOTHING]
      : scales.flatMap((scale) => stepsOfAll(around(stowed)).map((steps) => placed(stowed, scale, steps)));
  const pieceByPiece = (stowed: readonly Stowed[]): readonly (readonly (readonly Choice[])[])[] =>
    scales.map((scale) =>
      stowed.map((each) =>
        around([each])
          .flatMap(cornerSteps)
          .map((step) => placed([each], scale, [step])),
      ),
    );
  const isListed = lain.every(
    (each) => around(each).reduce((count, place) => count * cornerSteps(place).length, 1) <= MOST_LISTED,
  );
  const amountsOf = (): Amounts => ({
    least: 0,
    most: Math.max(...lain.map(piecesOf)),
    inCase: (state) => piecesOf(inCase(state)),
    ways: lain.flatMap((stowed) =>
      scales.flatMap((scale) =>
        stepsOfAll(around(stowed)).map((steps) => (pieces: number) => share(stowed, pieces, scale, steps)),
      ),
    ),
    nominal: (pieces, state) => {
      const own = inCase(state);
      return share(own.length > 0 ? own : (lain[0] ?? []), pieces, 1);
    },
  });
  const nominal = arrangements.map((each) => (each.length === 0 ? NOTHING : placed(each, 1)));
  return {
    name: item.name,
    kind: 'item',
    location: first.location,
    choices: isListed ? arrangements.flatMap(cornersOfAll) : nominal,
    ...(isListed ? {} : { sums: lain.flatMap(pieceByPiece) }),
    inCase: byCase((state) => placed(inCase(state), 1)),
    sourcesOf: (choice) =>
      choice.flatMap((place) => {
        const stowed = lying.get(place);
        if (stowed === undefined) return [];
        const name = stowedName(units, stowed);
        return [sourceOf(place, { name, kind: 'item', location: stowed.location, stowed }, stowedBody(stowed))];
      }),
    stowedIn: (choice) => choice.flatMap((place) => lying.get(place) ?? []),
    tolerancesIn: (state) => {
      const stowed = inCase(state);
      if (stowed.length === 0) return [];
      const places = around(stowed).flatMap((each, index) =>
        placeEnds(each, (step) =>
          placed(
            stowed,
            1,
            stowed.map((_, other) => (other === index ? step : NO_STEP)),
          ),
        ),
      );
      return [...endsOf('mass', uncertain * item.mass, (by) => placed(stowed, 1 + by / item.mass)), ...places];
    },
    ...(isListed ? { amounts: amountsOf() } : {}),
  };
}

/** Every corner of several places with tolerances together: a step for each. */
function stepsOfAll(places: readonly Position[]): readonly (readonly Position[])[] {
  return places.reduce<readonly (readonly Position[])[]>(
    (before, place) => before.flatMap((steps) => cornerSteps(place).map((step) => [...steps, step])),
    [[]],
  );
}

/** More corners of an item that lies in several places are not listed. */
const MOST_LISTED = 64;

const piecesOf = (stowed: readonly Stowed[]): number => stowed.reduce((sum, { count }) => sum + count, 0);
