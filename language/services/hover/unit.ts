import { findFluid } from '../../catalogue/fluids.ts';
import type { Entity, PlacedName } from '../../semantics/analysis.ts';
import type { RigModel, Tank, UnitModel } from '../../semantics/model.ts';
import type { RigResult, SourceKind, StateResult } from '../../semantics/state.ts';
import { LENGTH } from '../../units/dimension.ts';
import { type DisplaySystem, formatMass, formatValue } from '../../units/display.ts';
import { massOf } from '../contributions.ts';
import { isBelow, lineDetail, unitDetail } from '../details.ts';
import { code, list, paragraphs } from '../markdown.ts';
import { wordFor } from '../markets.ts';
import { originals, pathText } from '../names.ts';
import { payloadFigure, quantityRow, RATING_HEADS, ratedFigures, ratedRow } from '../ratings.ts';
import { reachTable } from '../reach-figures.ts';
import { canonicalHead } from '../statements.ts';
import type { Row } from '../tables.ts';
import {
  assumptionList,
  entityOf,
  type HoverContext,
  inRigs,
  statesShown,
  turnedOffWords,
  type UnitView,
} from './context.ts';
import { limitsOfUnit, reachShown, reachWords } from './reach.ts';
import { heading, NOT_COMPUTED } from './rig.ts';
import { unitStability } from './stability-in-rigs.ts';

/** Kinds of sources that make up the empty unit. */
const TARE_KINDS: ReadonlySet<SourceKind> = new Set(['tare', 'fitting', 'panel', 'member', 'growth']);

/** A vehicle or a trailer: masses, centre of gravity, inertia, loads and margins in each case. */
export function unitHover(context: HoverContext, owner: PlacedName, view: UnitView): string {
  const { system } = context;
  const { unit, result } = view;
  const states = statesShown(context, result);
  const where = result.rig.standalone ? '' : ` in rig ${result.rig.name}`;
  return paragraphs(
    heading(unit.name, `${unit.kind}${where}`, unit.title),
    unit.documentation,
    states.length === 0
      ? NOT_COMPUTED
      : reachTable(
          reachShown(context, result),
          states,
          unitRows(unit, result, states, system),
          RATING_HEADS,
          system,
          'on level road',
        ),
    reachWords(result, limitsOfUnit(unit), system),
    rollUp(unit),
    result.rig.standalone
      ? inRigs(context, owner, (rig) => unitDetail(unit.name, rig, system) || undefined)
      : undefined,
    variantWords(context, owner, unit),
    unitStability(context, view),
    assumptionList(unit.assumptions),
    result.rig.standalone ? turnedOffWords(context.analysis, owner) : undefined,
  );
}

function unitRows(unit: UnitModel, result: RigResult, states: readonly StateResult[], system: DisplaySystem): Row[] {
  const rated = ratedFigures(result.rig)
    .filter((figure) => figure.unit === unit.name)
    .map((figure) => ratedRow(figure, states, system));
  const name = (last: string): string => `${unit.name}.${last}`;
  const massRow = unit.kind === 'vehicle' ? [quantityRow(name('mass'), 'mass', system)] : [];
  return [
    {
      label: tareWords(unit, result.rig),
      value: (state) => massOf(state, (source) => TARE_KINDS.has(source.kind) && isBelow(source.name, unit.name)),
      format: (mass) => formatMass(mass, system),
    },
    ...runningOrderRow(unit, result.rig, system),
    ratedRow(payloadFigure(result.rig, unit), states, system),
    ...massRow,
    ...rated,
    directedRow(name('cg.back'), 'CG along', ['back', 'ahead'], system),
    directedRow(name('cg.left'), 'CG across', ['left', 'right'], system),
    quantityRow(name('cg.up'), 'CG height', system),
    quantityRow(name('yaw_inertia'), 'yaw inertia', system),
  ];
}

/** Markets whose word for the empty unit counts what is in some of its tanks, which the tare of a file does not. */
const COUNTS_TANKS: ReadonlySet<string> = new Set(['unloaded vehicle weight']);

/** What the tare is called: a market's word only where it comes to the same, and the file does not state that figure itself. */
function tareWords(unit: UnitModel, rig: RigModel): string {
  const word = wordFor({ name: 'tare', concept: 'tare' }, rig);
  const countsTanks = COUNTS_TANKS.has(word) && (unit.limits.UVW !== undefined || unit.tanks.some(isForRunning));
  if (word === RUNNING_ORDER || countsTanks) return 'tare';
  return word;
}

/** Tanks of what a unit drives or cooks with: full in the unloaded weight of 49 CFR 571.3 and 571.110. */
function isForRunning({ fluid }: Tank): boolean {
  const known = findFluid(fluid.name);
  return known?.drives === true || known?.name === 'LPG';
}

const RUNNING_ORDER = 'mass in running order';

/** Where the markets speak of the mass in running order, which is more than the tare of a vehicle. */
function runningOrderRow(unit: UnitModel, rig: RigModel, system: DisplaySystem): Row[] {
  if (wordFor({ name: 'tare', concept: 'tare' }, rig) !== RUNNING_ORDER) return [];
  return [quantityRow(`${unit.name}.mass_in_running_order`, RUNNING_ORDER, system)];
}

/** A coordinate whose sign is said in words. */
function directedRow(quantity: string, label: string, words: readonly [string, string], system: DisplaySystem): Row {
  return {
    label,
    quantities: [quantity],
    value: (state) => state.quantities.get(quantity)?.value,
    format: (value) => {
      const text = formatValue(Math.abs(value), LENGTH, system);
      return text.startsWith('0 ') ? text : `${text} ${value < 0 ? words[1] : words[0]}`;
    },
  };
}

/** Says so where the tare is the sum of listed parts. */
function rollUp(unit: UnitModel): string | undefined {
  if (unit.parts.some(({ kind }) => kind === 'tare')) return undefined;
  const parts = unit.parts.filter(({ kind }) => kind !== 'tare' && kind !== 'growth');
  return parts.length > 0
    ? `The tare is rolled up from ${parts.length} part${parts.length > 1 ? 's' : ''}.`
    : undefined;
}

/** More changed lines than this are counted, not listed. */
const MOST_CHANGES = 8;

/** What a variant changes in its original: its own lines, each with what it was and what it became. */
function variantWords(context: HoverContext, owner: PlacedName, unit: UnitModel): string | undefined {
  const [own, original] = originals(context.analysis, owner);
  if (unit.variantOf === undefined || own === undefined || original === undefined) return undefined;
  const [after, before] = [own, original].map((placed) => entityOf(context.analysis, placed));
  const detail = (entity: Entity | undefined, head: string, name: string): string =>
    entity?.kind === 'unit' ? lineDetail(head, name, entity, context.system) : '';
  const changes = (own.declaration.statement?.block?.statements ?? []).flatMap(({ head, name, objects }) => {
    const keyword = canonicalHead(head.text);
    if (keyword === 'without')
      return [code(`without ${objects.map(({ reference }) => pathText(reference)).join(', ')}`)];
    const [was, is] = [before, after].map((entity) => detail(entity, keyword, name?.text ?? keyword));
    const line = code(name ? `${keyword} ${name.text}` : keyword);
    return [is ? `${line}: ${was && was !== is ? `${was} → ` : ''}${is}` : line];
  });
  const more = changes.length - MOST_CHANGES;
  return paragraphs(
    `A variant of ${code(unit.variantOf)}${changes.length > 0 ? '; what is different:' : '.'}`,
    list(more > 0 ? [...changes.slice(0, MOST_CHANGES), `and ${more} more`] : changes),
  );
}
