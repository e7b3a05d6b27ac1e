import { COMPARE_ONLY, MAKES_IT_WORSE } from '../diagnostics/stability-wording.ts';
import type { RigModel } from '../semantics/model.ts';
import { assumedTyres } from '../semantics/stability/assumed-tyres.ts';
import { type Group, text } from './drawing.ts';
import { FONT_SIZE } from './style.ts';
import { breakText } from './words.ts';

/** What the model is, whose tyres are assumed, and the caution. */
export function stabilityCaption(rig: RigModel): string[] {
  const assumed = assumedTyres(rig);
  const tyres =
    assumed.length > 0
      ? `Cornering stiffness of the tyres is assumed, not measured, for ${assumed.join(', ')}.`
      : 'Cornering stiffness of all tyres as stated in the files.';
  return [
    `Linear model, small angles, speed taken as constant, dry road. ${tyres}`,
    `${COMPARE_ONLY} ${MAKES_IT_WORSE}`,
  ];
}

const LINE_HEIGHT = FONT_SIZE.caption * 1.4;

/** Paragraphs from `top` down, broken at `width`; with the height they take, px. */
export function captionGroup(
  paragraphs: readonly string[],
  at: { readonly left: number; readonly top: number; readonly width: number },
): { readonly group: Group; readonly height: number } {
  const lines = paragraphs.flatMap((each) => breakText(each, 'caption', at.width));
  const shapes = lines.map((words, i) => text('caption', at.left, at.top + (i + 1) * LINE_HEIGHT, words));
  return { group: { shapes }, height: lines.length * LINE_HEIGHT };
}
