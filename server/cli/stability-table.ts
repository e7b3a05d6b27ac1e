import { STANDARD_GRAVITY } from '../../language/mechanics/combination.ts';
import type { Handling } from '../../language/mechanics/stability/handling.ts';
import type { CriticalSpeed } from '../../language/mechanics/stability/sweep.ts';
import { type FirstMove, STEP } from '../../language/rules/stability/first-moves.ts';
import type { StabilityResult } from '../../language/semantics/stability/evaluate-stability.ts';
import { type MotionAt, motionAt, STILL } from '../../language/semantics/stability/motion-at.ts';
import { SPEED } from '../../language/units/dimension.ts';
import {
  type DisplaySystem,
  formatLength,
  formatMass,
  formatNumber,
  formatValue,
} from '../../language/units/display.ts';
import { ROUND_STEPS } from '../../language/units/round-steps.ts';
import type { TableOptions } from './load-table.ts';
import { speedsAround } from './speed.ts';
import { type Cell, type Column, renderTable } from './table.ts';
import { displayWidth, oneLine } from './text.ts';

const INDENT = '    ';

/** m/s between the speeds shown, round in each system. */
const SPEED_STEPS: Readonly<Record<DisplaySystem, number>> = { metric: 20 / 3.6, US: 10 * 0.44704 };

const dim = (text: string): Cell => ({ text, style: 'dim' });

/** Damping ratio and swing frequency of a case on all roads, over a few speeds with the intended one among them. */
export function renderDampingTable(
  results: readonly StabilityResult[],
  intended: number,
  { units, paint }: TableOptions,
): string[] {
  const speeds = speedsAround(intended, SPEED_STEPS[units]);
  const columns: Column[] = [{ align: 'left' }, { align: 'left' }, ...speeds.map((): Column => ({ align: 'right' }))];
  const head = [
    dim('damping ratio, Hz'),
    dim('braking'),
    ...speeds.map((speed) => dim(formatValue(speed, SPEED, units))),
  ];
  const below = [dim(''), dim(''), ...speeds.map((speed) => dim(speed === intended ? 'intended' : ''))];
  const body = results.map((result) => [
    ...roadCells(result),
    ...speeds.map((speed) => dampingCell(motionAt(result, speed))),
  ]);
  return renderTable(columns, [head, below, ...body], paint, INDENT);
}

function dampingCell({ mode, folds }: MotionAt = STILL): Cell {
  if (folds) return { text: 'folds', style: 'error' };
  if (mode === undefined) return { text: 'no swing' };
  const text = `${fixed(mode.damping, 3)}  ${fixed(mode.frequency, 2)}`;
  return mode.damping < 0 ? { text, style: 'error' } : { text };
}

/** A figure with so many decimals, zeros too, so that a column of them reads as one. */
function fixed(value: number, decimals: number): string {
  const text = formatNumber(value, 15, decimals);
  if (!Number.isFinite(value) || /e/.test(text)) return text;
  const [whole = '0', fraction = ''] = text.split('.');
  return `${whole}.${fraction.padEnd(decimals, '0')}`;
}

/** From which speeds a case is unstable on each road, how it steers, and which motion is the least damped. */
export function renderLimitTable(
  results: readonly StabilityResult[],
  intended: number,
  { units, paint }: TableOptions,
): string[] {
  const hasAlone = results.some(({ alone }) => alone !== undefined);
  const right: Column = { align: 'right' };
  const columns: Column[] = [
    { align: 'left' },
    { align: 'left' },
    right,
    right,
    right,
    ...(hasAlone ? [right] : []),
    { align: 'left' },
  ];
  const alone = (cell: Cell): Cell[] => (hasAlone ? [cell] : []);
  const heads = [
    [
      dim('limits'),
      dim('braking'),
      dim('swing grows'),
      dim('folds'),
      dim('understeer'),
      ...alone(dim('alone')),
      dim('least damped'),
    ],
    [dim(''), dim(''), dim('from'), dim('from'), dim('deg/g'), ...alone(dim('deg/g'))],
  ];
  const body = results.map((result) => {
    const motion = motionAt(result, intended) ?? STILL;
    // A swing that grows may end in folding at a higher speed: no speed of its own, yet it folds.
    const afterSwing = motion.folds && result.divergence.kind === 'above';
    return [
      ...roadCells(result),
      speedCell(result.zeroDamping, result, units),
      afterSwing ? { text: 'after swinging' } : speedCell(result.divergence, result, units),
      gradientCell(result.handling),
      ...alone(gradientCell(result.alone)),
      { text: motionText(result, motion) },
    ];
  });
  return renderTable(columns, [...heads, ...body], paint, INDENT);
}

