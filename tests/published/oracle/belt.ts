import { STANDARD_GRAVITY } from '../../../language/mechanics/combination.ts';
import type { Train } from '../../../language/mechanics/stability/train.ts';
import { axleStiffness, curveOfParameters } from '../../../language/mechanics/stability/tyres.ts';

/**
 * A model rig, scale 1:10, on a moving belt: an invented car of about 1 kg, held by a long tether at its front, and a
 * trailer of about 1 kg with three loose masses of 0.3 kg. The belt drags on the tyres of the trailer, the tether holds
 * the rig against that drag and, on a climb, its weight. Every figure is an assumption, none is measured.
 */
export interface BeltRig {
  /** kg, m, kg m²: the car, places behind its front axle. */
  readonly carMass: number;
  readonly wheelbase: number;
  /** Share of the wheelbase from the front axle to the centre of gravity. */
  readonly carCentre: number;
  /** Yaw radius of gyration, m. */
  readonly carGyration: number;
  /** Rear axle to hitch, m. */
  readonly overhang: number;
  /** kg, m: the empty trailer, places behind the coupling. */
  readonly trailerMass: number;
  readonly axle: number;
  readonly trailerCentre: number;
  readonly trailerGyration: number;
  /** kg each, and where they may lie: at the very front, over the axle, at the rear, m behind the coupling. */
  readonly looseMass: number;
  readonly front: number;
  readonly rear: number;
  /** Cornering stiffness over load at small load, 1/rad, of a tyre of the car and of the trailer. */
  readonly carTyre: number;
  readonly trailerTyre: number;
  /** Load at which a tyre's stiffness peaks, N. */
  readonly peakLoad: number;
  /** Relaxation length, m. */
  readonly relaxation: number;
  /** Rolling drag over load. */
  readonly drag: number;
  /** Tether ahead of the front axle, m. */
  readonly tether: number;
}

/** What lies where: numbers of loose masses, what is added to car and trailer (kg), full-scale speed and climb. */
export interface BeltRun {
  readonly front: number;
  readonly middle: number;
  readonly rear: number;
  readonly onCar?: number;
  readonly onTrailer?: number;
  /** km/h */
  readonly speed: number;
  /** Degrees. */
  readonly climb?: number;
}

/** Model speed, m/s: by the square root of the scale. */
export function beltSpeed(run: BeltRun): number {
  return run.speed / 3.6 / Math.sqrt(10);
}

interface Mass {
  readonly mass: number;
  readonly back: number;
  /** Own inertia, kg m². */
  readonly inertia?: number;
}

/** Mass, place and yaw inertia of masses on one unit. */
function together(masses: readonly Mass[]): { mass: number; back: number; inertia: number } {
  const mass = masses.reduce((sum, each) => sum + each.mass, 0);
  const back = masses.reduce((sum, each) => sum + each.mass * each.back, 0) / mass;
  const inertia = masses.reduce((sum, each) => sum + (each.inertia ?? 0) + each.mass * (each.back - back) ** 2, 0);
  return { mass, back, inertia };
}

/** The train on the belt: loads by moments, stiffness from load, tether and drag as forces, weight along a climb. */
export function beltTrain(rig: BeltRig, run: BeltRun): Train {
  const climb = ((run.climb ?? 0) * Math.PI) / 180;
  const { carMass, wheelbase, carGyration, trailerMass, trailerGyration, looseMass, relaxation } = rig;
  const car = together([
    { mass: carMass, back: rig.carCentre * wheelbase, inertia: carMass * carGyration ** 2 },
    { mass: run.onCar ?? 0, back: wheelbase / 2 },
  ]);
  const trailer = together([
    { mass: trailerMass, back: rig.trailerCentre, inertia: trailerMass * trailerGyration ** 2 },
    { mass: run.front * looseMass, back: rig.front },
    { mass: run.middle * looseMass, back: rig.axle },
    { mass: run.rear * looseMass, back: rig.rear },
    { mass: run.onTrailer ?? 0, back: rig.axle },
  ]);
  const down = STANDARD_GRAVITY * Math.cos(climb);
  const onAxle = (trailer.mass * trailer.back * down) / rig.axle;
  const onHitch = trailer.mass * down - onAxle;
  const rear = (car.mass * down * car.back + onHitch * (wheelbase + rig.overhang)) / wheelbase;
  const front = car.mass * down + onHitch - rear;
  const axle = (back: number, load: number, tyre: number, force: number) => ({
    x: -back,
    stiffness: axleStiffness(curveOfParameters(rig.peakLoad, tyre / 2, 1), 1, load / 2, load / 2).value,
    relaxation,
    force,
  });
  const weight = STANDARD_GRAVITY * Math.sin(climb);
  const pull = rig.drag * (front + rear + onAxle) + weight * (car.mass + trailer.mass);
  return {
    units: [
      {
        mass: car.mass,
        x: -car.back,
        yawInertia: car.inertia,
        axles: [axle(0, front, rig.carTyre, -rig.drag * front), axle(wheelbase, rear, rig.carTyre, -rig.drag * rear)],
        hitch: -wheelbase - rig.overhang,
      },
      {
        mass: trailer.mass,
        x: -trailer.back,
        yawInertia: trailer.inertia,
        axles: [axle(rig.axle, onAxle, rig.trailerTyre, -rig.drag * onAxle)],
        coupling: 0,
      },
    ],
    forces: [{ unit: 0, x: rig.tether, force: pull, direction: 'course' }],
    bodyForce: -weight,
    course: 'space',
  };
}
