import type { CriticalSpeed } from '../mechanics/stability/sweep.ts';
import type { RigStability, StabilityResult } from '../semantics/stability/evaluate-stability.ts';
import { leastDampedResult } from '../semantics/stability/motion-at.ts';
import { SPEED } from '../units/dimension.ts';
import { type DisplaySystem, displayUnit, formatNumber, formatValue } from '../units/display.ts';
import { fromSI, parseUnit } from '../units/parse-unit.ts';
import { type Plane, planeOf } from './axes.ts';
import { captionGroup, stabilityCaption } from './caption.ts';
import { clipCurve, valueAt } from './clip.ts';
import { type Drawing, type Group, line, mark, type Point, type Shape, text } from './drawing.ts';
import { figuresOf, type Track, tracksOf } from './tracks.ts';
import { fitText, spread, textWidth } from './words.ts';

const WIDTH = 980;
const FRAME = { left: 64, right: 620, top: 100 };
const LABELS = 652;
const LABEL_HEIGHT = 36;
const LEAST_HEIGHT = 330;
/**
 * Damping ratio over speed: one curve a case on the level, and thinner the other roads and ways of braking of the
 * least-damped case; the intended speed, zero-damping and divergence speeds marked. Undefined where nothing was computed.
 */
export function dampingPlot(stability: RigStability, system: DisplaySystem = 'metric'): Drawing | undefined {
  const { rig } = stability;
  const worst = leastDampedResult(stability);
  if (worst === undefined) return undefined;
  const unit = displayUnit(SPEED, system);
  const scale = parseUnit(unit)?.factor ?? 1;
  const toShown = (speed: number) => fromSI(speed, { factor: scale });
  const { tracks, left } = tracksOf(stability, worst, toShown);
  const bottom = FRAME.top + Math.max(LEAST_HEIGHT, tracks.length * LABEL_HEIGHT);
  const plane = planeOf({ ...FRAME, bottom }, { x: speedRange(tracks, unit), y: dampingRange(tracks) });
  const series = tracks.map((track, index) => trackGroup(plane, track, index, toShown));
  const caption = captionGroup([...readingOf(stability, worst, tracks, left), ...stabilityCaption(rig)], {
    left: 16,
    top: bottom + 48,
    width: WIDTH - 32,
  });
  return {
    name: `damping-${rig.name}`,
    width: WIDTH,
    height: bottom + 48 + caption.height + 18,
    title: `${rig.name}: damping ratio over speed`,
    description: descriptionOf(stability, tracks, system),
    groups: [
      headingGroup(stability, worst, tracks),
      plane.axes,
      roadGroup(plane, toShown(stability.speed), `intended: ${formatValue(stability.speed, SPEED, system)}`),
      ...series,
      labelGroup(plane, tracks, system),
      zeroGroup(plane, tracks, toShown, unit),
      caption.group,
    ],
  };
}

function speedRange(tracks: readonly Track[], unit: string) {
  const most = Math.max(...tracks.flatMap(({ points }) => points.map(({ x }) => x)));
  return { least: 0, most, label: `speed, ${unit}`, ticks: 10 };
}

/** Down to what grows a little; up to twice the damping that matters, so that slow speeds do not flatten the rest. */
function dampingRange(tracks: readonly Track[]) {
  const all = tracks.flatMap(({ points }) => points.map(({ y }) => y)).filter(Number.isFinite);
  const intended = Math.max(...tracks.map(({ damping }) => damping));
  const least = Math.max(-0.4, Math.min(-0.1, ...all));
  const most = Math.min(1, Math.max(...all, 0.1), Math.max(0.3, 2 * intended));
  return {
    least,
    most,
    label: 'damping ratio of the least-damped swing: 0 swings for ever, below 0 it grows',
    ticks: 8,
    above: 28,
  };
}

/** The ground that curves are read against. */
function roadGroup({ frame, place, x, y }: Plane, speed: number, label: string): Group {
  const zero = place(0, 0).y;
  const at = place(speed, 0).x;
  const half = textWidth(label, 'label') / 2;
  const middle = Math.min(Math.max(at, frame.left + half), frame.right - half);
  const isShown = speed <= x.most;
  return {
    shapes: [
      ...(y.least < 0
        ? [
            {
              shape: 'rectangle',
              role: 'growing',
              at: { x: frame.left, y: zero },
              width: frame.right - frame.left,
              height: frame.bottom - zero,
            } as const,
            text('remark', frame.left + 8, frame.bottom - 8, 'the swing grows'),
          ]
        : []),
      line('zero', { x: frame.left, y: zero }, { x: frame.right, y: zero }),
      ...(isShown
        ? [
            line('intended', { x: at, y: frame.top }, { x: at, y: frame.bottom }),
            text('label', middle, frame.top - 9, label, 'middle'),
            line('axis', { x: at, y: frame.top - 5 }, { x: at, y: frame.top }),
          ]
        : []),
    ],
  };
}

