import { combinedDeviation, type FigureValue, figureAt, firstOrderEffect } from '../../mechanics/uncertainty.ts';
import type { Dimension } from '../../units/dimension.ts';
import type { CaseModel } from '../model.ts';
import type { MotionLoads, RigResult } from '../state.ts';
import { figureOf, type QuantityFigure } from './figures.ts';
import type { FreeSource, ToleranceEnds } from './free-source.ts';
import { rangeOf } from './ranges.ts';
import { type Reach, reachOfNamedState } from './reach.ts';

/** How far a quantity can be from its value in a named case by stated tolerances. */
export interface QuantityTolerance {
  readonly name: string;
  readonly dimension: Dimension;
  /** In the case as stated, SI. */
  readonly value: number;
  /**
   * The worst case, exact: the least and greatest value with every mass and place anywhere within its tolerance. All values
   * between them are taken too, so that a quantity without sign that can tilt to either side is 0 in one of them.
   */
  readonly least: number;
  readonly most: number;
  /**
   * First order: every tolerance is taken as the limits of a rectangular distribution, independent of the others, and the
   * quantity as linear about the case as stated. Of a quantity without sign it is that of the one with sign.
   */
  readonly standardDeviation: number;
  /** What each tolerance does to it, the largest first. */
  readonly effects: readonly ToleranceEffect[];
}

/** What one stated tolerance does to a quantity at first order. */
export interface ToleranceEffect {
  readonly source: FreeSource;
  readonly of: ToleranceEnds['of'];
  /** Half width, kg or m. */
  readonly halfWidth: number;
  /** What the upper end of the tolerance adds to the quantity, SI. */
  readonly effect: number;
  /** Its share of the variance, 0 to 1. */
  readonly share: number;
}

/** Tolerances of all that is on board in a named case. */
export interface NamedTolerances {
  readonly case: CaseModel;
  /** Undefined for what is no load or ratio of loads, and where the load that divides can be nothing within the tolerances. */
  readonly of: (name: string) => QuantityTolerance | undefined;
}

/** Undefined where nothing that is on board in the case has a tolerance. */
export function tolerancesIn(result: RigResult, state: CaseModel, loads: MotionLoads): NamedTolerances | undefined {
  const reach = reachOfNamedState(result, state);
  if (!reach.hasTolerances) return undefined;
  const inputs = reach.toleranced.flatMap((source) =>
    source.tolerancesIn(state).map((ends): Input => ({ source, ends })),
  );
  return { case: state, of: (name) => toleranceOf(reach, state, inputs, loads, name) };
}

/** SI: less is rounding. */
const NO_EFFECT = 1e-12;

interface Input {
  readonly source: FreeSource;
  readonly ends: ToleranceEnds;
}

function toleranceOf(
  reach: Reach,
  state: CaseModel,
  inputs: readonly Input[],
  loads: MotionLoads,
  name: string,
): QuantityTolerance | undefined {
  const found = figureOf(reach.result.rig, loads, name);
  const range = rangeOf(reach, loads, name, 'toleranced');
  if (found === undefined || range === undefined) return undefined;
  const nominal = reach.free.map((source) => source.inCase(state));
  const at = figureAt(found.figure, nominal);
  const signed = found.offset + (found.scale * at.above) / at.below;
  const effects = effectsOf(found, at, inputs, found.absolute && signed < 0 ? -1 : 1);
  return {
    name,
    dimension: range.dimension,
    value: found.absolute ? Math.abs(signed) : signed,
    least: range.least.value,
    most: range.most.value,
    standardDeviation: combinedDeviation(effects.map(({ effect }) => effect)),
    effects,
  };
}

function effectsOf(
  { figure, scale }: QuantityFigure,
  at: FigureValue,
  inputs: readonly Input[],
  sign: 1 | -1,
): readonly ToleranceEffect[] {
  const effects = inputs.map(({ source, ends }) => {
    const effect = sign * scale * firstOrderEffect(figure, at, ends);
    return { source, of: ends.of, halfWidth: ends.halfWidth, effect };
  });
  const variance = effects.reduce((sum, { effect }) => sum + effect * effect, 0);
  return effects
    .filter(({ effect }) => Math.abs(effect) > NO_EFFECT)
    .map((each) => ({ ...each, share: (each.effect * each.effect) / variance }))
    .sort((a, b) => b.share - a.share);
}
