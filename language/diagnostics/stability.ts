import { INERTIA } from '../units/dimension.ts';
import { type DisplaySystem, formatNumber, formatShare, formatValue } from '../units/display.ts';
import { define } from './define.ts';
import { HITCH, truck } from './examples.ts';
import {
  type Basis,
  byTheModel,
  dampingText,
  inDegreesPerG,
  intendedSpeed,
  OFF_THE_LEVEL,
  type StabilityBreach,
  stabilityEnd,
  wholeSpeed,
} from './stability-wording.ts';
import { type Breach, firstFew, inState } from './wording.ts';

/** What every page on lateral stability says of the figures. */
const HONESTLY =
  'The figures come from a linear model: small angles, straight running, no wind, and typical tyres where none are described (the assumptions name them). Compare layouts with them; never take a speed from them as safe. Wind, wet roads and worn or soft tyres let a sway begin at a lower speed, and the energy of a swing grows with the square of the speed.';

/** Of the entries whose severity hangs on the intended speed. */
const NO_SPEED = 'It is a warning where the file states no intended speed.';

const FROM_MODEL = 'linear single-track model; the intended speed is the one stated in the file, or 100 km/h';

/** Something that becomes unstable at a speed (m/s). */
interface Onset extends StabilityBreach {
  readonly from: number;
}

interface OnsetBelow extends Onset {
  /** Whether it is so at the lowest speed looked at already. */
  readonly below: boolean;
}

type Kind = 'swinging' | 'folding';

/** A car whose axles are rated as given, with its hitch. */
const car = (front: number, rear: number, frontRating: number, rearRating: number) => `vehicle Runabout {
  wheelbase 2500 mm, track 1500 mm
  kerb ${front} kg on front, ${rear} kg on rear, 560 mm up, inertia 2300 kg·m²
  axle front rating ${frontRating} kg
  axle rear rating ${rearRating} kg
  hitch ball at 850 mm behind rear, 430 mm up
}
`;

/** A tourer with its bare mass at a place and fittings in it. */
const tourer = (tare: string, ...fittings: readonly string[]) => `trailer Tourer {
  coupling ball 50 mm, 430 mm up
  axles single at 3900 mm back, track 1860 mm, rating 1100 kg
  tare 800 kg at ${tare} back, 720 mm up, inertia 2200 kg·m²
  brakes overrun
${fittings.map((fitting) => `  fitting ${fitting} back, 600 mm up\n`).join('')}}
`;

/** The trailer with its heavy things over the axle. */
const SETTLED = tourer('3450 mm', 'generator 100 kg at 3900 mm');
/** The same with the generator at the rear, its coupling load kept. */
const TAIL_HEAVY = tourer('3300 mm', 'generator 100 kg at 6800 mm');

const weekend = (travel: string) => `rig Weekend {
  tow Runabout
  haul Tourer
  travel ${travel}
  case empty { }
}
`;

/** A car that understeers with its trailer on. */
const CAR = car(780, 620, 900, 1000);

const driven = (trailer: string, travel: string, vehicle = CAR) => vehicle + trailer + weekend(travel);

/** A light car with a long overhang, and a trailer that only just settles. */
const pushed = (travel: string) => `vehicle Runabout {
  wheelbase 2500 mm, track 1500 mm
  kerb 950 kg on front, 710 kg on rear, 460 mm up, inertia 2100 kg·m²
  axle front rating 1250 kg
  axle rear rating 1250 kg
  hitch eye at 1100 mm behind rear, 450 mm up
}
trailer Tourer {
  coupling eye, 450 mm up
  axles single at 3900 mm back, track 1860 mm, rating 950 kg
  tare 740 kg at 3400 mm back, 540 mm up, inertia 4000 kg·m²
  brakes overrun
  fitting generator 100 kg at 6200 mm back, 450 mm up
}
${weekend(travel)}`;

const chestAndGenerator = (chest: string, generator: string) =>
  tourer('3600 mm', `chest 110 kg at ${chest}`, `generator 90 kg at ${generator}`).replace(
    'inertia 2200',
    'inertia 1700',
  );

