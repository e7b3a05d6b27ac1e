import { finding } from '../diagnostics/create.ts';
import type { Finding } from '../diagnostics/finding.ts';
import { LOADS } from '../diagnostics/loads.ts';
import type { AxleGroup, UnitModel } from '../semantics/model.ts';
import type { RigResult } from '../semantics/state.ts';
import { moreOf } from './goal.ts';
import { helpFor } from './moves.ts';
import { contributors, limitPlace, pointAt } from './places.ts';
import type { Rule } from './rule.ts';
import { breachOf, influenceOf, quantityOf, ROUNDING, type Worst, worstOf } from './states.ts';
import { axlesOf, withinSentence } from './subjects.ts';

/** Axles and wheels with a negative load, in every state; one finding for each axle group. */
export const lifted: Rule = {
  keys: ['axle-lifted', 'wheel-lifted'],
  *check(result) {
    for (const unit of result.rig.units) {
      for (const group of unit.groups) {
        const found = liftedAxle(result, unit, group) ?? liftedWheel(result, unit, group);
        if (found !== undefined) yield found;
      }
    }
  },
};

interface Lifted {
  readonly name: string;
  readonly subject: string;
  readonly worst: Worst;
}

/** The named load that is furthest below zero. */
function mostLifted(
  result: RigResult,
  loads: readonly { readonly name: string; readonly subject: string }[],
): Lifted | undefined {
  let most: Lifted | undefined;
  for (const { name, subject } of loads) {
    const worst = worstOf(result.states, (state) => -(quantityOf(state, name) ?? 0), ROUNDING);
    if (worst !== undefined && worst.by > (most?.worst.by ?? 0)) most = { name, subject, worst };
  }
  return most;
}

function liftedAxle(result: RigResult, unit: UnitModel, group: AxleGroup): Finding | undefined {
  const axles = axlesOf(unit, group).map(({ prefix, subject }) => ({ name: `${prefix}.load`, subject }));
  const found = mostLifted(result, axles);
  if (found === undefined) return undefined;
  const { subject, place, breach, related } = describe(result, group, found);
  const parameters = { subject, load: -found.worst.by, ...breach };
  return finding('axle-lifted', LOADS['axle-lifted'], parameters, place, related);
}

function liftedWheel(result: RigResult, unit: UnitModel, group: AxleGroup): Finding | undefined {
  const wheels = axlesOf(unit, group).flatMap(({ prefix, subject }) => [
    { name: `${prefix}.left`, subject },
    { name: `${prefix}.right`, subject },
  ]);
  const found = mostLifted(result, wheels);
  if (found === undefined) return undefined;
  const { subject, place, breach, related } = describe(result, group, found);
  const side = found.name.endsWith('.left') ? 'left' : 'right';
  const parameters = { subject: withinSentence(subject), side, load: -found.worst.by, ...breach } as const;
  return finding('wheel-lifted', LOADS['wheel-lifted'], parameters, place, related);
}

function describe(result: RigResult, group: AxleGroup, { name, subject, worst }: Lifted) {
  const { state, by } = worst;
  const influence = influenceOf(state, [name]);
  const help = influence && helpFor(state, moreOf(influence, by));
  const place = limitPlace(result, state);
  const related = [...pointAt(place, group.location, subject), ...contributors(state, influence, { sign: -1 })];
  return { subject, place, breach: breachOf(worst, help), related };
}
