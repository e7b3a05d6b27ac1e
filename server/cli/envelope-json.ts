import type { ReachMargin } from '../../language/rules/reach/margins.ts';
import { isFree } from '../../language/semantics/envelope/free-source.ts';
import type { Reach } from '../../language/semantics/envelope/reach.ts';
import type { ToldRange } from '../../language/semantics/envelope/told-range.ts';
import type { QuantityTolerance } from '../../language/semantics/envelope/tolerances.ts';
import type { Witness } from '../../language/semantics/envelope/witness.ts';
import { stowedIn } from '../../language/semantics/sources.ts';
import { baseUnits } from '../../language/units/dimension.ts';
import type { FoundEnvelope, FoundReach, FoundTolerances } from './envelope-results.ts';
import { wholeText } from './envelope-table.ts';
import { finite } from './finite.ts';

/** The envelope of a rig as `output.schema.json` describes it, without the rig's name and place. */
export function envelopeJson({ reaches, tolerances }: FoundEnvelope): object {
  return { reaches: reaches.map(reachJson), tolerances: tolerances.map(tolerancesJson) };
}

function reachJson(found: FoundReach): object {
  const { reach, ranges, unbounded, margins, states } = found;
  return {
    case: reach.case?.name,
    varying: varyingJson(reach),
    quantities: Object.fromEntries(ranges.map((told) => [told.range.name, rangeJson(told, found)])),
    unbounded,
    limits: margins.map((margin) => marginJson(margin, found)),
    states: states.map((witness) => stateJson(witness, reach)),
  };
}

function varyingJson({ free }: Reach): object {
  const varying = free.filter(isFree);
  const named = (kind: string) => varying.filter((source) => source.kind === kind).map(({ name }) => name);
  const tanks = varying.flatMap(({ name, choices, levelIn }) => {
    const levels = levelIn === undefined ? [] : choices.map(levelIn);
    return levels.length < 2 ? [] : [[name, { least: Math.min(...levels), most: Math.max(...levels) }] as const];
  });
  return { levels: Object.fromEntries(tanks), seats: named('seat'), items: named('item') };
}

function rangeJson({ range, least, most, named }: ToldRange, { indexOf }: FoundReach): object {
  const end = (value: number, witness: Witness | undefined) => ({
    value: finite(value),
    state: witness && indexOf(witness),
  });
  return {
    unit: baseUnits(range.dimension),
    least: end(range.least.value, least),
    most: end(range.most.value, most),
    exact: range.exact,
    namedCases: named && { least: finite(named.least), most: finite(named.most) },
  };
}

function marginJson({ limit, worst, margin, verdict, found }: ReachMargin, { indexOf }: FoundReach): object {
  const { limited, code, weight, cases } = limit;
  return {
    code,
    subject: limited.subject,
    quantity: limited.quantity.replace(/,$/, ''),
    weight,
    cases,
    verdict,
    found,
    value: finite(worst.value),
    limit: finite(worst.limit),
    margin: finite(margin),
    sense: limited.sense,
    unit: baseUnits(limited.dimension),
    limitName: limited.limitName,
    state: indexOf(worst.witness),
  };
}

/** A state as a case would state it: every tank, seat and item of the rig. */
function stateJson({ state, base, differences }: Witness, { free }: Reach): object {
  const { rig, case: own } = state;
  const stowed = stowedIn(rig, own);
  const present = new Set(stowed.map(({ item }) => item.name));
  const items = free.filter(({ kind }) => kind === 'item').map(({ name }) => name);
  return {
    label: wholeText({ differences, base }),
    nearestCase: base.name,
    levels: Object.fromEntries([...own.levels].map(([name, { value }]) => [name, value])),
    occupants: own.occupants ?? rig.occupants,
    absent: items.filter((name) => !present.has(name)),
    stowed: stowed.map(({ item, count, unit, locker }) => ({
      item: item.name,
      count,
      unit: rig.units[unit]?.name,
      locker: locker?.name,
    })),
  };
}

function tolerancesJson({ state, quantities, unbounded }: FoundTolerances): object {
  return {
    case: state.case.name,
    quantities: Object.fromEntries(quantities.map((each) => [each.name, toleranceJson(each)])),
    unbounded,
  };
}

/** As the derivatives of the stability are called. */
const WORDS = { mass: 'mass', x: 'forward', y: 'left', z: 'up' } as const;

function toleranceJson({ dimension, value, least, most, standardDeviation, effects }: QuantityTolerance): object {
  return {
    unit: baseUnits(dimension),
    value: finite(value),
    worstCase: { least: finite(least), most: finite(most) },
    standardDeviation: finite(standardDeviation),
    contributions: effects.map(({ source, of, halfWidth, effect, share }) => ({
      name: source.name,
      of: WORDS[of],
      halfWidth,
      effect: finite(effect),
      share: finite(share),
    })),
  };
}