/** A trailer that is nothing but a frame. */
const framed = (size: string) => `${truck(HITCH)}trailer Hauler {
  coupling ball 50 mm, 430 mm up
  axles single at 2600 mm back, track 1500 mm
  fitting frame 240 kg at 2400 mm back, 520 mm up${size}
  brakes overrun
}
rig Delivery {
  tow Truck
  haul Hauler
  case empty { }
}
`;

/** RW7xx: lateral stability. */
export const STABILITY = {
  'sways-below-speed': define({
    code: 'RW701',
    severity: 'error',
    title: 'The rig sways by itself at the intended speed or below',
    message: (parameters: OnsetBelow) => onsetBelow('swinging', parameters),
    meaning: `Once disturbed, the swinging of the trailer no longer dies out but grows until something slides. It is looked at in every case on the level, on the steepest grades travelled and while braking, with the brakes as fitted. ${NO_SPEED} ${HONESTLY}`,
    mend: 'Move heavy things towards the axles of the trailer, then enough of them ahead for a usual coupling load; travel slower; fit what is missing: a longer or heavier tow vehicle, tyres that hold better, a damper that is proportional to the rate.',
    example: driven(TAIL_HEAVY, '120 km/h'),
    mended: driven(SETTLED, '120 km/h'),
    source: FROM_MODEL,
  }),
  'folds-below-speed': define({
    code: 'RW702',
    severity: 'error',
    title: 'The rig folds by itself at the intended speed or below',
    message: (parameters: OnsetBelow) => onsetBelow('folding', parameters),
    meaning: `Without swinging, the angle between the units grows once it is there: the rig jack-knifes, or the vehicle spins. It goes with a vehicle that oversteers under its coupling load. ${NO_SPEED} ${HONESTLY}`,
    mend: 'Take load off the hitch and the rear of the vehicle, or travel slower.',
    example: driven(SETTLED, '130 km/h', car(640, 760, 1000, 900)),
    mended: driven(SETTLED, '130 km/h'),
    source: FROM_MODEL,
  }),
  'sways-while-vehicle-brakes': define({
    code: 'RW703',
    severity: 'warning',
    title: 'The rig sways when the vehicle brakes alone',
    message: (parameters: OnsetBelow) => onsetBelow('swinging', parameters),
    meaning: `With the trailer's own brakes the swinging dies out; where the vehicle has to hold the trailer back alone, it grows. A trailer that pushes on the hitch is steered less by it. ${HONESTLY}`,
    mend: 'Keep the brakes of the trailer adjusted; go down in a low gear and slower than on the level; move heavy things towards the axles of the trailer.',
    example: pushed('66 km/h, braking 4 m/s²'),
    mended: pushed('40 km/h, braking 4 m/s²'),
    source: FROM_MODEL,
  }),
  'folds-while-vehicle-brakes': define({
    code: 'RW704',
    severity: 'warning',
    title: 'The rig folds when the vehicle brakes alone',
    message: (parameters: OnsetBelow) => onsetBelow('folding', parameters),
    meaning: `With the trailer's own brakes the rig stays straight; where the vehicle has to hold the trailer back alone, the push on the hitch turns it. ${HONESTLY}`,
    mend: 'Keep the brakes of the trailer adjusted, brake more gently, and take load off the rear of the vehicle.',
    example: driven(SETTLED, '100 km/h, braking 5 m/s²'),
    mended: driven(SETTLED, '60 km/h, braking 5 m/s²'),
    source: FROM_MODEL,
  }),
  'damping-low': define({
    code: 'RW711',
    severity: 'warning',
    title: 'Swinging dies out slowly at the intended speed',
    message: (parameters: StabilityBreach & { readonly damping: number; readonly least: number }) => {
      const { subject, damping, least, state } = parameters;
      const is = `The swinging of ${subject} has a damping ratio of ${dampingText(damping)} at ${intendedSpeed(parameters)}`;
      const wanted = `, below the recommended ${dampingText(least)}`;
      return `${is}${wanted}${where(state)}${byTheModel(parameters)}.${stabilityEnd(parameters, dampingText)}`;
    },
    meaning: `The damping ratio says how fast a swing dies out: at 0.1 each swing to the same side is about half of the one before, at 0 it goes on for ever, below 0 it grows. ${OFF_THE_LEVEL} ${HONESTLY}`,
    mend: 'Move heavy things towards the axles of the trailer, mind the coupling load, or travel slower.',
    example: driven(TAIL_HEAVY, '95 km/h'),
    mended: driven(SETTLED, '95 km/h'),
    source: 'SAE J2807, damping ratio of at least 0.10 at the test speed; from memory',
  }),
  'speed-margin-small': define({
    code: 'RW712',
    severity: 'information',
    title: 'The intended speed is close to the one at which the rig becomes unstable',
    message: (parameters: Onset & { readonly kind: Kind; readonly margin: number }) => {
      const { kind, from, intended, margin, state, system } = parameters;
      // Rounded down: what is below the margin must not read as the margin.
      const ratio = `${formatNumber(Math.floor((from / intended) * 100) / 100)} times ${intendedSpeed(parameters)}`;
      const wanted = ` (wanted: ${formatNumber(margin)} times)`;
      return `${onset(kind, parameters)}, ${ratio}${wanted}${where(state)}${byTheModel(parameters)}.${stabilityEnd(parameters, fromSpeed(system))}`;
    },
    meaning: `A speed somewhat below the onset is no safe speed: little is needed to bring the onset down to it. The tool speaks up below 1.25 times the intended speed, where neither RW701 to RW704 nor RW711 say so already. ${HONESTLY}`,
    mend: 'Travel slower, or move heavy things towards the axles of the trailer.',
    example: driven(SETTLED, '85 km/h, braking 5 m/s²'),
    mended: driven(SETTLED, '70 km/h, braking 5 m/s²'),
    source: 'common practice, no source: a choice of this tool',
  }),
  'worse-off-level': define({
    code: 'RW721',
    severity: 'information',
    title: 'On a grade or while braking the rig becomes unstable at a lower speed',
    message: (parameters: Onset & { readonly kind: Kind; readonly level: number; readonly levelReached: boolean }) => {
      const { kind, level, levelReached, state, system } = parameters;
      const onLevel = `on the level ${levelReached ? 'only from' : 'not up to'} ${wholeSpeed(level, system)}`;
      return `${onset(kind, parameters)}${inState(state)}; ${onLevel}${byTheModel(parameters)}.${stabilityEnd(parameters, fromSpeed(system))}`;
    },
    meaning: `Grades and braking shift load from axle to axle and change the coupling load, and a trailer that pushes is held straight less. A speed that goes well on the level may be too much there. Said where the onset is at least a tenth lower than on the level and below 1.5 times the intended speed. ${OFF_THE_LEVEL} ${HONESTLY}`,
    mend: 'Go down slower than on the level and in a low gear, brake early and gently, and keep the brakes of the trailer adjusted.',
    example: driven(SETTLED, '70 km/h, grades -8 % to 6 %, braking 5 m/s²'),
    mended: driven(SETTLED, '60 km/h, grades -8 % to 6 %, braking 3 m/s²'),
    source: 'common practice, no source',
  }),
  'vehicle-oversteers': define({
    code: 'RW731',
    severity: 'information',
    title: 'The tow vehicle oversteers with the trailer on',
    message: (
      parameters: Breach &
        Basis & {
          readonly vehicle: string;
          /** rad per m/s² */
          readonly gradient: number;
          readonly alone: number;
          /** m/s, above which it does not stay on its course; absent above all speeds looked at. */
          readonly criticalSpeed?: number;
        },
    ) => {
      const { vehicle, gradient, alone, criticalSpeed, state, system } = parameters;
      const turned = `${vehicle} oversteers with what it tows: its understeer gradient is ${inDegreesPerG(gradient)}, alone ${inDegreesPerG(alone)}`;
      const limit =
        criticalSpeed === undefined ? '' : `, and above ${wholeSpeed(criticalSpeed, system)} it spins or folds`;
      return `${turned}${limit}${where(state)}${byTheModel(parameters)}.${stabilityEnd(parameters, inDegreesPerG)}`;
    },
    meaning: `The coupling load lightens the front axle and loads the rear one, and in a turn the trailer pulls the rear outwards. A vehicle that understeers alone may then need less steering the faster a turn is taken, and above its critical speed it cannot be held. ${HONESTLY}`,
    mend: 'Move mass ahead in the vehicle, take load off the hitch as far as its usual share permits, or fit rear tyres that are rated for more.',
    example: driven(SETTLED, '90 km/h', car(720, 680, 950, 900)),
    mended: driven(SETTLED, '90 km/h'),
    source: 'steady turning of a linear single-track model',
  }),
  'mass-at-both-ends': define({
    code: 'RW741',
    severity: 'warning',
    title: 'The coupling load is right, but the mass sits at both ends',
    message: (
      parameters: Breach & {
        readonly trailer: string;
        /** kg m² about the axles. */
        readonly inertia: number;
        /** Radius of gyration about the axles over the distance from coupling to axles. */
        readonly gyration: number;
        readonly most: number;
        /** Of the trailer's mass on its coupling. */
        readonly share: number;
        readonly contributors: readonly string[];
        readonly system: DisplaySystem;
      },
    ) => {
      const { trailer, inertia, gyration, most, share, contributors, state, system } = parameters;
      const both = `The load of ${trailer} sits at both ends, although its coupling carries a usual ${formatShare(share)} of its mass`;
      const large = `radius of gyration about its axles ${formatShare(gyration)} of the distance from coupling to axles (usual up to ${formatShare(most)})`;
      const named = contributors.length === 0 ? '' : `, most of it from ${firstFew(contributors)}`;
      return `${both}: ${large}, yaw inertia ${formatValue(inertia, INERTIA, system)}${named}${where(state)}.${stabilityEnd(parameters, formatShare)}`;
    },
    meaning: `Two heavy things at the ends of a trailer balance each other over the axles, so that the coupling load looks right. They still swing: the further mass is from the axles, the harder a swing is to stop. The tool warns where the load raises the radius of gyration of a trailer about its axles above 42 % of the distance from coupling to axles (semi-trailers 55 %). ${HONESTLY}`,
    mend: 'Move both towards the axles: first what contributes most.',
    example: driven(chestAndGenerator('500 mm', '6300 mm'), '90 km/h', car(1180, 940, 1300, 1300)),
    mended: driven(chestAndGenerator('3500 mm', '3900 mm'), '90 km/h', car(1180, 940, 1300, 1300)),
    source: 'common practice, no source',
  }),
  'stability-not-computed': define({
    code: 'RW791',
    severity: 'error',
    title: 'The lateral stability cannot be computed',
    message: ({ rig, reason }: { readonly rig: string; readonly reason: string }) =>
      `The lateral stability of ${rig} is not computed: ${reason}.`,
    meaning:
      'Loads are computed, but what the lateral motion needs is missing, is none of a real rig, or is out of range. No damping and no critical speed are given.',
    mend: 'State what the message names, or correct it.',
    example: framed(''),
    mended: framed(', size 3200 x 1500 x 200 mm'),
  }),
} as const;

/** `The swinging of Tourer grows from 92 km/h on` */
function onset(kind: Kind, { subject, from, system }: Onset): string {
  const at = `from ${wholeSpeed(from, system)} on`;
  return kind === 'swinging' ? `The swinging of ${subject} grows ${at}` : `${subject} folds ${at}`;
}

function onsetBelow(kind: Kind, parameters: OnsetBelow): string {
  const { from, below, intended, state, system } = parameters;
  const by = below
    ? 'the lowest speed looked at'
    : `${wholeSpeed(intended - from, system)} below ${intendedSpeed(parameters)}`;
  return `${onset(kind, parameters)}, ${by}${where(state)}${byTheModel(parameters)}.${stabilityEnd(parameters, fromSpeed(system))}`;
}

const where = (state: string): string => (state === '' ? '' : `, in ${state}`);

const fromSpeed =
  (system: DisplaySystem) =>
  (speed: number): string =>
    `from ${wholeSpeed(speed, system)}`;
