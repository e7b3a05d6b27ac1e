import type { MarketName } from '../../language/catalogue/markets.ts';
import { type LabelRow, labelOf } from '../../language/label/label.ts';
import type { UnitModel } from '../../language/semantics/model.ts';
import type { RigResult } from '../../language/semantics/state.ts';
import type { FoundRig } from './rigs.ts';

/** The draft of a label for one unit in one market. */
export interface FoundLabel {
  readonly unit: UnitModel;
  readonly market: MarketName;
  readonly rows: readonly LabelRow[];
  /** What lines with errors leave out of the figures. */
  readonly incomplete: readonly string[];
}

export interface LabelSelection {
  /** All units when empty. */
  readonly units: readonly string[];
  /** Those that the rigs name when empty. */
  readonly markets: readonly MarketName[];
}

/** The labels of the units of rigs, each unit once for each market, in the order of the rigs and from the front. */
export function findLabels(rigs: readonly FoundRig[], { units, markets }: LabelSelection): readonly FoundLabel[] {
  const labels = new Map<UnitModel['location']['declaration'], Map<MarketName, FoundLabel>>();
  for (const { result } of rigs) {
    for (const unit of result.rig.units) {
      if (units.length > 0 && !units.includes(unit.name)) continue;
      const { declaration } = unit.location;
      const known = labels.get(declaration) ?? new Map<MarketName, FoundLabel>();
      labels.set(declaration, known);
      for (const market of markets.length > 0 ? markets : result.rig.markets) {
        if (known.has(market)) continue;
        known.set(market, { unit, market, rows: labelOf(unit, market), incomplete: leftOut(result, unit) });
      }
    }
  }
  return [...labels.values()].flatMap((byMarket) => [...byMarket.values()]);
}

function leftOut({ assumptions }: RigResult, { location }: UnitModel): string[] {
  return assumptions
    .filter((each) => each.incomplete === true && each.location.declaration === location.declaration)
    .map(({ text }) => text);
}

/** Names of the units of rigs, each once. */
export function unitNames(rigs: readonly FoundRig[]): readonly string[] {
  return [...new Set(rigs.flatMap(({ result }) => result.rig.units.map(({ name }) => name)))];
}
