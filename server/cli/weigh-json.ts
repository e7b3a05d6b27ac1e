import type { TareQuantity } from '../../language/mechanics/weighing/reconciliation.ts';
import { foundTares } from '../../language/rules/weighings.ts';
import type { JointSlip, JointWeighing, SlipDisagreement } from '../../language/semantics/weighing/joint.ts';
import type { WeighedTare, WeighingResult } from '../../language/semantics/weighing/weighing-result.ts';
import { finite } from './finite.ts';
import type { FoundWeighings } from './weigh.ts';

/** The slips of a rig as the schema describes them, without the rig's name and place. */
export function weighingsJson({ found, slips, joint }: FoundWeighings): object {
  const { units } = found.result.rig;
  return {
    weighings: slips.map((slip) =>
      slipJson(
        slip,
        units.map(({ name }) => name),
      ),
    ),
    joint: joint && jointJson(joint),
  };
}

/** All slips as one; tares and what follows of them only where the slips agree. */
function jointJson({ slips, leftOut, tares, reconciliation, disagreement }: JointWeighing): object {
  const { degreesOfFreedom, chiSquare, standardErrorFactor } = reconciliation;
  return {
    slips: slips.map(jointSlipJson),
    leftOut: leftOut.map(({ slip, reason }) => ({ ...jointSlipJson(slip), reason })),
    agreement: disagreement === undefined ? 'agree' : 'disagree',
    degreesOfFreedom,
    chiSquare: finite(chiSquare),
    standardErrorFactor: finite(standardErrorFactor),
    ...(disagreement === undefined
      ? { tares: tares.map(tareJson), found: foundTares(tares) }
      : { disagreement: disagreementJson(disagreement) }),
  };
}

function disagreementJson({ odd, changes, suspects }: SlipDisagreement): object {
  return {
    odd: odd && jointSlipJson(odd),
    changes: changes.map(({ of, figure, one, other, change }) => ({
      unit: of.name,
      figure,
      from: jointSlipJson(one),
      to: jointSlipJson(other),
      change,
    })),
    suspects: suspects.map(({ slip, pass, reading }) => ({
      slip: jointSlipJson(slip),
      name: reading.name,
      pass: pass.kind,
      case: pass.case,
    })),
  };
}

function jointSlipJson({ weighing, of }: JointSlip): object {
  return { name: weighing.name, unit: of?.name };
}

function slipJson(slip: WeighingResult, units: readonly string[]): object {
  const { weighing, readings, tares, differences, suspects, reconciliation } = slip;
  const { agreement, degreesOfFreedom, chiSquare, standardErrorFactor } = reconciliation;
  return {
    name: weighing.name,
    title: weighing.title,
    case: weighing.case,
    scale: weighing.scale,
    readings: readings.map((reading) => ({
      name: reading.reading.name,
      quantity: reading.reading.quantity,
      pass: reading.pass.kind,
      unit: reading.pass.unit === undefined ? undefined : units[reading.pass.unit],
      raised: reading.pass.raised,
      case: reading.pass.case,
      read: finite(reading.reading.value),
      deviation: finite(reading.reading.deviation),
      computed: finite(reading.predicted),
      computedDeviation: finite(reading.predictedDeviation),
      difference: finite(reading.residual),
      tolerance: finite(reading.tolerance),
      verdict: reading.verdict,
      fitted: finite(reading.fitted),
      redundancy: finite(reading.redundancy),
      standardised: finite(reading.standardised),
    })),
    differences: differences.map(({ quantity, basis, value, deviation, predicted, case: state }) => ({
      quantity,
      basis,
      case: state,
      weighed: finite(value),
      deviation: finite(deviation),
      computed: finite(predicted),
    })),
    tares: tares.map(tareJson),
    found: suspects.length > 0 ? [] : foundTares(tares),
    contradicting: suspects.map(({ reading, pass }) => ({ name: reading.name, pass: pass.kind, case: pass.case })),
    agreement,
    degreesOfFreedom,
    chiSquare: finite(chiSquare),
    standardErrorFactor: finite(standardErrorFactor),
  };
}

function tareJson({ of, mass, x, y, z, missing }: WeighedTare): object {
  return {
    unit: of.name,
    mass: quantityJson(mass),
    x: quantityJson(x),
    y: quantityJson(y),
    z: quantityJson(z),
    missing,
  };
}

/** `value` and its standard error only where the readings determine it. */
function quantityJson({ filed, value, standardError }: TareQuantity): object {
  return standardError === undefined
    ? { filed: finite(filed) }
    : { filed: finite(filed), value: finite(value), standardError: finite(standardError) };
}
