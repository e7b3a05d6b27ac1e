import { DIRECTIONS, RELATIONS } from '../../syntax/vocabulary.ts';

/** Axes of a unit's frame (ISO 8855). */
export type Axis = 'x' | 'y' | 'z';

const STEPS: Readonly<Record<string, { axis: Axis; sign: 1 | -1 } | undefined>> = Object.fromEntries(
  [...Object.entries(DIRECTIONS), ...Object.entries(RELATIONS)].flatMap(([word, step]) => {
    const axis = step.charAt(1);
    if (axis !== 'x' && axis !== 'y' && axis !== 'z') return [];
    return [[word, { axis, sign: step.startsWith('-') ? -1 : 1 } as const]];
  }),
);

/** Axis and sense a direction word stands for; undefined for `on`. */
export function stepOf(word: string): { axis: Axis; sign: 1 | -1 } | undefined {
  return STEPS[word];
}
