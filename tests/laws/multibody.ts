/**
 * A planar multibody simulation of a train, written for the tests only: every unit is a free body with three
 * coordinates (centre of gravity X, Y and heading), couplings are constraints with multipliers, tyres make forces from
 * the angle between their velocity and their wheel, nothing is linear. It shares the description of a train with the
 * model, and no equation.
 */

import { longitudinalBalance, type Train } from '../../language/mechanics/stability/train.ts';

/** Per unit X, Y, heading, their rates, then the lagging slip angles by unit and axle. */
export type BodyState = Float64Array;

interface Body {
  readonly mass: number;
  readonly yawInertia: number;
  /** m ahead of the centre of gravity. */
  readonly coupling: number;
  readonly hitch: number;
  readonly damping: number;
  readonly spring: number;
}

interface Tyre {
  readonly body: number;
  readonly place: number;
  readonly stiffness: number;
  readonly relaxation: number;
  /** Along the unit, N. */
  readonly force: number;
  /** Index of its slip angle in the state, or −1. */
  readonly slip: number;
}

export interface Multibody {
  readonly train: Train;
  readonly speed: number;
  readonly bodies: readonly Body[];
  readonly tyres: readonly Tyre[];
  readonly size: number;
}

/** The bodies of a train that runs at `speed`; its first axle drives or brakes with what the balance asks. */
export function multibodyOf(train: Train, speed: number): Multibody {
  const bodies = train.units.map(({ mass, yawInertia, x, coupling = 0, hitch = 0, joint }) => ({
    mass,
    yawInertia,
    coupling: coupling - x,
    hitch: hitch - x,
    damping: joint?.damping ?? 0,
    spring: joint?.spring ?? 0,
  }));
  const { traction } = longitudinalBalance(train, speed);
  let size = 6 * bodies.length;
  const tyres = train.units.flatMap((unit, body) =>
    unit.axles.map(({ x, stiffness, relaxation = 0, force = 0 }, axle) => ({
      body,
      place: x - unit.x,
      stiffness,
      relaxation,
      force: body > 0 ? force : axle === 0 ? traction : 0,
      slip: relaxation > 0 ? size++ : -1,
    })),
  );
  return { train, speed, bodies, tyres, size };
}

/** Rates of the whole state. */
export function ratesOf(system: Multibody, state: BodyState): BodyState {
  const { bodies, tyres, train } = system;
  const count = bodies.length;
  const constraints = 2 * (count - 1);
  const width = 3 * count + constraints;
  const matrix = new Float64Array(width * width);
  const right = new Float64Array(width);
  const rates = new Float64Array(state.length);
  const push = (body: number, place: number, fx: number, fy: number) => {
    const heading = state[6 * body + 2] ?? 0;
    add(right, 3 * body, fx);
    add(right, 3 * body + 1, fy);
    add(right, 3 * body + 2, place * (Math.cos(heading) * fy - Math.sin(heading) * fx));
  };
  for (const { body, place, stiffness, relaxation, force, slip } of tyres) {
    const heading = state[6 * body + 2] ?? 0;
    const [c, s] = [Math.cos(heading), Math.sin(heading)];
    const turn = place * (state[6 * body + 5] ?? 0);
    const ahead = c * (state[6 * body + 3] ?? 0) + s * (state[6 * body + 4] ?? 0);
    const left = c * (state[6 * body + 4] ?? 0) - s * (state[6 * body + 3] ?? 0) + turn;
    const angle = Math.atan2(left, ahead);
    const acting = slip < 0 ? angle : (state[slip] ?? 0);
    if (slip >= 0) rates[slip] = (ahead / relaxation) * (angle - acting);
    const side = -stiffness * acting;
    push(body, place, c * force - s * side, s * force + c * side);
  }
  const course = train.course === 'space' ? 0 : (state[2] ?? 0);
  const along = (body: number, place: number, size: number, angle: number) =>
    push(body, place, size * Math.cos(angle), size * Math.sin(angle));
  for (const { unit, x, force, perSpeedSquared = 0, direction } of train.forces ?? []) {
    const size = force + perSpeedSquared * system.speed ** 2;
    along(unit, x - (train.units[unit]?.x ?? 0), size, direction === 'unit' ? (state[6 * unit + 2] ?? 0) : course);
  }
  for (const [body, { mass, yawInertia, damping, spring }] of bodies.entries()) {
    along(body, 0, mass * (train.bodyForce ?? 0), course);
    matrix[3 * body * (width + 1)] = mass;
    matrix[(3 * body + 1) * (width + 1)] = mass;
    matrix[(3 * body + 2) * (width + 1)] = yawInertia;
    if (body === 0) continue;
    const bend = (state[6 * body + 2] ?? 0) - (state[6 * body - 4] ?? 0);
    const rate = (state[6 * body + 5] ?? 0) - (state[6 * body - 1] ?? 0);
    add(right, 3 * body + 2, -damping * rate - spring * bend);
    add(right, 3 * body - 1, damping * rate + spring * bend);
    constrain(system, state, body, matrix, right, width);
  }
  eliminate(matrix, right, width);
  for (let body = 0; body < count; body++) {
    for (let k = 0; k < 3; k++) {
      rates[6 * body + k] = state[6 * body + 3 + k] ?? 0;
      rates[6 * body + 3 + k] = right[3 * body + k] ?? 0;
    }
  }
  return rates;
}

