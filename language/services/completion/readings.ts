import type { UnitModel } from '../../semantics/model.ts';
import { weighables, weighablesRaised } from '../../semantics/weighing/reading-names.ts';
import type { CompletionKind, Proposal } from './entry.ts';
import type { NameScope } from './names.ts';

/** What a slip may give a reading of at the caret: of the units that stand on the scale there. */
export function readingProposals(scope: NameScope): readonly Proposal[] {
  const units = weighedUnits(scope);
  const pass = scope.caret.blocks.at(-1);
  const named = pass?.context === 'weighing' ? pass.statement.objects[0]?.reference.path[0]?.text : undefined;
  const alone = units.find(({ name }) => name === named) ?? (named === undefined ? undefined : units[0]);
  const isRaised = pass?.spec?.keyword === 'raised';
  const known = alone === undefined ? weighables(units) : isRaised ? weighablesRaised(alone) : weighables([alone]);
  const isUnique = (short: string) => known.filter((each) => each.short === short).length === 1;
  const proposals = known.flatMap(({ name, short, quantity }): readonly Proposal[] => {
    const proposal = { kind: kindOf(quantity), detail: `reading of ${quantity}` };
    const full = { label: name, ...proposal };
    return short !== undefined && isUnique(short) ? [{ label: short, ...proposal }, full] : [full];
  });
  return proposals.sort((a, b) => a.label.split('.').length - b.label.split('.').length);
}

/** What a `solo` or `raised` line may name: the units of the rig, and for `raised` their ends. */
export function endProposals(scope: NameScope): readonly Proposal[] {
  const isRaised = scope.caret.step?.spec?.keyword === 'raised';
  return weighedUnits(scope).flatMap((unit): readonly Proposal[] => {
    const whole: Proposal = { label: unit.name, kind: unit.kind, detail: unit.title ?? unit.kind };
    if (!isRaised) return [whole];
    const ends = [...(unit.coupling === undefined ? [] : ['coupling']), ...unit.groups.map(({ name }) => name)];
    return ends.map((end) => ({
      label: `${unit.name}.${end}`,
      kind: end === 'coupling' ? 'coupling' : 'axles',
      detail: `end of ${unit.name}`,
    }));
  });
}

function kindOf(quantity: string): CompletionKind {
  if (quantity.endsWith('.coupling.load')) return 'coupling';
  return quantity.endsWith('.mass') || quantity.endsWith('.axles_total') ? 'trailer' : 'axles';
}

/** The units of the rig, or the unit, that the caret is in, as far as they can be read. */
function weighedUnits({ analysis, here }: NameScope): readonly UnitModel[] {
  const entity = analysis.entityAt(here.uri, here.start)?.entity;
  if (entity?.kind === 'rig') return entity.rig.units;
  return entity?.kind === 'unit' ? [entity.unit] : [];
}
