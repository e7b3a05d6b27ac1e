import { COUPLINGS } from '../../diagnostics/couplings.ts';
import { LOADS } from '../../diagnostics/loads.ts';
import { blendInfluences, scaleInfluence } from '../../mechanics/influence.ts';
import { figureOf } from '../../semantics/envelope/figures.ts';
import type { AxleGroup, RigModel, UnitModel } from '../../semantics/model.ts';
import type { RigResult } from '../../semantics/state.ts';
import { DIMENSIONLESS, MASS } from '../../units/dimension.ts';
import { bindingRules } from '../limits/check-limits.ts';
import type { AssessedText, Limited } from '../limits/limit-rule.ts';
import { PLATED_LIMITS } from '../limits/plated.ts';
import { marketShare } from '../markets/coupling-bands.ts';
import { MARKET_RULES } from '../markets/index.ts';
import { shareBeyond, shareGoal } from '../share-goal.ts';
import { MOST_IMBALANCE } from '../side-imbalance.ts';
import { influenceOf, quantityOf, ROUNDING } from '../states.ts';
import { MOST_LOST } from '../steering-axle-lightened.ts';
import { axlesOf, carriesLoad, groupSubject } from '../subjects.ts';
import { usualShare } from '../usual-share.ts';
import { requiredLimits } from './required.ts';

/** A limit that is held against states which no case names. */
export interface ReachLimit {
  readonly limited: Limited;
  /** Code of what reports it in the named cases. */
  readonly code: string;
  /** `practice` for what is common practice or a recommendation only. */
  readonly weight: 'limit' | 'practice';
  /** Names of the cases it holds in; in all states where absent. */
  readonly cases?: readonly string[];
}

/** Every limit of a rig that loads move: plates, texts of its markets, physics, practice, and the author's own. */
export function reachLimits(result: RigResult): readonly ReachLimit[] {
  const { rig } = result;
  return [
    ...assessed(result, PLATED_LIMITS, () => 'limit'),
    ...rig.units.flatMap((unit) => [...carried(unit), ...unit.groups.flatMap((group) => onTheRoad(unit, group))]),
    ...requiredLimits(result),
    ...assessed(result, MARKET_RULES, ({ severity }) => (severity === 'information' ? 'practice' : 'limit')),
    ...rig.units.flatMap((unit, index) => [...usual(rig, unit), ...(index === 0 ? steering(rig, unit) : [])]),
    ...rig.units.flatMap((unit) => unit.groups.map((group) => balanced(unit, group))),
  ];
}

function assessed<Text extends AssessedText>(
  result: RigResult,
  texts: readonly Text[],
  weight: (definition: Text['definition']) => ReachLimit['weight'],
): ReachLimit[] {
  return bindingRules(texts, result.rig).flatMap(({ definition, assess }) =>
    [...assess(result)].flatMap((limited): ReachLimit[] =>
      limited.kind === 'limited' && limited.fixed !== true
        ? [{ limited, code: definition.code, weight: weight(definition) }]
        : [],
    ),
  );
}

/** A coupling that pulls its hitch up. */
function carried({ name, coupling }: UnitModel): ReachLimit[] {
  if (coupling === undefined || !carriesLoad(coupling)) return [];
  const load = `${name}.coupling.load`;
  const limited = notNegative(`Coupling of ${name}`, 'the coupling load', load);
  return [{ limited, code: COUPLINGS['coupling-negative'].code, weight: 'limit' }];
}

/** Wheels that lift. */
function onTheRoad(unit: UnitModel, group: AxleGroup): ReachLimit[] {
  return axlesOf(unit, group).flatMap(({ prefix, subject }) =>
    ['left', 'right'].map((side) => ({
      limited: notNegative(subject, `the load of the ${side} wheel`, `${prefix}.${side}`),
      code: LOADS['wheel-lifted'].code,
      weight: 'limit' as const,
    })),
  );
}