/** The road, and who brakes where someone has to. */
function roadCells({ scenario: { kind, text, brakes } }: StabilityResult): Cell[] {
  const [road = ''] = text.split(', ');
  const holds = kind === 'descent' || kind === 'braking';
  return [{ text: road }, { text: !holds ? '' : brakes === 'vehicle alone' ? 'vehicle' : 'all' }];
}

/** A critical speed, or between what speeds it was looked for. */
export function speedCell(speed: CriticalSpeed, { sweep: { speeds } }: StabilityResult, units: DisplaySystem): Cell {
  const shown = (value: number | undefined) => formatValue(value ?? Number.NaN, SPEED, units);
  if (speed.kind === 'at') return { text: shown(speed.speed) };
  return speed.kind === 'above'
    ? { text: `above ${shown(speeds[speeds.length - 1])}` }
    : { text: `below ${shown(speeds[0])}`, style: 'error' };
}

/** rad per m/s² as deg per g. */
export const degreesPerG = (gradient: number): number => (gradient * STANDARD_GRAVITY * 180) / Math.PI;

function gradientCell(handling: Handling | undefined): Cell {
  return { text: handling === undefined ? '' : fixed(degreesPerG(handling.understeer), 2) };
}

/** `trailer swing`, `vehicle yaw`; with several trailers the one that swings most. */
export function motionText({ state: { rig }, built }: StabilityResult, { mode, folds }: MotionAt): string {
  if (folds) return 'folds';
  if (mode === undefined) return 'no swing';
  if (mode.motion === 'vehicle-yaw') return 'vehicle yaw';
  const unit = built.bodies.findIndex((body) => body >= mode.unit);
  return rig.units.length > 2 ? cut(oneLine(rig.units[unit]?.name ?? ''), MOTION_WIDTH) : 'trailer swing';
}

const MOTION_WIDTH = 13;

function cut(text: string, width: number): string {
  const letters = [...text];
  while (displayWidth(letters.join('')) > width) letters.splice(-2, 2, '…');
  return letters.join('');
}

const MOST_MOVES = 5;
/** Less than this change of the damping ratio is nothing that anybody would see. */
const LEAST_CHANGE = 1e-4;
const NAME_WIDTH = 46;

/**
 * What to move first: which way each thing has to go, what that gains in damping and in zero-damping speed, and what
 * taking some of it out gains. No lines where nothing does enough to speak of.
 */
export function renderMoves(moves: readonly FirstMove[], { units, paint }: TableOptions): string[] {
  const { length, mass } = ROUND_STEPS[units];
  const steps = length / STEP;
  const shown = moves
    .filter(({ damping, perKilogram, mass: own }) => {
      const gains = [damping * steps, perKilogram.damping * Math.min(mass, own)];
      return gains.some((gain) => gain >= LEAST_CHANGE);
    })
    .slice(0, MOST_MOVES);
  if (shown.length === 0) return [];
  const hasSpeeds = shown.some(({ zeroDampingSpeed }) => zeroDampingSpeed !== undefined);
  const speed = (text: string): Cell[] => (hasSpeeds ? [{ text }] : []);
  const head = [
    '',
    '',
    `move ${formatLength(length, units)}`,
    'damping',
    ...(hasSpeeds ? ['swing grows from'] : []),
    `${formatMass(mass, units)} less`,
  ].map(dim);
  const body = shown.map(({ source, mass: own, direction, damping, zeroDampingSpeed, perKilogram }): Cell[] => [
    { text: cut(oneLine(source.name), NAME_WIDTH) },
    { text: formatMass(own, units) },
    { text: damping * steps < LEAST_CHANGE / 2 ? '' : direction },
    { text: signed(damping * steps) },
    ...speed(zeroDampingSpeed === undefined ? '' : speedChange(zeroDampingSpeed * steps, units)),
    { text: signed(perKilogram.damping * mass) },
  ]);
  const right: Column = { align: 'right' };
  const columns: Column[] = [{ align: 'left' }, right, { align: 'left' }, right, ...(hasSpeeds ? [right] : []), right];
  return renderTable(columns, [head, ...body], paint, INDENT);
}

const signed = (value: number): string => `${value >= 0 ? '+' : ''}${fixed(value, 4)}`;

const speedChange = (value: number, units: DisplaySystem): string =>
  `${value >= 0 ? '+' : ''}${formatValue(value, SPEED, units)}`;
