import { findFluid } from '../../catalogue/fluids.ts';
import { isTyreMarking, parseTyreMarking } from '../../catalogue/tyres.ts';
import type { Entity } from '../../semantics/analysis.ts';
import { DENSITY, MASS_PER_AREA, MASS_PER_LENGTH, SPEED } from '../../units/dimension.ts';
import { type DisplaySystem, formatMass, formatShare, formatValue } from '../../units/display.ts';
import { bold, paragraphs, plain } from '../markdown.ts';
import { quantityWords } from './numbers.ts';
import { heading } from './rig.ts';
import { tyreWords } from './supports.ts';

/** A fluid of the built-in catalogue. */
export function builtInFluidHover(name: string, system: DisplaySystem): string | undefined {
  const fluid = findFluid(name);
  if (fluid === undefined) return undefined;
  const { density, range, source, note, maximumFill } = fluid;
  const band = range?.map((value) => formatValue(value, DENSITY, system)).join(' to ');
  return paragraphs(
    `${bold(fluid.name)} — built-in fluid: ${formatValue(density, DENSITY, system)}${band ? ` (${band})` : ''}.`,
    `Source: ${plain(source)}.`,
    note && plain(note),
    maximumFill === undefined ? undefined : `At most ${formatShare(maximumFill)} of a vessel may be liquid.`,
  );
}

/** What a `fluid`, `material`, `tyre` or `let` says. */
export function catalogueHover(
  entity: Entity,
  system: DisplaySystem,
  title: string | undefined,
  documentation: string | undefined,
): string | undefined {
  switch (entity.kind) {
    case 'fluid':
      return paragraphs(
        `${heading(entity.name, 'fluid', title)}: ${formatValue(entity.density, DENSITY, system)}`,
        documentation,
        'Source: stated in the file.',
      );
    case 'material': {
      const { massPerArea, massPerLength } = entity;
      const figures = [
        ...(massPerArea === undefined ? [] : [formatValue(massPerArea, MASS_PER_AREA, system)]),
        ...(massPerLength === undefined ? [] : [formatValue(massPerLength, MASS_PER_LENGTH, system)]),
      ];
      return paragraphs(`${heading(entity.name, 'material', title)}: ${figures.join(', ')}`, documentation);
    }
    case 'tyre':
      return paragraphs(
        heading(entity.name, 'tyre', title),
        documentation,
        markingHover(entity.tyre.marking, system) ?? tyreWords(entity.tyre, system),
      );
    case 'let':
      return paragraphs(`${bold(entity.name)}: ${quantityWords(entity.quantity)}`, documentation);
    default:
      return undefined;
  }
}

/** What a tyre's marking says: loads in single and twin fitting, speed. */
export function markingHover(text: string, system: DisplaySystem): string | undefined {
  const marking = parseTyreMarking(text);
  if (!isTyreMarking(marking)) return undefined;
  const { loadIndexSingle, loadSingle, loadIndexDual, loadDual, speedSymbol, maximumSpeed } = marking;
  const twin =
    loadIndexDual === undefined || loadDual === undefined
      ? ''
      : `, load index ${loadIndexDual} in twin fitting: ${formatMass(loadDual, system)}`;
  return paragraphs(
    `${bold(text)} — ${marking.service} tyre, ${marking.construction}`,
    `Load index ${loadIndexSingle}: ${formatMass(loadSingle, system)} a tyre${twin}. Speed symbol ${speedSymbol}: ${formatValue(maximumSpeed, SPEED, system)}.`,
    'Source: UN Regulations No. 30 and No. 54. The plate on the sidewall and the maker’s table of pressures prevail.',
  );
}
