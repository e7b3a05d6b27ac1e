import { STANDARD_GRAVITY, type Unit } from './combination.ts';
import type { StaticsProblem, StaticsProblemKind } from './problems.ts';

/**
 * The load (kg) of one support of a rigid unit, as a function of what stands on the unit:
 * total·(sum of the downward loads, kg) + moment·(sum of load times x, kg m) + constant (kg).
 */
export interface SupportRow {
  readonly total: number;
  readonly moment: number;
  readonly constant: number;
}

/** A support of the axles: an equalised group, or one axle of an independent one. */
export interface AxleSupport extends SupportRow {
  readonly group: number;
  /** Index in its group of its first axle, and how many axles share it equally. */
  readonly firstAxle: number;
  readonly axleCount: number;
  readonly x: number;
  readonly rate: number;
}

/** How a unit's loads are found from what stands on it. */
export interface UnitSupports {
  /** Its own coupling, if that carries vertical load. */
  readonly coupling?: SupportRow;
  readonly axles: readonly AxleSupport[];
  /** Whether spring rates matter (more supports than equilibrium can tell) but some are missing: all count as equal. */
  readonly equalRatesAssumed: boolean;
  /** Whether the height of the hitch matters but cannot be reckoned with for want of rates. */
  readonly hitchHeightIgnored: boolean;
}

type SupportProblem = Omit<StaticsProblem, 'unit'>;

type BareSupport = Omit<AxleSupport, keyof SupportRow>;

/** Supports closer than this, in metres, are in one place. */
const COINCIDENT = 1e-3;

/**
 * The supports of one unit.
 *
 * With a coupling that carries load the rigid frame turns about the coupling on its springs, so a support at the
 * distance L behind takes a share in proportion to rate·L of what the axles take. `raised` is how far (m) the hitch
 * holds the coupling above the height stated for the trailer; the reference is that with the coupling at its stated
 * height all unloaded springs just touch the ground together. Raised, the frame is tilted: load goes from the
 * front supports to the rear ones and, since the rear ones have the longer lever, from the axles to the coupling.
 * A single support is not affected.
 *
 * Without such a coupling the frame heaves and pitches on its springs; two supports are determinate whatever the rates.
 */
export function findSupports(unit: Unit, raised: number): UnitSupports | SupportProblem {
  const carries = unit.coupling !== undefined && unit.couplingCarries;
  const listed = listSupports(unit);
  const ratesMatter = listed.length > (carries ? 1 : 2);
  const ratesKnown = unit.groups.every((group) => group.axles.every((axle) => axle.rate !== undefined));
  const usesRates = ratesMatter && ratesKnown;
  const supports = usesRates ? listed : listed.map((support) => ({ ...support, rate: support.axleCount }));
  const flags = {
    equalRatesAssumed: ratesMatter && !ratesKnown,
    hitchHeightIgnored: carries && ratesMatter && !ratesKnown && raised !== 0,
  };
  if (!carries || unit.coupling === undefined) {
    if (supports.length === 1) return { problem: 'single-support' };
    const resting = restOnSprings(supports);
    return 'problem' in resting ? resting : { ...resting, ...flags };
  }
  const couplingX = unit.coupling.x;
  for (const support of supports) {
    const problem = leverProblem(couplingX - support.x);
    if (problem !== undefined) return { problem, group: support.group };
  }
  const turning = turnAboutCoupling(supports, couplingX, usesRates ? raised / STANDARD_GRAVITY : 0);
  return 'problem' in turning ? turning : { ...turning, ...flags };
}

function leverProblem(lever: number): StaticsProblemKind | undefined {
  if (Math.abs(lever) < COINCIDENT) return 'coupling-at-axle';
  return lever < 0 ? 'axle-ahead-of-coupling' : undefined;
}

/** The supports with the sum of the rates of their axles; a missing rate counts as zero here. */
function listSupports(unit: Unit): BareSupport[] {
  const supports: BareSupport[] = [];
  for (const [group, { axles, suspension }] of unit.groups.entries()) {
    if (suspension === 'independent') {
      for (const [firstAxle, axle] of axles.entries()) {
        supports.push({ group, firstAxle, axleCount: 1, x: axle.x, rate: axle.rate ?? 0 });
      }
    } else {
      const axleCount = axles.length;
      const x = axles.reduce((sum, axle) => sum + axle.x, 0) / axleCount;
      const rate = axles.reduce((sum, axle) => sum + (axle.rate ?? 0), 0);
      supports.push({ group, firstAxle: 0, axleCount, x, rate });
    }
  }
  return supports;
}

/**
 * Deflection of support i: angle·Lᵢ − raised; moments about the coupling give the angle; the coupling takes the rest.
 * `raised` is in metres over g, so that rate times it is in kg.
 */
function turnAboutCoupling(
  supports: readonly BareSupport[],
  couplingX: number,
  raised: number,
): { coupling: SupportRow; axles: AxleSupport[] } | SupportProblem {
  let stiffness = 0;
  let skew = 0;
  for (const { x, rate } of supports) {
    const lever = couplingX - x;
    stiffness += rate * lever * lever;
    skew += rate * lever;
  }
  if (!isUsable(stiffness)) return { problem: 'overflow' };
  const coupling = { total: 1, moment: 0, constant: 0 };
  const axles = supports.map((support) => {
    const lever = couplingX - support.x;
    const perMoment = (support.rate * lever) / stiffness;
    const row = {
      total: perMoment * couplingX,
      moment: -perMoment,
      constant: supports.length === 1 ? 0 : raised * (perMoment * skew - support.rate),
    };
    coupling.total -= row.total;
    coupling.moment -= row.moment;
    coupling.constant -= row.constant;
    return { ...support, ...row };
  });
  return { coupling, axles };
}

/** Heave and pitch about the centre of the rates. */
function restOnSprings(supports: readonly BareSupport[]): { axles: AxleSupport[] } | SupportProblem {
  const first = supports[0]?.x ?? 0;
  if (supports.every(({ x }) => Math.abs(x - first) < COINCIDENT)) return { problem: 'supports-coincide' };
  const rates = supports.reduce((sum, { rate }) => sum + rate, 0);
  const centre = supports.reduce((sum, { rate, x }) => sum + rate * x, 0) / rates;
  const stiffness = supports.reduce((sum, { rate, x }) => sum + rate * (x - centre) * (x - centre), 0);
  if (!isUsable(stiffness)) return { problem: 'overflow' };
  const axles = supports.map((support) => {
    const moment = (support.rate * (support.x - centre)) / stiffness;
    return { ...support, total: support.rate / rates - moment * centre, moment, constant: 0 };
  });
  return { axles };
}

/** False where the numbers it was made of were too large or too small to be reckoned with. */
function isUsable(stiffness: number): boolean {
  return stiffness > 0 && stiffness < Number.POSITIVE_INFINITY;
}
