import type { RigModel } from '../semantics/model.ts';
import { type Group, text } from './drawing.ts';
import { FONT_SIZE } from './style.ts';
import { breakText } from './words.ts';

/** What no figure of lateral stability is to be read without. */
export const STABILITY_CAUTION = 'Compare layouts with it, never take a speed from it as safe.';

/** Axle groups whose tyres' cornering stiffness the files do not state: `CrewPickup.front`. */
export function assumedTyres(rig: RigModel): string[] {
  return rig.units.flatMap(({ name, groups }) =>
    groups.filter(({ tyres }) => tyres?.cornering === undefined).map((group) => `${name}.${group.name}`),
  );
}

/** What the model is, whose tyres are assumed, and the caution. */
export function stabilityCaption(rig: RigModel): string[] {
  const assumed = assumedTyres(rig);
  const tyres =
    assumed.length > 0
      ? `Cornering stiffness of the tyres is assumed, not measured, for ${assumed.join(', ')}.`
      : 'Cornering stiffness of all tyres as stated in the files.';
  return [
    `Linear model, small angles, constant speed, dry road. ${tyres}`,
    `${STABILITY_CAUTION} Wind, wet roads, worn or soft tyres make it worse, and the energy of a swing grows with the square of speed.`,
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
