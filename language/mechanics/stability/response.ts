import { choleskySolve } from './dense.ts';
import { type Equations, equationsOf, stateMatrix } from './equations.ts';
import { matrixExponential, transform } from './exponential.ts';
import { leverOf } from './levers.ts';
import { findSpeedProblem, type StabilityProblem } from './problems.ts';
import { longitudinalBalance, type Train } from './train.ts';

/** A disturbance that begins at time 0 and lasts `duration` s; half a sine has its peak in the middle. */
export interface Pulse {
  /** A push across the road at a unit's centre of gravity, N, or at all steered wheels an angle, rad; left positive. */
  readonly kind: 'lateral-force' | 'steer';
  readonly amount: number;
  /** The unit pushed; the first one is steered. */
  readonly unit?: number;
  readonly duration: number;
  readonly shape: 'rectangular' | 'half-sine';
}

/** How long and how finely to look: s. */
export interface TimeSpan {
  readonly end: number;
  readonly step: number;
}

/** Motion over time; arrays have one entry a time. */
export interface Response {
  /** s, evenly spread. */
  readonly times: Float64Array;
  /** Yaw rate of the first unit, rad/s. */
  readonly yawRate: Float64Array;
  /** Sideways acceleration of the first unit's centre of gravity, m/s². */
  readonly lateralAcceleration: Float64Array;
  /** Articulation at the coupling ahead of unit i + 1: its heading over that of the unit ahead, rad. */
  readonly articulation: readonly Float64Array[];
  readonly articulationRate: readonly Float64Array[];
}

/** Times looked at; more would only cost time. */
const MOST_STEPS = 200_000;

/**
 * The linear response of a train, running straight at `speed` m/s, to a pulse. Exact at every time given, whatever the
 * step: state and pulse together obey ẋ = A·x with constant A, advanced by the matrix exponential, and the change from
 * pulse to rest falls on the end of the pulse. Never throws.
 */
export function respond(train: Train, speed: number, pulse: Pulse, span: TimeSpan): Response | StabilityProblem {
  const equations = equationsOf(train);
  if ('problem' in equations) return equations;
  const problem = findSpeedProblem(speed) ?? findPulseProblem(train, pulse, span);
  if (problem !== undefined) return problem;
  const { size } = equations.layout;
  const input = pulse.kind === 'steer' ? steerInput(equations, speed) : forceInput(equations, pulse.unit ?? 0);
  const driven = drivenMatrix(stateMatrix(equations, speed), size, input, pulse);
  const count = Math.floor(span.end / span.step + 1e-9) + 1;
  const states = advance(driven, size, pulse, span.step, count);
  const response = readOut(equations, speed, span.step, states, input, pulse);
  const { yawRate, lateralAcceleration, articulation, articulationRate } = response;
  const all = [yawRate, lateralAcceleration, ...articulation, ...articulationRate];
  return all.every((series) => series.every(Number.isFinite)) ? response : { problem: 'overflow' };
}

function findPulseProblem(train: Train, pulse: Pulse, span: TimeSpan): StabilityProblem | undefined {
  const { amount, duration, unit = 0 } = pulse;
  if (train.units[unit] === undefined) return { problem: 'no-such-unit' };
  const times = [duration, span.end, span.step];
  if (!Number.isFinite(amount) || !times.every((time) => time > 0 && time < Number.POSITIVE_INFINITY)) {
    return { problem: 'not-finite' };
  }
  return span.end / span.step > MOST_STEPS ? { problem: 'overflow' } : undefined;
}

/** ẋ per N across the road at a unit's centre of gravity. */
function forceInput({ centres, layout, massFactor }: Equations, unit: number): Float64Array {
  const input = new Float64Array(layout.size);
  input.set(centres[unit] ?? []);
  choleskySolve(massFactor, layout.velocities, input, 1);
  return input;
}

