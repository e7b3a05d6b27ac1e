/**
 * How long the lateral stability of one rig takes in the language itself, next to what only the eigenvalues of the same
 * sweeps take a general library (ml-matrix) when it starts anew at every speed.
 */

import { EigenvalueDecomposition, Matrix } from 'ml-matrix';
import { analyse, editDocument, openDocument } from '../../language/index.ts';
import { equationsOf, stateMatrix } from '../../language/mechanics/stability/equations.ts';
import { isStabilityProblem } from '../../language/mechanics/stability/problems.ts';
import { findReachStability } from '../../language/semantics/envelope/reach-stability.ts';
import {
  evaluateStability,
  type RigStability,
  type StabilityResult,
  sensitivitiesOf,
} from '../../language/semantics/stability/evaluate-stability.ts';
import type { RigResult } from '../../language/semantics/state.ts';
import { median, time } from './timing.ts';
import { generate } from './workspace.ts';

/** Milliseconds, medians of the rounds. */
export interface StabilityTimes {
  readonly items: number;
  /** Five cases on five roads. */
  readonly whole: number;
  /** All sensitivities of one state. */
  readonly sensitivities: number;
  /** The search for the least-damped of what all these items and tanks can be, on the six roads of the rig. */
  readonly reachable: number;
  /** Only the eigenvalues of five cases on five roads at all speeds, by the library. */
  readonly library: number;
}

const ROUNDS = 40;
const CASES = 5;
const ROADS = 5;
const ITEMS = 40;
const URI = 'file:///yard/one.rig';

/** Measures by turns, so that what else the machine does falls on all alike. */
export function measureStability(): StabilityTimes {
  const rig = readRig(rigText());
  const whole: number[] = [];
  const sensitivities: number[] = [];
  const reachable: number[] = [];
  const library: number[] = [];
  let found = stabilityOf(rig);
  for (let round = 0; round < ROUNDS; round++) {
    whole.push(
      time(() => {
        found = stabilityOf(rig);
      }),
    );
    const { results, speed } = found;
    sensitivities.push(time(() => results.slice(0, 1).map((result) => sensitivitiesOf(result, speed))));
    reachable.push(time(() => findReachStability(rig, found)));
    library.push(time(() => results.map(findAnew)));
  }
  // The rig has a road more than is asked about.
  const share = (CASES * ROADS) / found.results.length;
  return {
    items: ITEMS,
    whole: median(whole) * share,
    sensitivities: median(sensitivities),
    reachable: median(reachable),
    library: median(library) * share,
  };
}

/**
 * Milliseconds, median: what the stability of the rigs that one edit reaches takes after the edit's own diagnostics, in a
 * document of about so many lines.
 */
export function measureSettling(lines: number): number {
  const { text, places } = generate(lines);
  let syntax = openDocument(text);
  let analysis = analyse({ documents: new Map([[URI, { kind: 'text', syntax }]]) });
  const settle = () => {
    while (analysis.settleNext(URI));
  };
  analysis.diagnostics(URI);
  settle();
  const times: number[] = [];
  for (let round = 0; round < 2 * ROUNDS; round++) {
    const place = places[(round >> 1) % places.length] ?? 0;
    const isOdd = round % 2 === 1;
    syntax = editDocument(syntax, { start: place, end: place + (isOdd ? 1 : 0), text: isOdd ? '' : 'x' });
    analysis = analyse({ documents: new Map([[URI, { kind: 'text', syntax }]]) }, analysis);
    analysis.diagnostics(URI);
    times.push(time(settle));
  }
  return median(times);
}

/** A bay of the hire yard with more items, all optional, five cases and six ways to meet the road: 30 states. */
function rigText(): string {
  const items = Array.from({ length: ITEMS }, (_, index) => `item crate${index} ${3 + (index % 7)} kg\n`);
  const places = ['Truck1.bed', 'Trailer1.front', 'Trailer1.back'];
  const stowed = items.map((_, index) => `  stow crate${index} in ${places[index % places.length]}\n`);
  const cases = Array.from(
    { length: CASES },
    (_, index) => `  case case${index} { Trailer1.fresh ${index * 20} %  Truck1.fuel ${100 - index * 15} % }\n`,
  );
  const travel = '  travel 100 km/h, grades -8 % to 6 %, braking 2 m/s2\n';
  const optional = `  reachable { optional ${items.map((_, index) => `crate${index}`).join(', ')} }\n`;
  const bay = generate(1).text.replace(/ {2}case .*\n/g, '');
  return `${bay.replace(/rig Hire1 \{\n/, (head) => `${head}${stowed.join('')}${cases.join('')}${travel}${optional}`)}${items.join('')}`;
}

function readRig(text: string): RigResult {
  const analysis = analyse({ documents: new Map([[URI, { kind: 'text', syntax: openDocument(text) }]]) });
  const errors = analysis.diagnostics(URI).filter(({ severity }) => severity === 'error');
  for (const { entity } of analysis.entities(URI))
    if (entity?.kind === 'rig' && errors.length === 0) return entity.result;
  throw new Error(`the rig of the bench does not hold: ${errors.map(({ message }) => message).join(' ')}`);
}

function stabilityOf(rig: RigResult): RigStability {
  const stability = evaluateStability(rig);
  if (stability === undefined || stability.results.length === 0) throw new Error('no stability to measure');
  return stability;
}

function findAnew({ built, sweep }: StabilityResult): void {
  const equations = equationsOf(built.train);
  if (isStabilityProblem(equations)) throw new Error('no equations to measure');
  const { size } = equations.layout;
  for (const speed of sweep.speeds) {
    const matrix = Matrix.from1DArray(size, size, Array.from(stateMatrix(equations, speed)));
    new EigenvalueDecomposition(matrix, { assumeSymmetric: false });
  }
}
