import { type Lever, leverOf } from './levers.ts';
import type { Train } from './train.ts';

/** One axle in the equations. */
export interface AxleTerm {
  readonly unit: number;
  /** Index in its unit. */
  readonly axle: number;
  readonly lever: Lever;
  readonly stiffness: number;
  /** m; 0 without lag. */
  readonly relaxation: number;
  /** Index of its lagging slip angle in the state, or −1. */
  readonly slip: number;
  /** Index of the first of the lagging accelerations it contributes to, or −1. */
  readonly lagging: number;
  /** Longitudinal force that counts, N: 0 on the first unit. */
  readonly force: number;
  readonly steered: boolean;
}

/** All axles of a train, front to rear, with their places in the state. */
export function axleTerms(train: Train): AxleTerm[] {
  const terms: AxleTerm[] = [];
  const isSteered = steeringOf(train);
  const places = lagPlaces(train);
  for (const [unit, { axles }] of train.units.entries()) {
    for (const [axle, { x, stiffness, relaxation = 0, force = 0 }] of axles.entries()) {
      terms.push({
        unit,
        axle,
        lever: leverOf(train, unit, x),
        stiffness,
        relaxation,
        ...places(relaxation),
        force: unit === 0 ? 0 : force,
        steered: unit === 0 && isSteered(axle),
      });
    }
  }
  return terms;
}

/** Gives every axle its place among the lagging states, in order. */
function lagPlaces(train: Train): (relaxation: number) => { slip: number; lagging: number } {
  const counts = new Map<number, number>();
  for (const { axles } of train.units) {
    for (const { relaxation = 0 } of axles) counts.set(relaxation, (counts.get(relaxation) ?? 0) + 1);
  }
  const shared = new Map<number, number>();
  let next = fastSize(train);
  return (relaxation) => {
    if (relaxation === 0) return { slip: -1, lagging: -1 };
    if ((counts.get(relaxation) ?? 0) <= train.units.length + 1) return { slip: next++, lagging: -1 };
    const lagging = shared.get(relaxation) ?? next;
    if (!shared.has(relaxation)) next += train.units.length + 1;
    shared.set(relaxation, lagging);
    return { slip: -1, lagging };
  };
}

/** Length of the state without what lags. */
export function fastSize(train: Train): number {
  return 2 * train.units.length + (dependsOnCourse(train) ? 1 : 0);
}

/** Whether the heading over the course matters: the course is fixed, and something acts along it. */
export function dependsOnCourse({ course, bodyForce = 0, forces = [] }: Train): boolean {
  const acts = forces.some(
    ({ direction, force, perSpeedSquared = 0 }) => direction === 'course' && (force !== 0 || perSpeedSquared !== 0),
  );
  return course === 'space' && (bodyForce !== 0 || acts);
}

function steeringOf(train: Train): (axle: number) => boolean {
  const axles = train.units[0]?.axles ?? [];
  if (axles.some(({ steered }) => steered)) return (axle) => axles[axle]?.steered === true;
  const foremost = Math.max(...axles.map(({ x }) => x));
  return (axle) => axles[axle]?.x === foremost;
}
