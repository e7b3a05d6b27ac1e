import { finding } from '../diagnostics/create.ts';
import { RATINGS } from '../diagnostics/ratings.ts';
import { systemOfRig } from '../semantics/display-system.ts';
import type { Limit, UnitModel } from '../semantics/model.ts';
import { formatMass } from '../units/display.ts';
import { axleRatings } from './markets/certified-weights.ts';
import { isOwn, ownPlace, pointAt } from './places.ts';
import type { Rule } from './rule.ts';
import { ROUNDING } from './states.ts';
import { carriesLoad } from './subjects.ts';

/** Two figures of which the first cannot be greater than the second. */
interface Pair {
  readonly name: string;
  readonly lesser: Limit | undefined;
  readonly otherName: string;
  /** Its location, where one line states it. */
  readonly greater: { readonly value: number; readonly location?: Limit['location'] } | undefined;
  readonly reason: string;
}

/** Ratings of a unit that cannot both be right; what exceeds a rating in a load state is told where loads are checked. */
export const ratingsContradict: Rule = {
  keys: ['ratings-contradict'],
  *check(result) {
    if (!result.rig.standalone) return;
    const system = systemOfRig(result.rig);
    for (const unit of result.rig.units) {
      for (const { name, lesser, otherName, greater, reason } of pairsOf(unit)) {
        if (lesser === undefined || greater === undefined || lesser.value <= greater.value + ROUNDING) continue;
        // A variant speaks only of what it states itself.
        if (!isOwn(result, lesser.location) && !(greater.location && isOwn(result, greater.location))) continue;
        const place = ownPlace(result, lesser.location, greater.location);
        const parameters = {
          unit: unit.name,
          name,
          value: lesser.value,
          otherName,
          other: greater.value,
          reason,
          system,
        };
        yield finding('ratings-contradict', RATINGS['ratings-contradict'], parameters, place, [
          ...pointAt(place, greater.location, `${otherName} of ${formatMass(greater.value, system)}`),
        ]);
      }
    }
  },
};

function pairsOf(unit: UnitModel): readonly Pair[] {
  const { limits } = unit;
  const axles = axleRatings(unit);
  const sum = axles === undefined ? undefined : { value: axles };
  const onlyAxles = 'the sum of its axle ratings';
  if (unit.kind === 'vehicle') {
    return [
      pair('GVM', limits.GVM, onlyAxles, sum, 'The axles carry all that the vehicle weighs.'),
      pair(
        'GVM',
        limits.GVM,
        'its GCM',
        limits.GCM,
        'The combination weighs what the vehicle weighs and what it tows.',
      ),
      pair('UVW', limits.UVW, 'its GVM', limits.GVM, 'The unloaded vehicle is lighter than the loaded one.'),
      unbrakedPair(unit),
    ];
  }
  const coupling = couplingLimit(unit);
  const together = axles === undefined || coupling === undefined ? undefined : { value: axles + coupling };
  return [
    pair('GTM', limits.GTM, 'its ATM', limits.ATM, 'What the axles carry is part of what the trailer weighs.'),
    pair('GTM', limits.GTM, onlyAxles, sum, 'It is the axles that carry it.'),
    pair(
      'ATM',
      limits.ATM,
      coupling === 0 ? onlyAxles : 'the sum of its axle ratings and its coupling limit',
      together,
      coupling === 0
        ? 'The axles carry all that the trailer weighs.'
        : 'Axles and coupling carry all that the trailer weighs.',
    ),
    pair('UVW', limits.UVW, 'its ATM', limits.ATM, 'The unloaded trailer is lighter than the loaded one.'),
    pair(
      'coupling_minimum',
      limits.coupling_minimum,
      'its coupling limit',
      limits.coupling,
      'No coupling load would keep to both.',
    ),
    unbrakedPair(unit),
  ];
}

function pair(
  name: string,
  lesser: Limit | undefined,
  otherName: string,
  greater: Pair['greater'],
  reason: string,
): Pair {
  return { name, lesser, otherName, greater, reason };
}

function unbrakedPair({ limits }: UnitModel): Pair {
  const reason = 'A trailer without brakes may not be heavier than one with brakes.';
  return pair('towing_unbraked', limits.towing_unbraked, 'its towing rating', limits.towing, reason);
}

/** kg that the coupling of a trailer may take off its axles; undefined where no limit is stated. */
function couplingLimit({ coupling, limits }: UnitModel): number | undefined {
  if (coupling === undefined) return undefined;
  if (!carriesLoad(coupling)) return 0;
  const stated = [limits.coupling?.value, coupling.rating?.value].flatMap((value) => value ?? []);
  return stated.length === 0 ? undefined : Math.min(...stated);
}