function notNegative(subject: string, quantity: string, name: string): Limited {
  return {
    kind: 'limited',
    subject,
    quantity,
    sense: 'at least',
    dimension: MASS,
    limitName: 'zero',
    compare: (state) => {
      const value = quantityOf(state, name);
      return value === undefined ? undefined : { value, limit: 0 };
    },
    excess: (state) => {
      const load = influenceOf(state, [name]);
      return load && [scaleInfluence(load, -1)];
    },
  };
}

/** The share that is usual on a coupling, where no text of the rig's markets speaks of it. */
function usual(rig: RigModel, unit: UnitModel): ReachLimit[] {
  const share = usualShare(unit);
  if (share === undefined || marketShare(rig, unit) !== undefined) return [];
  const end = (sense: Limited['sense'], limit: number, code: string): ReachLimit => ({
    limited: {
      ...ratio(
        `Coupling of ${unit.name}`,
        'its share of the trailer’s mass',
        `${unit.name}.coupling.share`,
        sense,
        limit,
      ),
      limitName: `the ${sense === 'at least' ? 'least' : 'most'} that is usual`,
      excess: (state) => {
        const beyond = shareBeyond(state, unit.name, sense, limit);
        return beyond && [beyond];
      },
      goal: (state) => shareGoal(state, unit.name, sense, limit),
      // That the coupling is pulled up says more than that its share is small.
      toldElsewhere: (state) => (quantityOf(state, `${unit.name}.coupling.load`) ?? 0) < -ROUNDING,
    },
    code,
    weight: 'practice',
  });
  return [
    end('at least', share.least, COUPLINGS['coupling-share-low'].code),
    end('at most', share.most, COUPLINGS['coupling-share-high'].code),
  ];
}

/** What a trailer takes off the steering axle: beyond the limit where less is left than so much of the load without it. */
function steering({ units }: RigModel, unit: UnitModel): ReachLimit[] {
  const [front] = unit.groups;
  if (unit.kind !== 'vehicle' || front === undefined || units.length < 2) return [];
  const prefix = `${unit.name}.${front.name}`;
  const quantity = 'the share of its load that the trailer takes off';
  return [
    {
      limited: {
        ...ratio(groupSubject(unit, front), quantity, `${prefix}.lost`, 'at most', MOST_LOST),
        limitName: 'the most of common practice',
        excess: (state, { soloFront }) => {
          const load = influenceOf(state, [`${prefix}.load`]);
          return load && soloFront && [blendInfluences(soloFront, 1 - MOST_LOST, load, -1)];
        },
      },
      code: LOADS['steering-axle-lightened'].code,
      weight: 'practice',
    },
  ];
}

/** Left and right wheels of a group. */
function balanced(unit: UnitModel, group: AxleGroup): ReachLimit {
  const prefix = `${unit.name}.${group.name}`;
  const [left, right] = [[`${prefix}.left`], [`${prefix}.right`]];
  return {
    limited: {
      ...ratio(
        groupSubject(unit, group),
        'the difference of its sides',
        `${prefix}.imbalance`,
        'at most',
        MOST_IMBALANCE,
      ),
      limitName: 'the most of common practice',
      excess: (state) => {
        const [one, other, load] = [
          influenceOf(state, left),
          influenceOf(state, right),
          influenceOf(state, [`${prefix}.load`]),
        ];
        if (one === undefined || other === undefined || load === undefined) return undefined;
        return [
          blendInfluences(blendInfluences(one, 1, other, -1), 1, load, -MOST_IMBALANCE),
          blendInfluences(blendInfluences(other, 1, one, -1), 1, load, -MOST_IMBALANCE),
        ];
      },
    },
    code: LOADS['side-imbalance'].code,
    weight: 'practice',
  };
}

function ratio(
  subject: string,
  quantity: string,
  name: string,
  sense: Limited['sense'],
  limit: number,
): Omit<Limited, 'limitName'> {
  return {
    kind: 'limited',
    subject,
    quantity,
    sense,
    dimension: DIMENSIONLESS,
    unit: '%',
    ratio: ({ rig }, loads) => figureOf(rig, loads, name),
    compare: (state) => {
      const value = quantityOf(state, name);
      return value === undefined ? undefined : { value, limit };
    },
  };
}
