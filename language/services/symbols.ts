import { levelStates } from '../rules/states.ts';
import type { Analysis, Entity, PlacedEntity } from '../semantics/analysis.ts';
import type { RigResult } from '../semantics/state.ts';
import type { Statement } from '../syntax/tree.ts';
import { DENSITY, MASS_PER_AREA, MASS_PER_LENGTH } from '../units/dimension.ts';
import { type DisplaySystem, formatMass, formatQuantity, formatShare, formatValue } from '../units/display.ts';
import { lineDetail, loadRange, unitDetail } from './details.ts';
import { systemOf } from './figures.ts';
import { greatest } from './ratings.ts';
import { canonicalHead } from './statements.ts';

/** A declaration or a line of one. Ranges are absolute; the name's lies inside the symbol's. */
export interface SymbolEntry {
  readonly name: string;
  /** The key figure: a mass, a volume, loads. */
  readonly detail: string;
  /** The keyword of its statement: `trailer`, `tank`. */
  readonly kind: string;
  readonly start: number;
  readonly end: number;
  readonly nameStart: number;
  readonly nameEnd: number;
  readonly children: readonly SymbolEntry[];
}

/** Lines without a name that are worth finding. */
const LISTED_HEADS: ReadonlySet<string> = new Set(['axles', 'coupling', 'hitch', 'wheelbase', 'tare', 'limits']);

/** The declarations of a document with what is in them, in text order; also of broken text. */
export function documentSymbols(analysis: Analysis, uri: string): readonly SymbolEntry[] {
  return analysis.entities(uri).flatMap((placed) => {
    const { statement, text } = placed.declaration;
    if (statement === undefined || (statement.name === undefined && statement.block === undefined)) return [];
    const detail = detailOf(placed) || writtenDetail(statement, text);
    return symbolOf(statement, text, placed.start, detail, childrenOf(placed, statement));
  });
}

function symbolOf(
  statement: Statement,
  text: string,
  offset: number,
  detail: string,
  children: readonly SymbolEntry[],
): SymbolEntry {
  const name = statement.name ?? statement.head;
  return {
    name: text.slice(name.start, name.end),
    detail,
    kind: canonicalHead(statement.head.text),
    start: offset + statement.start,
    end: offset + Math.max(statement.end, name.end),
    nameStart: offset + name.start,
    nameEnd: offset + name.end,
    children,
  };
}

/** The lines of a declaration that have a name or a place of their own. */
function childrenOf({ declaration, start, entity }: PlacedEntity, parent: Statement, prefix = ''): SymbolEntry[] {
  const system = systemOf(declaration);
  return (parent.block?.statements ?? []).flatMap((statement) => {
    const head = canonicalHead(statement.head.text);
    if (statement.subject || (statement.name === undefined && !LISTED_HEADS.has(head))) return [];
    const name = prefix + (statement.name?.text ?? head);
    const inner =
      head === 'group' ? childrenOf({ declaration, start, ...(entity ? { entity } : {}) }, statement, `${name}.`) : [];
    const detail = detailOfLine(head, name, entity, system) || writtenDetail(statement, declaration.text);
    return symbolOf(statement, declaration.text, start, detail, inner);
  });
}

/** The first value without a keyword as written, for what has not been computed. */
function writtenDetail({ expression, arguments: written }: Statement, text: string): string {
  if (expression !== undefined) return text.slice(expression.start, expression.end);
  for (const argument of written) {
    if (argument.kind === 'value' && argument.keyword === undefined) return text.slice(argument.start, argument.end);
  }
  return '';
}

/** The key figure of a declaration. */
function detailOf({ declaration, entity }: PlacedEntity): string {
  const markets = entity?.kind === 'rig' ? entity.rig.markets : [];
  const system = systemOf(declaration, markets);
  switch (entity?.kind) {
    case 'unit':
      return unitDetail(entity.unit.name, entity.result, system);
    case 'rig':
      return rigDetail(entity.result, system);
    case 'item':
      return formatMass(entity.item.mass, system);
    case 'fluid':
      return formatValue(entity.density, DENSITY, system);
    case 'material':
      return entity.massPerArea === undefined
        ? formatValue(entity.massPerLength ?? Number.NaN, MASS_PER_LENGTH, system)
        : formatValue(entity.massPerArea, MASS_PER_AREA, system);
    case 'tyre':
      return entity.tyre.marking;
    case 'let':
      return formatQuantity(entity.quantity);
    default:
      return '';
  }
}

function rigDetail(result: RigResult, system: DisplaySystem): string {
  const states = levelStates(result);
  const mass = loadRange(states, 'rig.mass', system);
  const couplings = result.rig.units.flatMap(({ name }) => loadRange(states, `${name}.coupling.load`, system) || []);
  return [...(mass ? [mass] : []), ...couplings.map((load) => `coupling ${load}`)].join(', ');
}

/** The key figure of a line. */
function detailOfLine(head: string, name: string, entity: Entity | undefined, system: DisplaySystem): string {
  const result = entity?.kind === 'unit' || entity?.kind === 'rig' ? entity.result : undefined;
  if (result !== undefined && head === 'case') return caseDetail(result, name, system);
  return entity?.kind === 'unit' ? lineDetail(head, name, entity, system) : '';
}

function caseDetail(result: RigResult, name: string, system: DisplaySystem): string {
  const states = levelStates(result).filter((state) => state.case.name === name);
  const mass = greatest(states, ['rig.mass']);
  const couplings = result.rig.units.flatMap((unit) => loadRange(states, `${unit.name}.coupling.load`, system) || []);
  const shares = result.rig.units.flatMap((unit) => {
    const share = states[0]?.quantities.get(`${unit.name}.coupling.share`)?.value;
    return share === undefined ? [] : formatShare(share);
  });
  const loads = couplings.map((load, index) => `coupling ${load}${shares[index] ? ` (${shares[index]})` : ''}`);
  return [...(mass ? [formatMass(mass.value, system)] : []), ...loads].join(', ');
}
