import { MARKET_TERMS, type MarketName } from '../catalogue/markets.ts';
import { EUROPEAN_UNION } from '../diagnostics/markets/european-union.ts';
import { grossToWrite, limitToWrite, outlineToWrite } from '../rules/limits/to-write.ts';
import { leastCaravanPayload } from '../rules/markets/caravan-payload.ts';
import { grossRating } from '../rules/markets/certified-weights.ts';
import { leastMotorCaravanPayload } from '../rules/markets/motor-caravan-payload.ts';
import type { UnitModel } from '../semantics/model.ts';
import { massInRunningOrder } from '../semantics/running-order.ts';
import {
  axleRows,
  type Figure,
  type LabelRow,
  type LabelSource,
  massRow,
  PLATE,
  stated,
  weighed,
} from './label-row.ts';

const RUNNING_ORDER: LabelSource = {
  source: '(EU) 1230/2012 Art. 2 (the driver of 75 kg from memory)',
  authority: 'regulation',
};

/** Plate rows of the European Union, of Germany and, in its own words, of the United Kingdom. */
export function rowsOfEurope(unit: UnitModel, market: MarketName): readonly LabelRow[] {
  const terms = MARKET_TERMS[market];
  const gross = terms[unit.kind === 'vehicle' ? 'GVM' : 'ATM']?.full ?? 'maximum laden mass';
  const load = terms['coupling load']?.full ?? 'coupling load';
  return [
    massRow(gross, stated(grossRating(unit), grossToWrite(unit)), PLATE),
    ...(unit.kind === 'vehicle'
      ? [massRow(terms.GCM?.full ?? 'GCM', stated(unit.limits.GCM, limitToWrite(unit, 'GCM')), PLATE)]
      : [massRow(load, couplingRating(unit), PLATE)]),
    ...axleRows(unit, { market, term: 'maximum mass', rating: PLATE, tyres: PLATE }),
    massRow(
      'mass in running order',
      weighed(unit, () => massInRunningOrder(unit)),
      RUNNING_ORDER,
    ),
    massRow('user payload: maximum laden mass less mass in running order', payload(unit), RUNNING_ORDER),
    ...leastPayload(unit),
  ];
}

function couplingRating(unit: UnitModel): Figure {
  const { limits, coupling } = unit;
  return stated(limits.coupling ?? coupling?.rating, limitToWrite(unit, 'coupling'));
}

function payload(unit: UnitModel): Figure {
  const gross = grossRating(unit);
  if (gross === undefined) return { missing: grossToWrite(unit) };
  return weighed(unit, () => gross.value - massInRunningOrder(unit));
}

/** What a unit with berths has to leave at least. */
function leastPayload(unit: UnitModel): LabelRow[] {
  const { kind, berths, body, seats } = unit;
  if (berths === undefined) return [];
  const isVehicle = kind === 'vehicle';
  const { source = PLATE.source, authority = PLATE.authority } =
    EUROPEAN_UNION[isVehicle ? 'motor-caravan-payload' : 'caravan-payload'];
  const length = body && body.front - body.rear;
  const figure: Figure =
    length === undefined
      ? { missing: outlineToWrite(unit) }
      : isVehicle
        ? leastMotorCaravanPayload(seats.length, length)
        : leastCaravanPayload(berths, length);
  return [massRow('least payload asked for', figure, { source, authority })];
}
