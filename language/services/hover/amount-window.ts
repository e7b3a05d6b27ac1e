import { reachesOf } from '../../rules/reach/check-reach.ts';
import { choosable } from '../../rules/window/choose.ts';
import { isLimited } from '../../rules/window/question.ts';
import { rangeWords } from '../../rules/window/range-words.ts';
import { amountRange } from '../../rules/window/window.ts';
import { plain } from '../markdown.ts';
import type { HoverContext, UnitView } from './context.ts';

/**
 * At which levels of a tank all limits hold, whatever else is on board: of a rig, or of a unit alone that says what is
 * reachable. Undefined where there is nothing to say.
 */
export function tankWindow(context: HoverContext, { result, owner }: UnitView, name: string): string | undefined {
  const { rig } = result;
  if (rig.standalone && rig.reachable === undefined) return undefined;
  const reaches = reachesOf(result);
  const chosen = reaches && choosable(reaches).find((each) => each.name === name);
  if (reaches === undefined || chosen === undefined || chosen.least >= chosen.most) return undefined;
  const { uri } = result === context.result ? context.here : owner;
  const levels = context.analysis.levels(uri, rig.location.declaration);
  const range = amountRange(result, reaches, chosen, {
    tolerances: 'worst',
    practice: false,
    isOff: (code) => levels.get(code)?.level === 'off',
  });
  if (range === undefined || !isLimited(range.held)) return undefined;
  const basis = `On level ground${reaches.whole.hasTolerances ? ', stated tolerances at their worst' : ''}; limits that are no loads are not looked at.`;
  return plain(`${rangeWords(chosen, range, context.system)} ${basis}`);
}
