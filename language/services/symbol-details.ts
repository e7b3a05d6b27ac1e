import { levelStates } from '../rules/states.ts';
import type { Entity } from '../semantics/analysis.ts';
import { weighingsOf } from '../semantics/results.ts';
import type { RigResult } from '../semantics/state.ts';
import type { Declaration, Statement } from '../syntax/tree.ts';
import { DENSITY, MASS_PER_AREA, MASS_PER_LENGTH } from '../units/dimension.ts';
import { type DisplaySystem, formatMass, formatQuantity, formatShare, formatValue } from '../units/display.ts';
import { lineDetail, loadAndReach, loadRange, reachableRange, unitDetail, withRemarks } from './details.ts';
import { greatest } from './ratings.ts';
import { shownReach } from './reach-figures.ts';
import { systemShown } from './resolve.ts';

/** The first value without a keyword as written, for what has not been computed. */
function writtenDetail({ head, block, expression, arguments: written }: Statement, text: string): string {
  if (expression !== undefined) return text.slice(expression.start, expression.end);
  if (head.text === 'reachable') return reachableDetail(block?.statements ?? [], text);
  for (const argument of written) {
    if (argument.kind === 'value' && argument.keyword === undefined) return text.slice(argument.start, argument.end);
  }
  return '';
}

/** As many lines of a block are shown. */
const MOST_LINES = 3;

/** `waste 0 % to 55 %, optional awning`: the lines of a block of reachable states, as written. */
function reachableDetail(lines: readonly Statement[], text: string): string {
  const written = lines.map(({ start, end }) => text.slice(start, end).replace(/\s+/g, ' '));
  const more = written.length - MOST_LINES;
  return (more > 0 ? [...written.slice(0, MOST_LINES), `${more} more`] : written).join(', ');
}

/** The key figure of a declaration; what is written where it cannot be computed. */
export function declarationDetail(declaration: Declaration, statement: Statement, entity: Entity | undefined): string {
  return computedDetail(declaration, entity) || writtenDetail(statement, declaration.text);
}

function computedDetail(declaration: Declaration, entity: Entity | undefined): string {
  if (entity === undefined) return '';
  const system = systemShown(declaration, entity);
  switch (entity.kind) {
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
  const mass = loadAndReach(result, 'rig.mass', system);
  const couplings = result.rig.units.flatMap(({ name }) => loadAndReach(result, `${name}.coupling.load`, system) || []);
  return [...(mass ? [mass] : []), ...couplings.map((load) => `coupling ${load}`)].join(', ');
}

/** A line of a declaration. */
export interface SymbolLine {
  /** Keyword of its head. */
  readonly head: string;
  /** Dotted for what stands in a group. */
  readonly name: string;
  readonly statement: Statement;
  /** Text of the declaration. */
  readonly text: string;
}

/** The key figure of a line; what is written where it cannot be computed. */
export function symbolDetail(line: SymbolLine, entity: Entity | undefined, system: DisplaySystem): string {
  return computedLineDetail(line, entity, system) || writtenDetail(line.statement, line.text);
}

function computedLineDetail({ head, name }: SymbolLine, entity: Entity | undefined, system: DisplaySystem): string {
  if (entity?.kind !== 'unit' && entity?.kind !== 'rig') return '';
  if (head === 'weighing') return weighingDetail(entity.result, name);
  if (head === 'case') return caseDetail(entity.result, name, system);
  return entity.kind === 'unit' ? lineDetail(head, name, entity, system) : '';
}

/** `7 readings agree`, `2 of 7 readings beyond tolerance`, `7 readings, 1 contradicts`. */
function weighingDetail({ rig }: RigResult, name: string): string {
  const slip = weighingsOf(rig).find(({ weighing }) => weighing.name === name);
  if (slip === undefined) return '';
  const count = slip.readings.length;
  if (slip.suspects.length > 0) return `${count} readings, contradictory`;
  const beyond = slip.readings.filter(({ verdict }) => verdict === 'beyond tolerance').length;
  return beyond === 0 ? `${count} readings agree` : `${beyond} of ${count} readings beyond tolerance`;
}

/** `2 645 kg, coupling 63.1 kg (12.3 %)`; where the case states ranges also between what they lie. */
function caseDetail(result: RigResult, name: string, system: DisplaySystem): string {
  const states = levelStates(result).filter((state) => state.case.name === name);
  const shown = shownReach(result, name);
  const rangeOf = (quantity: string) => reachableRange(shown, quantity, system);
  const mass = greatest(states, ['rig.mass']);
  const couplings = result.rig.units.flatMap((unit) => {
    const quantity = `${unit.name}.coupling.load`;
    const load = loadRange(states, quantity, system);
    const share = states[0]?.quantities.get(`${unit.name}.coupling.share`)?.value;
    if (load === '') return [];
    return withRemarks(`coupling ${load}`, share === undefined ? '' : formatShare(share), rangeOf(quantity));
  });
  return [...(mass ? [withRemarks(formatMass(mass.value, system), rangeOf('rig.mass'))] : []), ...couplings].join(', ');
}