/** Hitch of the body ahead and coupling of this one stay together: their accelerations are equal. */
function constrain(
  { bodies }: Multibody,
  state: BodyState,
  body: number,
  matrix: Float64Array,
  right: Float64Array,
  width: number,
): void {
  const row = 3 * bodies.length + 2 * (body - 1);
  for (const [index, arm, sign] of [
    [body - 1, bodies[body - 1]?.hitch ?? 0, 1],
    [body, bodies[body]?.coupling ?? 0, -1],
  ] as const) {
    const heading = state[6 * index + 2] ?? 0;
    const rate = state[6 * index + 5] ?? 0;
    const [c, s] = [arm * Math.cos(heading), arm * Math.sin(heading)];
    for (const [k, column, value] of [
      [0, 3 * index, sign],
      [0, 3 * index + 2, -sign * s],
      [1, 3 * index + 1, sign],
      [1, 3 * index + 2, sign * c],
    ] as const) {
      add(matrix, (row + k) * width + column, value);
      add(matrix, column * width + row + k, value);
    }
    add(right, row, sign * rate * rate * c);
    add(right, row + 1, sign * rate * rate * s);
  }
}

/** Gauss with pivoting; the solution replaces the right-hand side. */
function eliminate(a: Float64Array, b: Float64Array, n: number): void {
  for (let k = 0; k < n; k++) {
    let p = k;
    for (let i = k + 1; i < n; i++) if (Math.abs(a[i * n + k] ?? 0) > Math.abs(a[p * n + k] ?? 0)) p = i;
    for (let j = 0; j < n; j++) [a[k * n + j], a[p * n + j]] = [a[p * n + j] ?? 0, a[k * n + j] ?? 0];
    [b[k], b[p]] = [b[p] ?? 0, b[k] ?? 0];
    for (let i = 0; i < n; i++) {
      const factor = (a[i * n + k] ?? 0) / (a[k * n + k] ?? 1);
      if (i === k || factor === 0) continue;
      for (let j = k; j < n; j++) add(a, i * n + j, -factor * (a[k * n + j] ?? 0));
      add(b, i, -factor * (b[k] ?? 0));
    }
  }
  for (let k = 0; k < n; k++) b[k] = (b[k] ?? 0) / (a[k * n + k] ?? 1);
}

function add(values: Float64Array, index: number, value: number): void {
  values[index] = (values[index] ?? 0) + value;
}

/**
 * Independent coordinates of sideways motion: sideways velocity of the first centre of gravity over its heading, yaw
 * rates, headings over the first, its own heading, slip angles.
 */
