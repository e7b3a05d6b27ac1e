import { limitedLoads } from '../../rules/limited-loads.ts';
import { levelStates } from '../../rules/states.ts';
import type { Limit, LimitName, UnitModel } from '../../semantics/model.ts';
import type { RigResult } from '../../semantics/state.ts';
import { type DisplaySystem, formatMass } from '../../units/display.ts';
import { findNamed } from '../details.ts';
import { paragraphs, plain } from '../markdown.ts';
import { wordFor } from '../markets.ts';
import type { Place } from '../nodes.ts';
import { conceptOf, greatest, marginWords } from '../ratings.ts';
import { holdsReadings, type PathStep } from '../statements.ts';
import { partHover } from './cargo.ts';
import { assumptionList, assumptionsOfLine, type HoverContext, inRigs, type UnitView, unitView } from './context.ts';
import { dragHover } from './drag.ts';
import { limitInReach } from './reach.ts';
import { optionalHover, reachableHover } from './reachable.ts';
import { requireHover } from './require.ts';
import { axlesHover, couplingHover, hitchHover } from './supports.ts';
import { readingHover } from './weighing.ts';
import { statementHover, statementNote } from './words.ts';

type LineHover = (context: HoverContext, view: UnitView, path: readonly PathStep[]) => string | undefined;

/** Lines without a name, whose head stands for what they say. */
const LINE_HOVERS: Readonly<Record<string, LineHover>> = {
  axles: axleGroupHover,
  body: (context, view) => dragHover(context, view),
  wheelbase: (context, view) => axlesHover(context, groupsNamed(view.unit, ['front', 'rear']), view),
  coupling: (context, view) => couplingHover(context, view),
  hitch: (context, view) => hitchHover(context, view),
  tare: (context, view) => fixedPart(context, view, 'tare'),
  growth: (context, view) => fixedPart(context, view, 'growth'),
};

/** Lines that speak of what is reachable. */
const STATE_HOVERS: Readonly<Record<string, (result: RigResult) => string | undefined>> = {
  reachable: reachableHover,
  optional: optionalHover,
};

function axleGroupHover(context: HoverContext, view: UnitView, path: readonly PathStep[]): string {
  return axlesHover(context, groupsNamed(view.unit, [path[1]?.statement.name?.text ?? 'axles']), view);
}

function groupsNamed(unit: UnitModel, names: readonly string[]): UnitModel['groups'] {
  return unit.groups.filter(({ name }) => names.includes(name));
}

function fixedPart(context: HoverContext, view: UnitView, name: string): string | undefined {
  const part = findNamed(view.unit.parts, name);
  return part && partHover(context, part, view);
}

/** The keyword at the head of a statement: for a line without a name what it comes to, and what the word means. */
export function headHover(context: HoverContext, place: Place): string | undefined {
  const { path } = place;
  const step = path.at(-1);
  if (step !== undefined && step.spec === undefined && holdsReadings(step.context))
    return readingHover(context, step.statement.head);
  if (step?.spec === undefined) return undefined;
  const { spec, statement, context: blockContext } = step;
  if (spec.keyword === 'require') return join(requireHover(context, statement), step);
  const ofStates = STATE_HOVERS[spec.keyword];
  if (ofStates !== undefined) return join(context.result && ofStates(context.result), step);
  const view = unitView(context, context.here);
  if (view !== undefined && blockContext === 'limits') return join(limitHover(context, view, spec.keyword), step);
  const line = path.length === 2 ? LINE_HOVERS[spec.keyword] : blockContext === 'axles' ? axleGroupHover : undefined;
  const figures = view && line?.(context, view, path);
  const assumed = view && assumptionsOfLine(view.result, context.here, statement, spec.keyword);
  return join(paragraphs(figures, figures && assumed ? assumptionList(assumed) : undefined), step);
}

function join(figures: string | undefined, { spec, statement }: PathStep): string | undefined {
  if (spec === undefined) return figures;
  return figures ? paragraphs(figures, statementNote(spec)) : statementHover(statement.head.text, spec);
}

/** A limit of a unit: what comes nearest to it, looked at alone and in the rigs that have the unit. */
function limitHover(context: HoverContext, { unit, result, owner }: UnitView, keyword: string): string | undefined {
  const { system } = context;
  const limit = isLimitName(unit, keyword) ? unit.limits[keyword] : undefined;
  if (limit === undefined) return undefined;
  const nearest = (rig: RigResult): string | undefined => nearestTo(rig, limit, keyword, system);
  const inItsRigs = inRigs(context, owner, nearest);
  return paragraphs(
    `**${keyword}** of ${plain(unit.name)}: ${formatMass(limit.value, system)}`,
    nearest(result) ?? (inItsRigs === undefined ? 'Nothing here is held against it.' : undefined),
    inItsRigs,
  );
}

/** The load that comes nearest to a limit, with its margin. */
function nearestTo(result: RigResult, limit: Limit, keyword: string, system: DisplaySystem): string | undefined {
  const limited = limitedLoads(result.rig).find((load) => load.limit === limit);
  const worst = limited && greatest(levelStates(result), limited.names);
  if (limited === undefined || worst === undefined) return undefined;
  const margin = marginWords(limit.value - worst.value, system);
  const standing = limitInReach(result, limit.location, system);
  const word = wordFor({ name: keyword, ...conceptOf(limited.key) }, result.rig);
  const held = word === keyword ? '' : ` held against the ${word}`;
  return `${plain(limited.subject)} at most ${formatMass(worst.value, system)}${held}, in ${worst.state.label}: ${margin}${standing === undefined ? '' : `; ${standing}`}.`;
}

function isLimitName(unit: UnitModel, keyword: string): keyword is LimitName {
  return Object.hasOwn(unit.limits, keyword);
}
