import type { MarketName } from '../catalogue/markets.ts';
import { COUPLINGS } from '../diagnostics/couplings.ts';
import type { Authority } from '../diagnostics/define.ts';
import { axleRatingToWrite, tareToWrite, tyresToWrite } from '../rules/limits/to-write.ts';
import { groupSubject, withinSentence } from '../rules/subjects.ts';
import { tyreRatingOf } from '../rules/tyre-rating.ts';
import type { AxleGroup, UnitModel } from '../semantics/model.ts';
import { DIMENSIONLESS, type Dimension, MASS, PRESSURE } from '../units/dimension.ts';

/** Where a figure of a label comes from and what gives it its force. */
export interface LabelSource {
  readonly source: string;
  readonly authority: Authority;
}

/** One figure or text of a plate or label. */
export interface LabelRow extends LabelSource {
  /** In the words of the market: `GVWR`, `cargo carrying capacity (CCC)`. */
  readonly term: string;
  /** SI; a row has a value, a text or what is missing for it. */
  readonly value?: number;
  readonly text?: string;
  readonly dimension: Dimension;
  /** What the file has to say for it: `a GVM among the limits of Truck (GVM 3000 kg)`. */
  readonly missing?: string;
}

/** A value in SI, or the line that is missing for it. */
export type Figure = number | { readonly missing: string };

/** What the plates of the makers state, as copied into the file. */
export const PLATE: LabelSource = { source: 'the maker’s plate, as stated in the file', authority: 'plate' };

export function massRow(term: string, figure: Figure, from: LabelSource): LabelRow {
  return figureRow(term, figure, MASS, from);
}

export function figureRow(term: string, figure: Figure, dimension: Dimension, from: LabelSource): LabelRow {
  const known = typeof figure === 'number' ? { value: figure } : figure;
  return { term, ...known, dimension, source: from.source, authority: from.authority };
}

export function textRow(term: string, text: string | undefined, missing: string, from: LabelSource): LabelRow {
  const known = text === undefined ? { missing } : { text };
  return { term, ...known, dimension: DIMENSIONLESS, source: from.source, authority: from.authority };
}

/** A figure, or the line that is missing where it is not stated. */
export function stated(limit: { readonly value: number } | undefined, missing: string): Figure {
  return limit?.value ?? { missing };
}

/** What a unit weighs as far as its lines say; a unit without a tare or parts weighs nothing that could be told. */
export function weighed(unit: UnitModel, mass: () => Figure): Figure {
  const isEmpty = unit.parts.every(({ body }) => body.mass === 0);
  return isEmpty ? { missing: tareToWrite(unit) } : mass();
}

/** How the label of a market speaks of axles and tyres. */
export interface AxleWords {
  readonly market: MarketName;
  /** The market's word for the rating of an axle. */
  readonly term: string;
  readonly rating: LabelSource;
  readonly tyres: LabelSource;
}

/** Rating, tyres and pressure of every axle group, from the front. */
export function axleRows(unit: UnitModel, words: AxleWords): LabelRow[] {
  return unit.groups.flatMap((group) => rowsOfGroup(unit, group, words));
}

function rowsOfGroup(unit: UnitModel, group: AxleGroup, { market, term, ...from }: AxleWords): LabelRow[] {
  const of = withinSentence(groupSubject(unit, group)).replace(` of ${unit.name}`, '');
  const { tyres, rating } = group;
  const marking = tyres && `${tyres.count} x ${tyres.marking}${tyres.dual ? ', dual' : ''}`;
  const each = tyres && tyreRatingOf({ markets: [market] }, unit, tyres);
  const derated = each !== undefined && each.capacity !== tyres?.capacity ? ', each divided by 1.10' : '';
  return [
    massRow(`${term}, ${of}`, stated(rating, axleRatingToWrite(unit, group)), from.rating),
    textRow(`tyres, ${of}`, marking, tyresToWrite('tyres', unit, group), from.tyres),
    figureRow(
      `cold inflation pressure, ${of}`,
      tyres?.pressure ?? { missing: tyresToWrite('pressure', unit, group) },
      PRESSURE,
      from.tyres,
    ),
    massRow(
      `capacity of the tyres, ${of}, together${derated}`,
      tyres === undefined || each === undefined
        ? { missing: tyresToWrite('load index', unit, group) }
        : tyres.count * each.capacity,
      {
        source: derated === '' ? TYRE_SOURCE : `${TYRE_SOURCE}; 49 CFR 571.110 S4.2.2.2`,
        authority: 'regulation',
      },
    ),
  ];
}

const { source: TYRE_SOURCE = PLATE.source } = COUPLINGS['tyre-overloaded'];
