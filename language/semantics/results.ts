import { evaluateRig } from './evaluate.ts';
import { createRecall, type Recall } from './recall.ts';
import { evaluateStability, type RigStability } from './stability/evaluate-stability.ts';
import { type JointWeighing, joinWeighings } from './weighing/joint.ts';
import { reconcileWeighings, type WeighingResult } from './weighing/weighing-result.ts';

/** The states of a rig, or why it has none. */
export const resultOf = createRecall(evaluateRig);

/** The lateral stability of a rig; undefined for one that tows nothing or has no loads. */
export const stabilityOf: Recall<RigStability | undefined> = createRecall((rig) => {
  const result = resultOf(rig);
  return 'problem' in result ? undefined : evaluateStability(result);
});

/** The slips of a rig, and those of its units by themselves, as one; undefined where there are not two. */
export const jointWeighingOf: Recall<JointWeighing | undefined> = createRecall((rig) => {
  const result = resultOf(rig);
  return 'problem' in result ? undefined : joinWeighings(result);
});

/** The slips of a rig, reconciled. */
export const weighingsOf: Recall<readonly WeighingResult[]> = createRecall((rig) => {
  const result = resultOf(rig);
  return 'problem' in result ? [] : reconcileWeighings(result);
});
