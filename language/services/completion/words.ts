import { type Context, DIRECTIONS, FLAGS, RELATIONS, STATEMENTS, type StatementSpec } from '../../syntax/vocabulary.ts';
import { baseUnits, type Dimension, dimensionName } from '../../units/dimension.ts';
import { type DisplaySystem, displayUnit, formatNumber } from '../../units/display.ts';
import { type UnitDefinition, unitsOf } from '../../units/units.ts';
import { kindWords, wordDocumentation } from '../hover/words.ts';
import { fence } from '../markdown.ts';
import { argumentSpec } from '../statements.ts';
import type { Proposal } from './entry.ts';

/** The statements that may stand in a block and fit. */
export function statementProposals(
  contexts: readonly Context[],
  fits: (spec: StatementSpec) => boolean = () => true,
): readonly Proposal[] {
  const specs = STATEMENTS.filter((spec) => spec.contexts.some((context) => contexts.includes(context)) && fits(spec));
  return [
    ...specs.map((spec) => statementProposal(spec.keyword, spec)),
    ...specs.flatMap((spec) => (spec.synonyms ?? []).map((synonym) => statementProposal(synonym, spec))),
  ];
}

function statementProposal(label: string, spec: StatementSpec): Proposal {
  const detail = label === spec.keyword ? takesWords(spec) : `read as ${spec.keyword}`;
  return { label, kind: 'keyword', detail, documentation: `${spec.documentation}\n\n${fence(spec.example)}` };
}

function takesWords({ value = [], lists, block }: StatementSpec): string {
  if (lists !== undefined) return lists === 'stowage' ? 'names' : `${lists} names`;
  if (value.length > 0) return value.map((kind) => kindWords(kind)).join(' or ');
  return block === undefined ? 'statement' : 'block';
}

/** Arguments that fit a statement and are not used in it yet; `from` may be used for each direction. */
export function argumentProposals(spec: StatementSpec, used: ReadonlySet<string>): readonly Proposal[] {
  return (spec.arguments ?? [])
    .filter((keyword) => keyword === 'from' || !used.has(keyword))
    .map((label) => {
      const { quantity, names, documentation = '' } = argumentSpec(label) ?? {};
      const detail = quantity?.map((kind) => kindWords(kind)).join(' or ') ?? (names ? 'names' : 'text');
      return { label, kind: 'keyword', detail, documentation };
    });
}

/** Flags of the groups of which the statement has none yet. */
export function flagProposals(spec: StatementSpec, used: ReadonlySet<string>): readonly Proposal[] {
  const proposals = (spec.flags ?? []).flatMap((group): Proposal[] => {
    const flags = Object.entries(FLAGS[group]).filter(([flag]) => spec.unfit?.includes(flag) !== true);
    if (flags.some(([flag]) => used.has(flag))) return [];
    return flags.map(([label, documentation]) => ({ label, kind: 'flag', detail: group, documentation }));
  });
  if (spec.keyword !== 'locker' || used.has('left') || used.has('right')) return proposals;
  const sides = ['left', 'right'].map(
    (label): Proposal => ({
      label,
      kind: 'flag',
      detail: 'side',
      documentation: `Against the ${label} side wall of the body.`,
    }),
  );
  return [...proposals, ...sides];
}

/** Directions behind a length; those already given for an axis come last. */
export function directionProposals(used: ReadonlySet<string>): readonly Proposal[] {
  const directions = [...Object.entries(DIRECTIONS), ...Object.entries(RELATIONS).filter(([word]) => word !== 'on')];
  const usedAxes = new Set(directions.filter(([word]) => used.has(word)).map(([, step]) => step.slice(1)));
  const proposals = directions.map(([label, step]) => ({ proposal: wordProposal(label), axis: step.slice(1) }));
  return [
    ...proposals.filter(({ axis }) => !usedAxes.has(axis)),
    ...proposals.filter(({ axis }) => usedAxes.has(axis)),
  ].map(({ proposal }) => proposal);
}

/** A word of place or of the grammar. */
export function wordProposal(label: string): Proposal {
  const documentation = wordDocumentation(label);
  const kind = label in DIRECTIONS || label in RELATIONS ? 'direction' : 'keyword';
  return { label, kind, detail: kind, ...(documentation ? { documentation } : {}) };
}

/** Units of some dimensions, the system's own first. */
export function unitProposals(
  dimensions: readonly Dimension[],
  system: DisplaySystem,
  apart: boolean,
): readonly Proposal[] {
  return dimensions.flatMap((dimension) => {
    const units = unitsOf(dimension);
    const own = displayUnit(dimension, system);
    return [...units.filter(({ symbol }) => symbol === own), ...units.filter(({ symbol }) => symbol !== own)].map(
      (unit) => unitProposal(unit, apart),
    );
  });
}

function unitProposal({ symbol, factor, dimension, source }: UnitDefinition, apart: boolean): Proposal {
  const base = baseUnits(dimension);
  const detail = `${dimensionName(dimension)}, ${formatNumber(factor, 9)} ${base}`.trimEnd();
  return {
    label: symbol,
    kind: 'measure-unit',
    detail,
    documentation: `Source of the factor: ${source}.`,
    ...(apart ? {} : { insertText: ` ${symbol}` }),
  };
}
