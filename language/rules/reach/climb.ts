import type { Choice, FreeMass } from '../../mechanics/envelope.ts';

/** A state of the masses (what each is, by index), and how bad it is. */
export interface Tried<Value> {
  readonly choices: readonly Choice[];
  readonly by: number;
  readonly value: Value;
}

/** As many states are tried on the way. */
const MOST_TRIED = 60;
/** Share of a figure that is rounding. */
const ROUNDING = 1e-9;

/**
 * From a state to a worse one: of one mass after the other each corner is tried in place of what it is, as long as one of them
 * makes it worse, or until MOST_TRIED states have been tried. A sample: others can be worse still.
 */
export function climb<Value>(
  from: Tried<Value>,
  masses: readonly Pick<FreeMass, 'choices'>[],
  attempt: (choices: readonly Choice[]) => Tried<Value> | undefined,
): Tried<Value> {
  let worst = from;
  let unchanged = 0;
  let tried = 0;
  for (let index = 0; unchanged < masses.length; index = (index + 1) % masses.length) {
    unchanged++;
    for (const choice of masses[index]?.choices ?? []) {
      if (choice === worst.choices[index]) continue;
      if (tried++ >= MOST_TRIED) return worst;
      const next = attempt(worst.choices.with(index, choice));
      if (next === undefined || !(next.by > worst.by + ROUNDING * Math.max(1, Math.abs(worst.by)))) continue;
      worst = next;
      unchanged = 0;
    }
  }
  return worst;
}
