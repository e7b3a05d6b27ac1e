import {
  blendInfluences,
  constantInfluence,
  type Influence,
  isConstant,
  scaleInfluence,
} from '../../mechanics/influence.ts';
import { figureOf } from '../../semantics/envelope/figures.ts';
import type { Requirement } from '../../semantics/model.ts';
import { evaluateQuietly, fullName } from '../../semantics/requirements.ts';
import type { MotionLoads, StateResult } from '../../semantics/state.ts';
import type { Expression } from '../../syntax/tree.ts';

/** A load, or one load through another that is not constant, as functions of all masses, in SI units. */
export interface Quotient {
  readonly above: Influence;
  readonly below?: Influence;
}

/**
 * An expression of a requirement as a function of all masses: sums of loads and of shares of one load, times or through what is
 * constant, and a load through another. Undefined for anything else.
 */
export function quotientOf(
  expression: Expression,
  requirement: Requirement,
  state: StateResult,
  loads: MotionLoads,
): Quotient | undefined {
  const count = state.rig.units.length;
  const constant = (value: number | undefined) => (value === undefined ? undefined : constantOf(count, value));
  const of = (inner: Expression) => quotientOf(inner, requirement, state, loads);
  switch (expression.kind) {
    case 'quantity':
      return constant(evaluateQuietly(expression, requirement, () => undefined)?.value);
    case 'reference': {
      const name = fullName(expression.reference, requirement, state);
      if (name === undefined) return constant(requirement.names.get(pathText(expression))?.value);
      const found = figureOf(state.rig, loads, name);
      if (found === undefined || found.absolute) return undefined;
      const { numerator, denominator = constantInfluence(count, 1) } = found.figure;
      return simplified(blendInfluences(numerator, found.scale, denominator, found.offset), denominator);
    }
    case 'sum': {
      let sum = constant(0);
      for (const { negative, operand } of expression.terms) {
        const term = of(operand);
        sum = sum && term && sumOf(sum, term, negative ? -1 : 1);
      }
      return sum;
    }
    case 'product': {
      let product = constant(1);
      for (const { divide, operand } of expression.factors) {
        const factor = of(operand);
        product = product && factor && (divide ? productOf(product, inverse(factor)) : productOf(product, factor));
      }
      return product;
    }
    case 'text':
      return undefined;
  }
}

/** a + sign·b, where both go through the same load, or one of them is constant; undefined otherwise. */
export function sumOf(a: Quotient, b: Quotient, sign: 1 | -1): Quotient | undefined {
  if (isSame(a.below, b.below)) return { ...a, above: blendInfluences(a.above, 1, b.above, sign) };
  if (a.below === undefined && b.below !== undefined && isConstant(a.above)) {
    return { ...b, above: blendInfluences(b.below, a.above.constant, b.above, sign) };
  }
  if (b.below === undefined && a.below !== undefined && isConstant(b.above)) {
    return { ...a, above: blendInfluences(a.above, 1, a.below, sign * b.above.constant) };
  }
  return undefined;
}

function productOf(a: Quotient, b: Quotient): Quotient | undefined {
  const above = scaled(a.above, b.above);
  const below = scaled(belowOf(a), belowOf(b));
  return above && below && simplified(above, below);
}

const inverse = (quotient: Quotient): Quotient => ({ above: belowOf(quotient), below: quotient.above });

const constantOf = (count: number, value: number): Quotient => ({ above: constantInfluence(count, value) });

const belowOf = ({ above, below }: Quotient): Influence => below ?? constantInfluence(above.units.length, 1);

/** Without a load below that is constant; undefined for a division by nothing. */
function simplified(above: Influence, below: Influence): Quotient | undefined {
  if (!isConstant(below)) return { above, below };
  return below.constant === 0 ? undefined : { above: scaleInfluence(above, 1 / below.constant) };
}

/** The product of two loads of which one is constant; undefined where neither is. */
function scaled(a: Influence, b: Influence): Influence | undefined {
  if (isConstant(b)) return scaleInfluence(a, b.constant);
  return isConstant(a) ? scaleInfluence(b, a.constant) : undefined;
}

function isSame(a: Influence | undefined, b: Influence | undefined): boolean {
  if (a === undefined || b === undefined) return a === b;
  const difference = blendInfluences(a, 1, b, -1);
  return isConstant(difference) && difference.constant === 0;
}

const pathText = ({ reference }: Extract<Expression, { kind: 'reference' }>) =>
  reference.path.map(({ text }) => text).join('.');
