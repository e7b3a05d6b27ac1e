/**
 * How long it takes to find between what a quantity lies in everything reachable, and whether all limits hold there, next to the
 * loads of the named cases alone.
 */

import { analyse, openDocument } from '../../language/index.ts';
import { checkReach } from '../../language/rules/reach/check-reach.ts';
import { isFree } from '../../language/semantics/envelope/free-source.ts';
import { rangeOf } from '../../language/semantics/envelope/ranges.ts';
import { wholeReach } from '../../language/semantics/envelope/reach.ts';
import { evaluateRig } from '../../language/semantics/evaluate.ts';
import type { RigResult } from '../../language/semantics/state.ts';
import { median, time } from './timing.ts';
import { generate } from './workspace.ts';

/** Milliseconds, medians of the rounds. */
export interface EnvelopeTimes {
  /** Things that can vary. */
  readonly free: number;
  /** Both ends of one share, which is the slower kind: of a load as many steps, once. */
  readonly share: number;
  /** Both ends of every load, share, place and imbalance. */
  readonly ranges: number;
  /** All limits over everything reachable and all tolerances. */
  readonly limits: number;
  /** The loads of the named cases. */
  readonly cases: number;
}

const ROUNDS = 60;
const ITEMS = 38;
const URI = 'file:///yard/one.rig';

/** Measures by turns, so that what else the machine does falls on all alike. */
export function measureEnvelope(): EnvelopeTimes {
  const result = readRig();
  const reach = wholeReach(result);
  const [loads] = result.motions;
  const free = reach.free.filter(isFree).length;
  if (loads === undefined || free < 40) throw new Error(`only ${free} things vary in the rig of the bench`);
  const share: number[] = [];
  const names = [...(result.states[0]?.quantities.keys() ?? [])];
  const ranges: number[] = [];
  const limits: number[] = [];
  const cases: number[] = [];
  for (let round = 0; round < ROUNDS; round++) {
    share.push(time(() => rangeOf(reach, loads, 'Trailer1.coupling.share')));
    ranges.push(time(() => names.map((name) => rangeOf(reach, loads, name))));
    let anew: ReturnType<typeof evaluateRig> = result;
    cases.push(
      time(() => {
        anew = evaluateRig(result.rig);
      }),
    );
    // What is found is kept with the result: only a new one is looked at.
    const { states } = 'problem' in anew ? result : anew;
    limits.push(time(() => checkReach({ ...result, states })));
  }
  return { free, share: median(share), ranges: median(ranges), limits: median(limits), cases: median(cases) };
}

/** A bay of the hire yard with many items that may stay behind, each with a tolerance. */
function readRig(): RigResult {
  const names = Array.from({ length: ITEMS }, (_, index) => `crate${index}`);
  const items = names.map((name, index) => `item ${name} ${3 + (index % 7)} kg, tolerance ${1 + (index % 3)} kg\n`);
  const places = ['Truck1.bed', 'Trailer1.front', 'Trailer1.back'];
  const stowed = names.map((name, index) => `  stow ${name} in ${places[index % places.length]}\n`);
  const more = `${stowed.join('')}  reachable { optional ${names.join(', ')} }\n`;
  const bay = generate(1).text.replace(/rig Hire1 \{\n/, (head) => head + more);
  const analysis = analyse({
    documents: new Map([[URI, { kind: 'text', syntax: openDocument(bay + items.join('')) }]]),
  });
  for (const { entity } of analysis.entities(URI)) if (entity?.kind === 'rig') return entity.result;
  throw new Error('the bench has no rig');
}
