import { turnedOffText } from '../../levels/turned-off.ts';
import { levelStates } from '../../rules/states.ts';
import type { Analysis, Entity, PlacedEntity, PlacedName } from '../../semantics/analysis.ts';
import type { Assumption, UnitModel } from '../../semantics/model.ts';
import type { RigResult, StateResult } from '../../semantics/state.ts';
import type { Span } from '../../syntax/tree.ts';
import type { DisplaySystem } from '../../units/display.ts';
import { list, plain } from '../markdown.ts';
import { unitsOfRig } from '../names.ts';
import type { Place } from '../nodes.ts';
import { hereOf, systemShown } from '../resolve.ts';

/** What every hover works from. */
export interface HoverContext {
  readonly analysis: Analysis;
  readonly place: Place;
  /** The declaration hovered in. */
  readonly here: PlacedName;
  /** What it comes to, where it is a rig or a unit that can be computed. */
  readonly result: RigResult | undefined;
  readonly system: DisplaySystem;
}

export function hoverContext(analysis: Analysis, place: Place): HoverContext {
  const here = hereOf(place);
  const entity = entityOf(analysis, here);
  const result = resultOf(entity);
  const system = systemShown(here.declaration, entity);
  return { analysis, place, here, result, system };
}

/** What a declaration says. */
export function entityOf(analysis: Analysis, placed: PlacedName): Entity | undefined {
  const found: PlacedEntity | undefined = analysis.entityAt(placed.uri, placed.start);
  return found?.declaration === placed.declaration ? found.entity : undefined;
}

function resultOf(entity: Entity | undefined): RigResult | undefined {
  return entity?.kind === 'rig' || entity?.kind === 'unit' ? entity.result : undefined;
}

/** A unit with the result that shows it: that of the rig hovered in, if the rig has the unit, else its own. */
export interface UnitView {
  readonly unit: UnitModel;
  readonly result: RigResult;
  /** Its declaration. */
  readonly owner: PlacedName;
}

export function unitView(context: HoverContext, owner: PlacedName): UnitView | undefined {
  const inRig = context.result?.rig.units.find(({ name }) => name === owner.name);
  if (context.result !== undefined && inRig !== undefined) return { unit: inRig, result: context.result, owner };
  const entity = entityOf(context.analysis, owner);
  return entity?.kind === 'unit' ? { unit: entity.unit, result: entity.result, owner } : undefined;
}

/** How many findings of a declaration are turned off, and why; undefined where none is. */
export function turnedOffWords(analysis: Analysis, { uri, declaration }: PlacedName): string | undefined {
  const own = analysis.turnedOff(uri).filter((off) => off.declaration === declaration);
  const text = turnedOffText(own.map(({ level }) => level));
  return text && `${plain(text)}.`;
}

/** The level states to show: of the case hovered in, else of every case. */
export function statesShown(context: HoverContext, result: RigResult): readonly StateResult[] {
  const states = levelStates(result);
  const inCase = context.place.path.find(({ spec }) => spec?.keyword === 'case')?.statement.name?.text;
  const own = states.filter((state) => state.case.name === inCase);
  return result.rig === context.result?.rig && own.length > 0 ? own : states;
}

/** More assumptions than this are counted, not listed. */
const MOST_ASSUMPTIONS = 4;

/** What figures had to be computed with because the file does not say it; in full with the basis of each. */
export function assumptionList(
  assumptions: readonly Assumption[],
  length: 'short' | 'full' = 'full',
  head = 'Assumed',
  most = MOST_ASSUMPTIONS,
): string | undefined {
  if (assumptions.length === 0) return undefined;
  // What is missing comes first, what every computation takes last.
  const rank = ({ incomplete, general }: Assumption): number => (incomplete ? 0 : general ? 2 : 1);
  const shown = [...assumptions]
    .sort((a, b) => rank(a) - rank(b))
    .slice(0, most)
    .map(({ text, basis }) => plain(length === 'full' ? `${text} — ${basis}` : text));
  const more = assumptions.length - shown.length;
  return `${head}:\n${list(more > 0 ? [...shown, `and ${more} more`] : shown)}`;
}

/** Says so where lines with errors are missing from the figures of a result. */
export function incompleteList({ assumptions }: RigResult): string | undefined {
  return assumptionList(
    assumptions.filter(({ incomplete }) => incomplete),
    'short',
  );
}

/** Lines whose figures are loads of supports, which rest on how the supports share them. */
const SUPPORT_HEADS: ReadonlySet<string> = new Set(['axles', 'wheelbase', 'coupling', 'hitch']);

/** The assumptions that the figures of a line of a unit depend on: those made about it, and for supports about statics. */
export function assumptionsOfLine(
  { rig, assumptions }: RigResult,
  { declaration }: Pick<PlacedName, 'declaration'>,
  { start, end }: Span,
  head: string,
): readonly Assumption[] {
  return assumptions.filter(
    ({ location, incomplete }) =>
      (location.declaration === declaration && location.span.start >= start && location.span.end <= end) ||
      ((incomplete || location === rig.location) && SUPPORT_HEADS.has(head)),
  );
}

/** More rigs than this are not looked at for a hover on one unit. */
const MOST_RIGS_ASKED = 16;

/** The first rigs of the workspace that have a unit; each is computed only when it is asked for. */
export function* rigsWith(analysis: Analysis, unit: PlacedName): Generator<RigResult> {
  let asked = 0;
  for (const { uri, declaration, start } of analysis.users(unit.name)) {
    const { statement } = declaration;
    if (statement?.head.text !== 'rig') continue;
    const units = unitsOfRig(analysis, uri, statement);
    if (!units.some((candidate) => candidate.declaration === unit.declaration)) continue;
    if (++asked > MOST_RIGS_ASKED) return;
    const entity = analysis.entityAt(uri, start)?.entity;
    const isOf =
      entity?.kind === 'rig' && entity.rig.units.some(({ location }) => location.declaration === unit.declaration);
    if (isOf && entity.result.states.length > 0) yield entity.result;
  }
}

/** As many rigs are listed. */
const MOST_RIGS_SHOWN = 4;

/** A line for each of the first rigs that have a unit; rigs that have nothing to say are passed over. */
export function inRigs(
  context: HoverContext,
  unit: PlacedName,
  words: (result: RigResult) => string | undefined,
): string | undefined {
  const lines: string[] = [];
  for (const result of rigsWith(context.analysis, unit)) {
    const text = words(result);
    if (text !== undefined) lines.push(`rig ${plain(result.rig.name)}: ${text}`);
    if (lines.length >= MOST_RIGS_SHOWN) break;
  }
  return lines.length > 0 ? list(lines) : undefined;
}