/** ẋ per rad of steering: a change of slip, and the longitudinal force of the steered wheels turned with them. */
function steerInput({ axles, layout, massFactor, train }: Equations, speed: number): Float64Array {
  const input = new Float64Array(layout.size);
  const steered = axles.filter((axle) => axle.steered);
  const all = axles.filter(({ unit }) => unit === 0);
  // The first unit's tyres share what they have to give evenly.
  const traction = longitudinalBalance(train, speed).traction / all.length;
  const add = (row: number, lever: Float64Array, force: number) => {
    for (let k = 0; k < layout.velocities; k++) input[row + k] = (input[row + k] ?? 0) + force * (lever[k] ?? 0);
  };
  for (const { lever, stiffness, slip, lagging, relaxation } of steered) {
    add(0, lever, traction);
    if (slip >= 0) input[slip] = -speed / relaxation;
    else if (lagging >= 0) add(lagging, lever, (stiffness * speed) / relaxation);
    else add(0, lever, stiffness);
  }
  for (const row of new Set([0, ...steered.map(({ lagging }) => Math.max(0, lagging))])) {
    choleskySolve(massFactor, layout.velocities, input.subarray(row), 1);
  }
  return input;
}

/** State, pulse and its derivative over its frequency: a constant, or a sine that starts at 0. */
function drivenMatrix(matrix: Float64Array, size: number, input: Float64Array, pulse: Pulse): Float64Array {
  const wide = size + 2;
  const driven = new Float64Array(wide * wide);
  for (let row = 0; row < size; row++) {
    driven.set(matrix.subarray(row * size, (row + 1) * size), row * wide);
    driven[row * wide + size] = (input[row] ?? 0) * pulse.amount;
  }
  if (pulse.shape === 'half-sine') {
    const frequency = Math.PI / pulse.duration;
    driven[size * wide + size + 1] = frequency;
    driven[(size + 1) * wide + size] = -frequency;
  }
  return driven;
}

function advance(driven: Float64Array, size: number, pulse: Pulse, step: number, count: number): Float64Array[] {
  const wide = size + 2;
  const whole = matrixExponential(
    driven.map((value) => value * step),
    wide,
  );
  let state = new Float64Array(wide);
  state[pulse.shape === 'half-sine' ? size + 1 : size] = 1;
  const states = [state];
  const last = Math.max(1, Math.ceil(pulse.duration / step - 1e-9));
  for (let i = 1; i < count; i++) {
    const next = new Float64Array(wide);
    if (i === last) {
      const ends = pulse.duration - (i - 1) * step;
      const part = new Float64Array(wide);
      transform(
        matrixExponential(
          driven.map((value) => value * ends),
          wide,
        ),
        state,
        part,
      );
      part.fill(0, size);
      transform(
        matrixExponential(
          driven.map((value) => value * (step - ends)),
          wide,
        ),
        part,
        next,
      );
    } else {
      transform(whole, state, next);
    }
    states.push(next);
    state = next;
  }
  return states;
}

function readOut(
  equations: Equations,
  speed: number,
  step: number,
  states: readonly Float64Array[],
  input: Float64Array,
  pulse: Pulse,
): Response {
  const { layout, train } = equations;
  const heading = (state: Float64Array, unit: number) => (unit === 0 ? 0 : (state[layout.headings + unit - 1] ?? 0));
  const series = (read: (state: Float64Array) => number) => Float64Array.from(states, read);
  const matrix = stateMatrix(equations, speed);
  const lever = leverOf(train, 0, train.units[0]?.x ?? 0);
  const acceleration = (state: Float64Array) => {
    let sum = speed * (state[1] ?? 0);
    for (let k = 0; k < 2; k++) {
      let rate = (input[k] ?? 0) * pulse.amount * (state[layout.size] ?? 0);
      for (let j = 0; j < layout.size; j++) rate += (matrix[k * layout.size + j] ?? 0) * (state[j] ?? 0);
      sum += (lever[k] ?? 0) * rate;
    }
    return sum;
  };
  const towed = Array.from({ length: layout.units - 1 }, (_, i) => i + 1);
  return {
    times: Float64Array.from(states, (_, i) => i * step),
    yawRate: series((state) => state[1] ?? 0),
    lateralAcceleration: series(acceleration),
    articulation: towed.map((unit) => series((state) => heading(state, unit) - heading(state, unit - 1))),
    articulationRate: towed.map((unit) => series((state) => (state[unit + 1] ?? 0) - (state[unit] ?? 0))),
  };
}
