import { renumberInfluence } from '../../mechanics/influence.ts';
import { agreementOf, CRITICAL_RESIDUAL } from '../../mechanics/weighing/contradiction.ts';
import type { TareGuess } from '../../mechanics/weighing/observation.ts';
import { reconcile } from '../../mechanics/weighing/reconcile.ts';
import type { Estimate, Reconciliation } from '../../mechanics/weighing/reconciliation.ts';
import { evaluateRig } from '../evaluate.ts';
import type { UnitModel } from '../model.ts';
import { standaloneRig } from '../standalone-rig.ts';
import type { RigResult } from '../state.ts';
import { type ObservedReading, observe } from './observations.ts';
import { tareGuesses } from './spreads.ts';
import { MOST_READINGS, type PassModel, type ReadingModel, type WeighingModel } from './weighing-model.ts';
import { type WeighedTare, weighedTares } from './weighing-result.ts';

/** A slip that tells of the tares of a rig: its own, or that of one of its units by itself. */
export interface JointSlip {
  readonly weighing: WeighingModel;
  /** The unit in whose block it stands; absent for a slip of the rig itself. */
  readonly of?: UnitModel;
}

/** A figure of a tare that two slips give too far apart. */
export interface TareChange {
  readonly of: UnitModel;
  readonly figure: 'mass' | 'x' | 'y' | 'z';
  readonly one: JointSlip;
  readonly other: JointSlip;
  /** By the other slip less by the one, kg or m. */
  readonly change: Estimate;
}

/** A slip that is not joined with the others. */
export interface LeftOutSlip {
  readonly slip: JointSlip;
  /** Its own readings do not go together, or with those before it they are more than are reconciled (`MOST_READINGS`). */
  readonly reason: 'contradictory' | 'too many';
}

/** All slips of a rig as one: the tares are the same on all of them, errors of readings are independent. */
export interface JointWeighing {
  /** Those that are joined. */
  readonly slips: readonly JointSlip[];
  readonly leftOut: readonly LeftOutSlip[];
  /** Of each unit of the rig. */
  readonly tares: readonly WeighedTare[];
  readonly reconciliation: Reconciliation;
  /**
   * Present where the slips disagree with each other by more than their readings do within each: something changed in
   * between, or a reading that nothing else on its slip checks is off. Then `tares` are those of no time.
   */
  readonly disagreement?: SlipDisagreement;
}

export interface SlipDisagreement {
  /** The slip without which the others agree, if there is just one such among three or more. */
  readonly odd?: JointSlip;
  /**
   * What changed, the most certain first, each figure by the two slips that tell it best; empty where single slips do
   * not tell.
   */
  readonly changes: readonly TareChange[];
  /** Readings one of which alone would explain it, the worst first; empty where no single one does. */
  readonly suspects: readonly JointReading[];
}

/** A reading with the slip that it is on. */
export interface JointReading {
  readonly slip: JointSlip;
  readonly pass: PassModel;
  readonly reading: ReadingModel;
}

/** The observations of a slip in the numbering of the rig. */
interface Observed {
  readonly slip: JointSlip;
  readonly observed: readonly ObservedReading[];
  /** By itself. */
  readonly alone: Reconciliation;
  readonly tares: readonly WeighedTare[];
}

/**
 * All slips of a rig, and those of its units by themselves, as one. Undefined where fewer than two can be joined, and
 * for a rig without slips of its own: what those of its units say is told at the units.
 */
export function joinWeighings(result: RigResult): JointWeighing | undefined {
  const { rig, states } = result;
  if (states.length === 0 || rig.weighings.length === 0) return undefined;
  const slips = [...ofRig(result), ...ofUnits(result)];
  if (slips.length < 2) return undefined;
  const guesses = tareGuesses(rig);
  const all = slips.map(([slip, observed]): Observed => {
    const alone = reconcileAll([observed], guesses);
    return { slip, observed, alone, tares: weighedTares(rig, alone) };
  });
  const sound = all.filter(({ alone }) => alone.agreement !== 'disagree');
  const joined = upToMost(sound);
  if (joined.length < 2) return undefined;
  const reconciliation = joint(joined, guesses);
  const compared = compare(joined, reconciliation);
  return {
    slips: joined.map(({ slip }) => slip),
    leftOut: all.flatMap((each): readonly LeftOutSlip[] => {
      if (joined.includes(each)) return [];
      return [{ slip: each.slip, reason: sound.includes(each) ? 'too many' : 'contradictory' }];
    }),
    tares: weighedTares(rig, reconciliation),
    reconciliation,
    ...(compared === undefined ? {} : { disagreement: disagreementOf(joined, compared, guesses) }),
  };
}

/** The slips in their order as far as they are no more readings than are reconciled together. */
function upToMost(slips: readonly Observed[]): readonly Observed[] {
  let count = 0;
  return slips.filter(({ observed }) => {
    const fits = count + observed.length <= MOST_READINGS;
    if (fits) count += observed.length;
    return fits;
  });
}

type SlipReadings = readonly [JointSlip, readonly ObservedReading[]];

function ofRig(result: RigResult): SlipReadings[] {
  return withReadings(result.rig.weighings.map((weighing) => [{ weighing }, observe(result, weighing)]));
}

/** Slips in the blocks of the units; a unit that is looked at alone has its slips as those of a rig. */
function ofUnits({ rig: { units, standalone } }: RigResult): SlipReadings[] {
  if (standalone) return [];
  return withReadings(
    units.flatMap((of, index) => {
      if (of.weighings.length === 0) return [];
      const result = evaluateRig(standaloneRig(of));
      if ('problem' in result) return [];
      return of.weighings.map(
        (weighing): SlipReadings => [
          { weighing, of },
          observe(result, weighing).map((each) => inRig(each, index, units.length)),
        ],
      );
    }),
  );
}

