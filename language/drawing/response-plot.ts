import { dampingText } from '../diagnostics/stability-wording.ts';
import type { RigModel } from '../semantics/model.ts';
import type { StabilityResult } from '../semantics/stability/evaluate-stability.ts';
import type { MotionAt } from '../semantics/stability/motion-at.ts';
import type { RigTrain } from '../semantics/stability/train-of.ts';
import { ANGLE, FORCE, SPEED } from '../units/dimension.ts';
import { type DisplaySystem, formatNumber, formatValue } from '../units/display.ts';
import { type Frame, type Plane, planeOf } from './axes.ts';
import { captionGroup, stabilityCaption } from './caption.ts';
import { type Drawing, type Group, line, mark, type Shape, text } from './drawing.ts';
import { LEAST_PEAKS, type PulseResponse, type PulseResponses, pulseResponses, swingsBetween } from './pulses.ts';
import { fitText } from './words.ts';

const WIDTH = 980;
const COLUMNS = [
  { left: 64, right: 480 },
  { left: 548, right: 964 },
] as const;
const TOP = 138;
const PANEL = 176;
const BETWEEN = 108;
const DEGREES = 180 / Math.PI;

/** A quantity over time, deg or deg/s. */
interface Signal {
  readonly name: string;
  readonly values: Float64Array;
}

/**
 * Motion over time after a push on the first trailer and after a turn of the steering: articulation above, yaw rate of the
 * tow vehicle below; with the damping ratio read off successive amplitudes, from peak to peak, beside that of the
 * eigenvalue. Undefined where nothing can be computed at `speed`, m/s.
 */
export function responsePlot(
  result: StabilityResult,
  speed: number,
  system: DisplaySystem = 'metric',
): Drawing | undefined {
  const found = pulseResponses(result, speed);
  if (found === undefined) return undefined;
  const { rig } = result.state;
  const columns = [
    { response: found.push, title: pushText(found.push, rig, result.built, system), frame: COLUMNS[0] },
    { response: found.steer, title: steerText(found.steer), frame: COLUMNS[1] },
  ];
  const { motion } = found;
  const below = TOP + 2 * PANEL + BETWEEN;
  const caption = captionGroup([...readingOf(found), ...stabilityCaption(rig)], {
    left: 16,
    top: below + 44,
    width: WIDTH - 32,
  });
  const where = `${result.label}, at ${formatValue(speed, SPEED, system)}`;
  return {
    name: `response-${rig.name}`,
    width: WIDTH,
    height: below + 44 + caption.height + 18,
    title: `${rig.name}: response to a push and to a turn of the steering`,
    description: descriptionOf(where, columns, motion, rig),
    groups: [
      {
        shapes: [
          text('heading', 16, 28, fitText(`${rig.name}: response over time`, 'heading', WIDTH - 32)),
          text('remark', 16, 48, fitText(where, 'remark', WIDTH - 32)),
        ],
      },
      ...columns.flatMap(({ response, title, frame }) =>
        columnGroups(response, title, frame, rig, result.built, motion),
      ),
      caption.group,
    ],
  };
}

function columnGroups(
  response: PulseResponse,
  title: string,
  { left, right }: Pick<Frame, 'left' | 'right'>,
  rig: RigModel,
  built: RigTrain,
  motion: MotionAt,
): Group[] {
  const { times, articulation, yawRate } = response.response;
  const second = TOP + PANEL + BETWEEN;
  const upper = { left, right, top: TOP, bottom: TOP + PANEL };
  const lower = { left, right, top: second, bottom: second + PANEL };
  const joints = articulation.map((values, index) => ({ name: jointName(rig, built, index), values: shown(values) }));
  const vehicle = [{ name: rig.units[0]?.name ?? '', values: shown(yawRate) }];
  const [angles, rates] = [
    panelOf(upper, times, joints, 'articulation, deg'),
    panelOf(lower, times, vehicle, 'yaw rate of the tow vehicle, deg/s'),
  ];
  return [
    { shapes: [text('label', left, TOP - 54, fitText(title, 'label', right - left))] },
    pulseGroup(angles, response),
    angles.axes,
    keyGroup(upper, joints),
    ...signalGroups(angles, times, joints),
    peakGroup(angles, response),
    {
      shapes: dampingLines(response, motion).map((words, i) =>
        text('remark', left, upper.bottom + 48 + i * 16, fitText(words, 'remark', right - left)),
      ),
    },
    pulseGroup(rates, response),
    rates.axes,
    ...signalGroups(rates, times, vehicle),
  ];
}

const shown = (values: Float64Array): Float64Array => values.map((value) => value * DEGREES);

function panelOf(frame: Frame, times: Float64Array, signals: readonly Signal[], label: string): Plane {
  const most = Math.max(
    1e-6,
    ...signals.map(({ values }) => values.reduce((size, each) => Math.max(size, Math.abs(each)), 0)),
  );
  return planeOf(frame, {
    x: { least: 0, most: times[times.length - 1] ?? 1, label: 'time, s', ticks: 8 },
    y: { least: -most, most, label, ticks: 5 },
  });
}

