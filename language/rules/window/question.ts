import { COUPLINGS } from '../../diagnostics/couplings.ts';
import { LOADS } from '../../diagnostics/loads.ts';
import { isSameChoice } from '../../mechanics/envelope.ts';
import type { ChosenMass } from '../../mechanics/window.ts';
import type { FreeSource } from '../../semantics/envelope/free-source.ts';
import type { Reach } from '../../semantics/envelope/reach.ts';
import type { CaseModel } from '../../semantics/model.ts';
import type { RigResult } from '../../semantics/state.ts';
import { bindingRules } from '../limits/check-limits.ts';
import type { AssessedText } from '../limits/limit-rule.ts';
import { PLATED_LIMITS } from '../limits/plated.ts';
import { MARKET_RULES } from '../markets/index.ts';
import type { Bases } from '../reach/breach.ts';
import type { Reaches } from '../reach/check-reach.ts';
import { type ReachLimit, reachLimits } from '../reach/reach-limit.ts';
import { amountsIn, type Chosen } from './choose.ts';

/** What a window is asked for. */
export interface WindowOptions {
  /** The case that has the rest; whatever can be on board where absent. */
  readonly case?: string;
  /** Stated tolerances at their worst, or everything as it is stated. */
  readonly tolerances: 'worst' | 'nominal';
  /** Whether what is common practice or recommended only is held too. */
  readonly practice: boolean;
  /** Whether a code is turned off for the rig. */
  readonly isOff: (code: string) => boolean;
}

/** The limits that a window is asked for, and why others are not among them. */
export interface Held {
  readonly limits: readonly ReachLimit[];
  /** Common practice and recommendations that are not held. */
  readonly practice: number;
  /** Codes that are turned off, each once. */
  readonly off: readonly string[];
  /** Limits that the author states for cases other than those looked at. */
  readonly elsewhere: number;
  /** What cannot be held because the files do not state it: `Rear axle of Hauler: a rating of the rear axle`. */
  readonly unstated: readonly string[];
}

/** Everything that a window is found from. */
export interface Question {
  readonly reaches: Reaches;
  readonly reach: Reach;
  /** The named states that others are told by. */
  readonly bases: Bases;
  /** What is not chosen. */
  readonly rest: readonly FreeSource[];
  readonly chosen: readonly ChosenSource[];
  readonly held: Held;
}

/** Something chosen, with what it can be in the reach looked at. */
export interface ChosenSource {
  readonly chosen: Chosen;
  readonly source: FreeSource;
  readonly mass: ChosenMass;
}

/** Undefined where the rig has no such case. */
export function questionOf(
  result: RigResult,
  reaches: Reaches,
  chosen: readonly Chosen[],
  options: WindowOptions,
): Question | undefined {
  const inCase = reaches.cases.find(({ reach }) => reach.case?.name === options.case);
  if (options.case !== undefined && inCase === undefined) return undefined;
  const reach = inCase?.reach ?? reaches.whole;
  const masses = (each: Reach) => (options.tolerances === 'worst' ? each.toleranced : each.free);
  const names = new Set(chosen.map(({ name }) => name));
  const own = masses(reach);
  const all = masses(reaches.whole);
  return {
    reaches,
    reach,
    bases: inCase === undefined ? reaches.bases : [inCase.state],
    rest: own.filter(({ name }) => !names.has(name)),
    chosen: chosen.flatMap((each) => chosenSource(each, own, all) ?? []),
    held: heldLimits(result, options),
  };
}

/** As it lies in the reach looked at, or as it lies elsewhere where that has none of it. */
function chosenSource(
  chosen: Chosen,
  own: readonly FreeSource[],
  all: readonly FreeSource[],
): ChosenSource | undefined {
  const masses = amountsIn(own, chosen) === undefined ? all : own;
  const source = masses.find(({ name }) => name === chosen.name);
  const { least, most } = chosen;
  return source?.amounts && { chosen, source, mass: { span: { least, most }, ways: source.amounts.ways } };
}

function heldLimits(result: RigResult, options: WindowOptions): Held {
  const all = reachLimits(result);
  const here = all.filter(({ cases }) => cases === undefined || cases.includes(options.case ?? ''));
  const on = here.filter(({ code }) => !options.isOff(code));
  const limits = on.filter(({ weight }) => options.practice || weight === 'limit');
  return {
    limits,
    practice: on.length - limits.length,
    off: [...new Set(here.filter(({ code }) => options.isOff(code)).map(({ code }) => code))],
    elsewhere: all.length - here.length,
    unstated: unstatedIn(result),
  };
}

function unstatedIn(result: RigResult): string[] {
  const texts = bindingRules<AssessedText>([...PLATED_LIMITS, ...MARKET_RULES], result.rig);
  const missing = texts
    .flatMap(({ assess }) => [...assess(result)])
    .flatMap((each) => (each.kind === 'unstated' ? [each.missing] : []));
  return [...new Set(missing)];
}

/** What physics asks of every rig: no wheel lifts, no coupling pulls up. */
const PHYSICS: ReadonlySet<string> = new Set([LOADS['wheel-lifted'].code, COUPLINGS['coupling-negative'].code]);

/** Whether a code is one of physics: its limits are at zero, and need no name. */
export function isPhysical(code: string): boolean {
  return PHYSICS.has(code);
}

/** Whether anything is held that a plate, a text or the author limits. */
export function isLimited({ limits }: Held): boolean {
  return limits.some(({ code }) => !isPhysical(code));
}

/** All masses with the chosen ones at their amounts; witnesses do not tell the chosen ones, which are told apart. */
export function massesAt({ rest, chosen, bases: [base] }: Question, amounts: readonly number[]): readonly FreeSource[] {
  return [...rest, ...chosen.map(({ source }, index) => fixedAt(source, amounts[index] ?? 0, base.case))];
}

function fixedAt(source: FreeSource, amount: number, base: CaseModel): FreeSource {
  const { fillings: _, ...kept } = source;
  const { amounts } = source;
  if (amounts === undefined) return source;
  const nominal = amounts.nominal(amount, base);
  const others = amounts.ways.map((way) => way(amount)).filter((choice) => !isSameChoice(choice, nominal));
  const isNominal = amounts.ways.length === others.length + 1;
  return { ...kept, choices: isNominal ? [nominal, ...others] : others, inCase: () => nominal };
}