const withReadings = (slips: readonly SlipReadings[]) => slips.filter(([, observed]) => observed.length > 0);

/** A reading of a unit by itself in the numbering of a rig. */
function inRig(reading: ObservedReading, index: number, count: number): ObservedReading {
  const { observation } = reading;
  return {
    ...reading,
    observation: {
      ...observation,
      influence: renumberInfluence(observation.influence, [index], count),
      sources: observation.sources.map((source) => ({ ...source, unit: index })),
    },
  };
}

function reconcileAll(slips: readonly (readonly ObservedReading[])[], guesses: readonly TareGuess[]): Reconciliation {
  return reconcile(
    slips.flatMap((observed) => observed.map(({ observation }) => observation)),
    guesses,
  );
}

const joint = (slips: readonly Observed[], guesses: readonly TareGuess[]): Reconciliation =>
  reconcileAll(
    slips.map(({ observed }) => observed),
    guesses,
  );

/**
 * Rounding is not independent from reading to reading: the same wheels show the same step. What neither a figure of a
 * tare nor a reading shows has to be this many times the critical chi square to count as a disagreement.
 */
const UNTOLD = 2;

/**
 * How slips disagree with each other, if they do: tested by the chi square that joining them adds to their own, with
 * the degrees of freedom that it adds (the general linear hypothesis that the tares are the same), or by a reading that
 * contradicts all the others.
 */
function compare(slips: readonly Observed[], together: Reconciliation): Compared | undefined {
  const { chiSquare, degreesOfFreedom, contradiction } = together;
  const sum = (of: (alone: Reconciliation) => number) => slips.reduce((total, { alone }) => total + of(alone), 0);
  const added = chiSquare - sum((alone) => alone.chiSquare);
  const degrees = degreesOfFreedom - sum((alone) => alone.degreesOfFreedom);
  const differs = (chi: number) => agreementOf(chi, degrees) === 'disagree';
  if (contradiction === undefined && !differs(added)) return undefined;
  const changes = changesAmong(slips);
  if (contradiction === undefined && changes.length === 0 && !differs(added / UNTOLD)) return undefined;
  const readings = slips.flatMap(({ slip, observed }) =>
    observed.map(({ pass, reading }): JointReading => ({ slip, pass, reading })),
  );
  const suspects = contradiction?.othersAgree === true ? contradiction.suspects : [];
  return { changes, suspects: suspects.flatMap((index) => readings[index] ?? []) };
}

type Compared = Pick<SlipDisagreement, 'changes' | 'suspects'>;

/** With more slips than this, the one that is off is not looked for. */
const MOST_LOOKED_THROUGH = 12;

/** The slip without which the others agree, if there is just one such among three or more. */
function oddOne(slips: readonly Observed[], guesses: readonly TareGuess[]): Observed | undefined {
  if (slips.length < 3 || slips.length > MOST_LOOKED_THROUGH) return undefined;
  const [only, another] = slips.filter((left) => {
    const others = slips.filter((each) => each !== left);
    return compare(others, joint(others, guesses)) === undefined;
  });
  return another === undefined ? only : undefined;
}

function disagreementOf(
  slips: readonly Observed[],
  { changes, suspects }: Compared,
  guesses: readonly TareGuess[],
): SlipDisagreement {
  const odd = oddOne(slips, guesses)?.slip;
  if (odd === undefined) return { changes: eachOnce(changes), suspects };
  const ofOdd = changes.flatMap((change) =>
    change.other === odd ? [change] : change.one === odd ? [turned(change)] : [],
  );
  return { odd, changes: eachOnce(ofOdd), suspects };
}

/** The same change told the other way round. */
function turned({ one, other, change: { value, standardError }, ...rest }: TareChange): TareChange {
  return { ...rest, one: other, other: one, change: { value: -value, standardError } };
}

/** What single slips tell apart, the most certain first. */
function changesAmong(slips: readonly Observed[]): readonly TareChange[] {
  const changes = slips.flatMap((one, index) => slips.slice(index + 1).flatMap((other) => changesBetween(one, other)));
  return changes.sort((a, b) => certainty(b) - certainty(a));
}

/**
 * Figures of tares that both slips determine and that lie too far apart. That a thing of uncertain mass is off alike on
 * both is not counted for them: a change that is told is a change.
 */
function changesBetween(one: Observed, other: Observed): readonly TareChange[] {
  return one.tares.flatMap((tare, index) => {
    const second = other.tares[index];
    return (['mass', 'x', 'y', 'z'] as const).flatMap((figure): readonly TareChange[] => {
      const before = tare[figure];
      const after = second?.[figure];
      if (before.standardError === undefined || after?.standardError === undefined) return [];
      const standardError = Math.hypot(before.standardError, after.standardError);
      const change: Estimate = { value: after.value - before.value, standardError };
      if (!(Math.abs(change.value) > CRITICAL_RESIDUAL * standardError)) return [];
      return [{ of: tare.of, figure, one: one.slip, other: other.slip, change }];
    });
  });
}

/** Of several changes of one figure the first. */
function eachOnce(changes: readonly TareChange[]): readonly TareChange[] {
  const same = (a: TareChange, b: TareChange) => a.of === b.of && a.figure === b.figure;
  return changes.filter((change, index) => changes.findIndex((each) => same(each, change)) === index);
}

const certainty = ({ change: { value, standardError } }: TareChange): number => Math.abs(value) / standardError;