function trackGroup(plane: Plane, track: Track, index: number, toShown: (speed: number) => number): Group {
  const { divergence } = track.result;
  const shapes: Shape[] = [
    {
      shape: 'curve',
      role: track.thin ? 'thin-curve' : 'curve',
      series: index,
      points: clipCurve(track.points, plane.y).map(({ x, y }) => plane.place(x, y)),
    },
  ];
  if (divergence.kind === 'at') {
    const x = toShown(divergence.speed);
    // Of a curve that has left the frame, on its border.
    const y = Math.min(plane.y.most, Math.max(plane.y.least, valueAt(track.points, x) ?? 0));
    shapes.push(mark('cross', plane.place(x, y), index));
  }
  return { title: track.result.label, shapes };
}

/** Labels beside the ends of the curves, apart from each other, with a line in the look of the curve. */
function labelGroup(plane: Plane, tracks: readonly Track[], system: DisplaySystem): Group {
  const { frame } = plane;
  const ends = tracks.map(({ points }) => endOf(clipCurve(points, plane.y)));
  const wanted = ends.map((end) => (end === undefined ? frame.bottom : plane.place(end.x, end.y).y));
  const places = spread(wanted, LABEL_HEIGHT, frame.top + 8, frame.bottom - LABEL_HEIGHT / 2);
  const width = WIDTH - LABELS - 8;
  const shapes = tracks.flatMap((track, index): Shape[] => {
    const { label, thin } = track;
    const y = places[index] ?? frame.top;
    const end = ends[index];
    const from = end === undefined ? { x: frame.right, y } : plane.place(end.x, end.y);
    const role = thin ? 'thin-curve' : 'curve';
    return [
      // A curve that leaves the frame earlier is told by its look: a line to it would cross the others.
      ...(from.x < frame.right - 1 ? [] : [line('leader', from, { x: frame.right + 8, y })]),
      line(role, { x: frame.right + 8, y }, { x: LABELS - 6, y }, index),
      text(thin ? 'remark' : 'label', LABELS, y + 4, fitText(label, thin ? 'remark' : 'label', width)),
      text('remark', LABELS, y + 18, fitText(figuresOf(track, system), 'remark', width)),
    ];
  });
  return { shapes };
}

const endOf = (points: readonly Point[]): Point | undefined => points.findLast(({ y }) => Number.isFinite(y));

/** Where curves cross 0; the lowest of these speeds is told, all stand in the labels. */
function zeroGroup(
  { place, frame }: Plane,
  tracks: readonly Track[],
  toShown: (speed: number) => number,
  unit: string,
): Group {
  const crossings = tracks.flatMap(({ result: { zeroDamping } }, index) =>
    zeroDamping.kind === 'at' ? [{ x: toShown(zeroDamping.speed), index }] : [],
  );
  const shapes: Shape[] = crossings.map(({ x, index }) => mark('dot', place(x, 0), index));
  const lowest = Math.min(...crossings.map(({ x }) => x));
  if (crossings.length > 0) {
    const { x, y } = place(lowest, 0);
    const words = `${formatNumber(lowest)} ${unit}`;
    const fits = x - textWidth(words, 'remark') - 10 > frame.left;
    shapes.push(text('remark', fits ? x - 6 : x + 8, y + 17, words, fits ? 'end' : 'start'));
  }
  return { shapes };
}

function headingGroup({ rig }: RigStability, worst: StabilityResult, tracks: readonly Track[]): Group {
  const title = rig.title === undefined ? '' : ` – ${rig.title}`;
  const thin = tracks.some((track) => track.thin)
    ? `; thin: ${worst.state.case.name}, the least-damped case, on other roads`
    : '';
  const key = `One curve a case on the level${thin}. Beside each: its damping ratio at the intended speed.`;
  return {
    shapes: [
      text('heading', 16, 28, fitText(`${rig.name}: damping over speed${title}`, 'heading', WIDTH - 32)),
      text('remark', 16, 48, fitText(key, 'remark', WIDTH - 32)),
    ],
  };
}

/** How marks are read, and what is not drawn; only what applies. */
function readingOf(
  { results }: RigStability,
  worst: StabilityResult,
  tracks: readonly Track[],
  left: number,
): string[] {
  const isMarked = (read: (result: StabilityResult) => CriticalSpeed) =>
    tracks.some(({ result }) => read(result).kind === 'at');
  const sentences = [
    `Least damped of all at the intended speed: ${worst.label}.`,
    ...(isMarked(({ zeroDamping }) => zeroDamping) ? ['Ring: from here on swinging does not die out.'] : []),
    ...(isMarked(({ divergence }) => divergence)
      ? ['Cross: from here on it leaves its course without swinging (folds or spins).']
      : []),
    ...(left > 0 ? [`${left} better-damped cases of ${results.length} results are not drawn.`] : []),
  ];
  return [sentences.join(' ')];
}

function descriptionOf({ speed, rig }: RigStability, tracks: readonly Track[], system: DisplaySystem): string {
  const figures = tracks.map((track) => `${track.result.label}: ${figuresOf(track, system)}`);
  return [
    `Damping ratio of the least-damped swinging motion of ${rig.name} over speed.`,
    `Intended speed: ${formatValue(speed, SPEED, system)}.`,
    ...figures.map((each) => `${each}.`),
    ...stabilityCaption(rig),
  ].join(' ');
}
