import type { Location } from '../../diagnostics/finding.ts';
import { excessOf, formatDifference, formatLimited } from '../../rules/limits/check-limits.ts';
import { type ReachBreach, type ReachSurvey, reachSurvey } from '../../rules/reach/check-reach.ts';
import type { ReachLimit } from '../../rules/reach/reach-limit.ts';
import { axlesOf, groupSubject } from '../../rules/subjects.ts';
import type { AxleGroup, UnitModel } from '../../semantics/model.ts';
import { requirementsOf } from '../../semantics/requirements.ts';
import { asksForStability } from '../../semantics/stability/stability-quantities.ts';
import type { RigResult } from '../../semantics/state.ts';
import type { DisplaySystem } from '../../units/display.ts';
import { list, paragraphs, plain } from '../markdown.ts';
import { type ShownReach, shownReach } from '../reach-figures.ts';
import type { HoverContext } from './context.ts';

/** The name of the case that is hovered in. */
export function caseHoveredIn({ place }: HoverContext): string | undefined {
  return place.path.find(({ spec }) => spec?.keyword === 'case')?.statement.name?.text;
}

/** What figures of a result are shown over: the ranges of the case hovered in, else everything reachable. */
export function reachShown(context: HoverContext, result: RigResult): ShownReach | undefined {
  return shownReach(result, result.rig === context.result?.rig ? caseHoveredIn(context) : undefined);
}

/** Which limits are told of. */
export type LimitTest = (limit: ReachLimit) => boolean;

export const everyLimit: LimitTest = () => true;

/** Those whose subject names a unit: its axles, its coupling, itself, what an author requires of it. */
export function limitsOfUnit({ name }: UnitModel): LimitTest {
  return ({ limited: { subject } }) => subject.split(/[^\p{L}\p{N}_]+/u).includes(name);
}

/** Those of axle groups, and what an author requires of one of their figures. */
export function limitsOfGroups(unit: UnitModel, groups: readonly AxleGroup[]): LimitTest {
  const subjects = groups.flatMap((group) => [
    groupSubject(unit, group),
    ...axlesOf(unit, group).map(({ subject }) => subject),
  ]);
  const within = subjects.map((subject) => subject.toLowerCase());
  const figures = groups.map((group) => `${unit.name}.${group.name}.`);
  return ({ limited: { subject } }) =>
    subjects.includes(subject) ||
    within.some((each) => subject.toLowerCase() === `tyres of the ${each}`) ||
    namesFigure(subject, figures);
}

/** Those of a coupling or a hitch, and what an author requires of one of the figures of a coupling. */
export function limitsOfJoint(kind: 'Coupling' | 'Hitch', unit: UnitModel): LimitTest {
  const figures = kind === 'Coupling' ? [`${unit.name}.coupling.`] : [];
  return ({ limited: { subject } }) => subject === `${kind} of ${unit.name}` || namesFigure(subject, figures);
}

/** Whether the expression of a requirement has a computed quantity in it that starts in one of these ways. */
function namesFigure(expression: string, figures: readonly string[]): boolean {
  const names = expression.split(/[^\p{L}\p{N}_.]+/u);
  return names.some((name) => figures.some((start) => name.startsWith(start)));
}

/** The limit that is stated at a place. */
export function limitsAt({ declaration, span }: Location): LimitTest {
  return ({ limited: { location } }) =>
    location?.declaration === declaration && location.span.start === span.start && location.span.end === span.end;
}

/** As many broken limits are listed. */
const MOST_LISTED = 4;

/**
 * How limits stand beyond the named cases: which of them some reachable state breaks, with that state, and that the others
 * hold in all of them. Undefined where that says nothing new.
 */
export function reachWords(result: RigResult, test: LimitTest, system: DisplaySystem): string | undefined {
  const survey = reachSurvey(result);
  if (survey === undefined) return undefined;
  const isTold = (limit: ReachLimit) => survey.speaksOfEverything(limit) || survey.breachOf(limit) !== undefined;
  const told = survey.limits.filter((limit) => test(limit) && isTold(limit));
  const broken = told.flatMap((limit) => survey.breachOf(limit) ?? []);
  return paragraphs(
    brokenList('Broken in states that no case names:', broken, system),
    holdWords(survey, told, apartOf(result, test)),
  );
}

