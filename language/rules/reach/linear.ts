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

/**
 * An expression of a requirement as a function of all masses, in SI units: sums of loads, times or through what is constant.
 * Undefined for anything else.
 */
export function linearOf(
  expression: Expression,
  requirement: Requirement,
  state: StateResult,
  loads: MotionLoads,
): Influence | undefined {
  const count = state.rig.units.length;
  const constant = (value: number | undefined) => (value === undefined ? undefined : constantInfluence(count, value));
  const of = (inner: Expression) => linearOf(inner, requirement, state, loads);
  switch (expression.kind) {
    case 'quantity':
      return constant(evaluateQuietly(expression, requirement, () => undefined)?.value);
    case 'reference': {
      const name = fullName(expression.reference, requirement, state);
      if (name === undefined) return constant(requirement.names.get(pathText(expression))?.value);
      const found = figureOf(state.rig, loads, name);
      if (found === undefined || found.figure.denominator !== undefined) return undefined;
      return blendInfluences(found.figure.numerator, found.scale, constantInfluence(count, 1), found.offset);
    }
    case 'sum': {
      let sum: Influence | undefined;
      for (const { negative, operand } of expression.terms) {
        const term = of(operand);
        if (term === undefined) return undefined;
        sum = blendInfluences(sum ?? constantInfluence(count, 0), 1, term, negative ? -1 : 1);
      }
      return sum;
    }
    case 'product': {
      let product: Influence | undefined;
      for (const { divide, operand } of expression.factors) {
        const factor = of(operand);
        product = factor && multiply(product ?? constantInfluence(count, 1), factor, divide);
        if (product === undefined) return undefined;
      }
      return product;
    }
    case 'text':
      return undefined;
  }
}

/** Undefined where neither is constant, or for a division by what is not. */
function multiply(a: Influence, b: Influence, divide: boolean): Influence | undefined {
  if (isConstant(b)) return scaleInfluence(a, divide ? 1 / b.constant : b.constant);
  return isConstant(a) && !divide ? scaleInfluence(b, a.constant) : undefined;
}

const pathText = ({ reference }: Extract<Expression, { kind: 'reference' }>) =>
  reference.path.map(({ text }) => text).join('.');