/** The time the pulse lasts, and the line of rest. */
function pulseGroup({ frame, place }: Plane, { pulse }: PulseResponse): Group {
  const zero = place(0, 0).y;
  return {
    title: 'the pulse',
    shapes: [
      {
        shape: 'rectangle',
        role: 'pulse',
        at: { x: frame.left, y: frame.top },
        width: place(pulse.duration, 0).x - frame.left,
        height: frame.bottom - frame.top,
      },
      line('zero', { x: frame.left, y: zero }, { x: frame.right, y: zero }),
    ],
  };
}

function signalGroups({ place }: Plane, times: Float64Array, signals: readonly Signal[]): Group[] {
  return signals.map(({ name, values }, series) => ({
    title: name,
    shapes: [
      {
        shape: 'curve',
        role: 'curve',
        series,
        points: Array.from(times, (time, i) => place(time, values[i] ?? Number.NaN)),
      },
    ],
  }));
}

/** Names of several curves, each behind a piece of its line; one alone is named by the axis. */
function keyGroup({ left, right, top }: Frame, signals: readonly Signal[]): Group {
  if (signals.length < 2) return { shapes: [] };
  const room = (right - left) / signals.length;
  return {
    shapes: signals.flatMap(({ name }, series): Shape[] => {
      const start = left + series * room;
      return [
        line('curve', { x: start, y: top - 30 }, { x: start + 32, y: top - 30 }, series),
        text('remark', start + 38, top - 26, fitText(name, 'remark', room - 46)),
      ];
    }),
  };
}

/** The peaks that are read. */
function peakGroup({ place }: Plane, { peaks, damping, read }: PulseResponse): Group {
  return {
    title: 'peaks that the damping is read off',
    shapes: (damping === undefined ? [] : peaks).map(({ time, value }) =>
      mark('dot', place(time, value * DEGREES), read),
    ),
  };
}

/** How many amplitudes are told. */
const MOST_TOLD = 4;

/** Amplitudes from peak to peak; and what they and the eigenvalue say of the damping. */
function dampingLines({ peaks, damping }: PulseResponse, { mode, folds }: MotionAt): readonly [string, string] {
  if (folds) return ['it leaves its course without swinging: it folds or spins', ''];
  const swings = swingsBetween(peaks);
  const sizes = swings.slice(0, MOST_TOLD).map((swing) => formatNumber(swing * DEGREES, 3, 3));
  const more = swings.length > sizes.length ? ' …' : '';
  const eigenvalue = mode === undefined ? 'nothing swings by itself' : `eigenvalue ${dampingText(mode.damping)}`;
  return [
    sizes.length === 0
      ? 'it settles without a swing that could be read'
      : `amplitudes from peak to peak ${sizes.join(', ')}${more} deg`,
    damping === undefined
      ? `${peaks.length < LEAST_PEAKS ? 'too few peaks' : 'peaks of more than one swing'}: no damping read off; ${eigenvalue}`
      : `damping from successive amplitudes ${dampingText(damping)}; ${eigenvalue}`,
  ];
}

/** A joint by the unit behind it; the joint of a steered frame to its drawbar by both. */
function jointName(rig: RigModel, { bodies }: RigTrain, index: number): string {
  const behind = bodies.indexOf(index + 1);
  if (behind >= 0) return rig.units[behind]?.name ?? '';
  return `${rig.units[bodies.indexOf(index + 2)]?.name ?? ''}, steered frame`;
}

function pushText({ pulse }: PulseResponse, rig: RigModel, { bodies }: RigTrain, system: DisplaySystem): string {
  const name = rig.units[bodies.indexOf(pulse.unit ?? 1)]?.name ?? '';
  return `Push of ${formatValue(pulse.amount, FORCE, system)} for ${formatNumber(pulse.duration)} s to the left on ${name}`;
}

function steerText({ pulse }: PulseResponse): string {
  const angle = formatValue(pulse.amount, ANGLE);
  return `Steered wheels turned by ${angle} for ${formatNumber(pulse.duration)} s to the left`;
}

function readingOf({ motion, push, steer }: PulseResponses): string[] {
  const isRead = [push, steer].some(({ damping }) => damping !== undefined);
  const sentences = [
    ...(isRead
      ? [
          'Rings: peaks that the damping ratio is read off, D = ln r/√(π² + (ln r)²) with r the mean ratio of successive',
          "amplitudes, as ISO 9815 evaluates them; it agrees with the eigenvalue's where one swing outlasts the rest.",
        ]
      : []),
    'Twice the pulse gives twice the motion.',
    ...(motion.growth > 0 ? ['That it grows is what counts: angles as great as these are beyond the model.'] : []),
  ];
  return [sentences.join(' ')];
}

function descriptionOf(
  where: string,
  columns: readonly { readonly response: PulseResponse; readonly title: string }[],
  motion: MotionAt,
  rig: RigModel,
): string {
  const figures = columns.map(({ response, title }) => `${title}: ${dampingLines(response, motion).join('; ')}.`);
  return [
    `Articulation and yaw rate of the tow vehicle over time, ${where}.`,
    ...figures,
    ...stabilityCaption(rig),
  ].join(' ');
}