/** What the limits told of do not count, although it is a limit of the same thing. */
function apartOf({ rig }: RigResult, test: LimitTest): string | undefined {
  const isApart = test === everyLimit && requirementsOf(rig).some(asksForStability);
  return isApart ? 'what is required of stability apart' : undefined;
}

/** The limits that are broken within the ranges of a case; undefined where none is. */
export function rangeWords(result: RigResult, caseName: string, system: DisplaySystem): string | undefined {
  const survey = reachSurvey(result);
  const broken = survey?.limits.flatMap((limit) => survey.breachOf(limit) ?? []) ?? [];
  const own = broken.filter(({ kind, reach }) => kind === 'range' && reach.case?.name === caseName);
  return brokenList('Broken within its ranges:', own, system);
}

function brokenList(head: string, broken: readonly ReachBreach[], system: DisplaySystem): string | undefined {
  if (broken.length === 0) return undefined;
  const lines = broken.map((breach) => breachWords(breach, system));
  const more = lines.length - MOST_LISTED;
  return paragraphs(head, list(more > 0 ? [...lines.slice(0, MOST_LISTED), `and ${more} more`] : lines));
}

function holdWords(survey: ReachSurvey, told: readonly ReachLimit[], apart: string | undefined): string | undefined {
  const held = told.filter((limit) => !survey.isBrokenInCase(limit) && survey.breachOf(limit) === undefined);
  if (held.length === 0) return undefined;
  const tried = held.filter((limit) => !survey.isProvedToHold(limit)).length;
  const isBroken = told.some((limit) => survey.breachOf(limit) !== undefined);
  const inCases = told.some(survey.isBrokenInCase) ? ' that no named case breaks' : '';
  const which = `${isBroken ? 'Every other limit' : 'Every limit'}${inCases}`;
  const sampled = tried === 0 ? undefined : `${tried} of ${held.length} tried in some of them, not proved`;
  const remarks = [sampled, apart].filter((remark) => remark !== undefined).join('; ');
  return `${which} holds in every reachable state${remarks === '' ? '' : ` (${remarks})`}.`;
}

/** `Rear axle of Truck: the load 1 950 kg, **50 kg over** its rating, with fresh 0 % and waste 100 %, else as in case out`. */
function breachWords({ kind, limit, reach, worst }: ReachBreach, system: DisplaySystem): string {
  const { limited } = limit;
  return `${plain(`${limited.subject}: ${limited.quantity}`)} ${worstWords(limited, worst, system)}, ${stateWords(kind, reach, worst)}${limit.weight === 'practice' ? ' (common practice)' : ''}`;
}

function worstWords(limited: ReachLimit['limited'], worst: ReachBreach['worst'], system: DisplaySystem): string {
  const format = (value: number) => formatLimited(limited, value, system);
  const by = `**${formatDifference(limited, excessOf(limited, worst), system)} ${limited.sense === 'at most' ? 'over' : 'under'}**`;
  return `${format(worst.value)}, ${by} ${plain(limited.limitName)}`;
}

function stateWords(kind: ReachBreach['kind'], reach: ReachBreach['reach'], { witness }: ReachBreach['worst']): string {
  const tolerances = kind === 'tolerance' ? ' with the tolerances stated' : '';
  const ranges = reach.case === undefined || !reach.varies ? '' : `, within the ranges of case ${reach.case.name}`;
  return plain(`${witness.state.label}${ranges}${tolerances}`);
}

/** How the limit at a place stands in all reachable states; undefined where a named case breaks it. */
export function limitInReach(result: RigResult, location: Location, system: DisplaySystem): string | undefined {
  const survey = reachSurvey(result);
  const limits = survey?.limits.filter(limitsAt(location)) ?? [];
  if (survey === undefined || limits.length === 0) return undefined;
  for (const limit of limits) {
    if (survey.isBrokenInCase(limit)) return undefined;
    const breach = survey.breachOf(limit);
    if (breach !== undefined) {
      const { kind, reach, worst } = breach;
      return `broken ${stateWords(kind, reach, worst)}: ${worstWords(limit.limited, worst, system)}`;
    }
  }
  const ofAll = limits.every(survey.speaksOfEverything);
  if (!ofAll && !limits.some(survey.hasRanges)) return undefined;
  const states = ofAll ? 'in every reachable state' : 'at all levels that its cases state';
  return `holds ${states}${limits.every(survey.isProvedToHold) ? '' : ' that was tried'}`;
}
