import { finding } from '../../diagnostics/create.ts';
import { REACH } from '../../diagnostics/reach.ts';
import { type FreeMass, greatestLoad } from '../../mechanics/envelope.ts';
import type { Influence } from '../../mechanics/influence.ts';
import { systemOfRig } from '../../semantics/display-system.ts';
import type { FreeSource } from '../../semantics/envelope/free-source.ts';
import type { Reach } from '../../semantics/envelope/reach.ts';
import type { MotionLoads, RigResult } from '../../semantics/state.ts';
import { formatDifference, formatLimited } from '../limits/check-limits.ts';
import type { Limited } from '../limits/limit-rule.ts';
import { limitPlace, ownPlace, pointAt } from '../places.ts';
import { type Bases, brokenIn, greatestExcess, standingOf } from './breach.ts';
import type { ReachBreach } from './check-reach.ts';
import type { ReachLimit } from './reach-limit.ts';

/** What the tolerance of one mass adds to a load at worst. */
export interface Contribution {
  readonly source: FreeSource;
  /** kg of the load. */
  readonly adds: number;
}

/**
 * What each tolerance adds to the greatest value of a load over a reach, greatest first. The load is a sum over the masses, each
 * of which is at its worst on its own, so that these add up to what all tolerances add together.
 */
export function toleranceContributions(load: Influence, reach: Reach): readonly Contribution[] {
  const { toleranced } = reach;
  const numerator = { ...load, constant: 0 };
  const most = (source: FreeMass) => greatestLoad(numerator, [source]).value;
  if (toleranced === reach.free) return [];
  return reach.free
    .flatMap((nominal, index) => {
      const source = toleranced[index];
      return source === undefined ? [] : [{ source, adds: most(source) - most(nominal) }];
    })
    .filter(({ adds }) => adds > 0)
    .sort((a, b) => b.adds - a.adds);
}

/** A limit that holds with nominal masses and can be broken by their tolerances. */
export function toleranceBreach(
  result: RigResult,
  { limited, code }: ReachLimit,
  reach: Reach,
  bases: Bases,
  loads: MotionLoads,
): Omit<ReachBreach, 'kind' | 'limit' | 'reach'> | undefined {
  if (reach.toleranced === reach.free) return undefined;
  const standing = brokenIn(limited, reach, reach.toleranced, bases, loads);
  if (standing === undefined || brokenIn(limited, reach, reach.free, bases, loads) !== undefined) return undefined;
  const nominal = standingOf(limited, reach, reach.free, bases, loads);
  if (nominal === undefined) return undefined;
  const { worst, found } = standing;
  const system = systemOfRig(result.rig);
  const { state } = nominal.worst.witness;
  const place =
    reach.case === undefined
      ? ownPlace(result, result.rig.reachable?.location, limited.location)
      : limitPlace(result, state);
  const [largest] = worst.excess === undefined ? [] : toleranceContributions(worst.excess, reach);
  const parameters = {
    subject: limited.subject,
    quantity: limited.quantity,
    sense: limited.sense,
    limitName: limited.limitName,
    nominal: nominal.worst.value,
    value: worst.value,
    limit: worst.limit,
    format: (value: number) => formatLimited(limited, value, system),
    formatDifference: (value: number) => formatDifference(limited, value, system),
    state: state.label,
    found,
    holdsWith: shareThatHolds(limited, reach, bases, loads),
    largest: largest?.source.name,
  };
  const related = [
    ...pointAt(place, limited.location, `${limited.limitName}`),
    ...(largest === undefined
      ? []
      : pointAt(place, largest.source.location, `${largest.source.name}: its tolerance adds most`)),
  ];
  const told = finding('tolerance-over-limit', REACH['tolerance-over-limit'], parameters, place, related);
  return { finding: { ...told, follows: code }, worst };
}

/** Halvings until the share is known to a tenth of a per cent. */
const HALVINGS = 10;

/** The share of all tolerances with which the limit would still hold, rounded down to what is shown. */
function shareThatHolds(limited: Limited, reach: Reach, bases: Bases, loads: MotionLoads): number {
  let [holds, breaks] = [0, 1];
  for (let step = 0; step < HALVINGS; step++) {
    const share = (holds + breaks) / 2;
    const masses = reach.withTolerances(share);
    const excess = greatestExcess(limited, masses, bases[0], loads);
    const isBroken = excess === undefined ? brokenIn(limited, reach, masses, bases, loads) !== undefined : excess > 0;
    if (isBroken) breaks = share;
    else holds = share;
  }
  return Math.floor(holds * 100) / 100;
}