export function placeBodies(system: Multibody, reduced: Float64Array): BodyState {
  const { bodies, speed } = system;
  const count = bodies.length;
  const state = new Float64Array(system.size);
  const own = reduced[2 * count] ?? 0;
  for (const [body, { coupling }] of bodies.entries()) {
    const heading = own + (body === 0 ? 0 : (reduced[count + body] ?? 0));
    const rate = reduced[1 + body] ?? 0;
    state[6 * body + 2] = heading;
    state[6 * body + 5] = rate;
    if (body === 0) {
      const side = reduced[0] ?? 0;
      state[3] = speed * Math.cos(own) - side * Math.sin(own);
      state[4] = speed * Math.sin(own) + side * Math.cos(own);
      continue;
    }
    const ahead = 6 * (body - 1);
    const hitch = bodies[body - 1]?.hitch ?? 0;
    const [h, r] = [state[ahead + 2] ?? 0, state[ahead + 5] ?? 0];
    state[6 * body] = (state[ahead] ?? 0) + hitch * Math.cos(h) - coupling * Math.cos(heading);
    state[6 * body + 1] = (state[ahead + 1] ?? 0) + hitch * Math.sin(h) - coupling * Math.sin(heading);
    state[6 * body + 3] = (state[ahead + 3] ?? 0) - hitch * Math.sin(h) * r + coupling * Math.sin(heading) * rate;
    state[6 * body + 4] = (state[ahead + 4] ?? 0) + hitch * Math.cos(h) * r - coupling * Math.cos(heading) * rate;
  }
  for (let k = 0; k < system.size - 6 * count; k++) state[6 * count + k] = reduced[2 * count + 1 + k] ?? 0;
  return state;
}

/** The same coordinates of a state. */
export function readBodies({ bodies, size }: Multibody, state: BodyState): Float64Array {
  const count = bodies.length;
  const reduced = new Float64Array(2 * count + 1 + size - 6 * count);
  const own = state[2] ?? 0;
  reduced[0] = (state[4] ?? 0) * Math.cos(own) - (state[3] ?? 0) * Math.sin(own);
  for (let body = 0; body < count; body++) {
    reduced[1 + body] = state[6 * body + 5] ?? 0;
    if (body > 0) reduced[count + body] = (state[6 * body + 2] ?? 0) - own;
  }
  reduced[2 * count] = own;
  reduced.set(state.subarray(6 * count), 2 * count + 1);
  return reduced;
}

/** Rates of the independent coordinates. */
export function reducedRates(system: Multibody, reduced: Float64Array): Float64Array {
  const state = placeBodies(system, reduced);
  const rates = ratesOf(system, state);
  const count = system.bodies.length;
  const result = new Float64Array(reduced.length);
  const own = state[2] ?? 0;
  const turn = state[5] ?? 0;
  const along = (state[3] ?? 0) * Math.cos(own) + (state[4] ?? 0) * Math.sin(own);
  result[0] = (rates[4] ?? 0) * Math.cos(own) - (rates[3] ?? 0) * Math.sin(own) - turn * along;
  for (let body = 0; body < count; body++) {
    result[1 + body] = rates[6 * body + 5] ?? 0;
    if (body > 0) result[count + body] = (state[6 * body + 5] ?? 0) - turn;
  }
  result[2 * count] = turn;
  result.set(rates.subarray(6 * count), 2 * count + 1);
  return result;
}

/** One step of the classical Runge–Kutta method. */
export function step(system: Multibody, state: BodyState, h: number): BodyState {
  const shifted = (rates: BodyState, by: number) => state.map((value, i) => value + by * (rates[i] ?? 0));
  const k1 = ratesOf(system, state);
  const k2 = ratesOf(system, shifted(k1, h / 2));
  const k3 = ratesOf(system, shifted(k2, h / 2));
  const k4 = ratesOf(system, shifted(k3, h));
  return state.map((value, i) => value + (h / 6) * ((k1[i] ?? 0) + 2 * (k2[i] ?? 0) + 2 * (k3[i] ?? 0) + (k4[i] ?? 0)));
}
