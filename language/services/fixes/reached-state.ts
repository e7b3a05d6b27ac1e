import { casesOf, type Reach } from '../../semantics/envelope/reach.ts';
import { reachableLevels } from '../../semantics/envelope/reachable-levels.ts';
import type { Witness } from '../../semantics/envelope/witness.ts';
import { stateWith, unitsWith } from '../../semantics/evaluate.ts';
import type { CaseModel, LevelRange, RigModel, Tank, UnitModel } from '../../semantics/model.ts';
import { levelOf, sourcesOf } from '../../semantics/sources.ts';
import { specOf } from '../../semantics/specs.ts';
import type { RigResult, StateResult } from '../../semantics/state.ts';
import type { Declaration } from '../../syntax/tree.ts';
import { statementOf } from './fix.ts';

/** Digits behind the point of a percentage, at most. */
const MOST_DECIMALS = 6;

/** A state that something is wrong with. */
export interface ReachedState {
  /** What it is among. */
  readonly reach: Reach;
  readonly witness: Witness;
  /** Whether the same is wrong with another. */
  readonly isFaulty: (state: StateResult) => boolean;
}

/**
 * The state with levels as round as they can be written: each still within reach, and the same still wrong with it. Undefined
 * where no such levels are found.
 */
export function roundedState(result: RigResult, { reach, witness, isFaulty }: ReachedState): CaseModel | undefined {
  const found = witness.state.case;
  for (let decimals = 0; decimals <= MOST_DECIMALS; decimals++) {
    const levels = roundedLevels(result, reach, found, decimals);
    const state = levels && stateOf(result, { ...found, levels });
    if (state !== undefined && isFaulty(state)) return state.case;
  }
  return undefined;
}

/** A rig in a case of one's own, standing on level ground. */
export function stateOf({ rig, motions }: RigResult, state: CaseModel): StateResult | undefined {
  const [level] = motions;
  const sources = sourcesOf(rig, state);
  return level && stateWith(rig, level, state, sources, unitsWith(rig, sources), state.name);
}

/** Undefined where a tank has no level of so many decimals within reach. */
function roundedLevels(
  result: RigResult,
  reach: Reach,
  found: CaseModel,
  decimals: number,
): ReadonlyMap<string, LevelRange> | undefined {
  const { rig } = result;
  const levels = new Map<string, LevelRange>();
  for (const unit of rig.units) {
    for (const tank of unit.tanks) {
      const bounds = reach.case ? levelOf(unit, tank, reach.case) : reachableLevels(rig, unit, tank, casesOf(result));
      const value = roundWithin(levelOf(unit, tank, found).value, bounds, decimals);
      if (value === undefined) return undefined;
      levels.set(`${unit.name}.${tank.name}`, { value, least: value, most: value, location: found.location });
    }
  }
  return levels;
}

/** The nearest share of so many decimals in per cent that is within the bounds. */
function roundWithin(
  value: number,
  { least, most }: { readonly least: number; readonly most: number },
  decimals: number,
): number | undefined {
  const step = 10 ** (decimals + 2);
  const near = Math.round(value * step);
  // A bound is met exactly: 0.55 is not 55.000000000000007 hundredths too many.
  const isWithin = (share: number) => share >= least - 1e-12 && share <= most + 1e-12;
  return [near, near - 1, near + 1].map((steps) => steps / step).find(isWithin);
}

/** A level as the language writes it: `12.5 %`. */
export function levelText(share: number): string {
  return `${Number((share * 100).toFixed(MOST_DECIMALS))} %`;
}

/** The name of a tank in a block of levels: with its unit where another tank of the rig has the same. */
export function tankName({ units }: RigModel, unit: UnitModel, tank: Tank): string {
  const alike = units.flatMap(({ tanks }) => tanks).filter(({ name }) => name === tank.name);
  const isWord = specOf('case', tank.name) !== undefined || specOf('reachable', tank.name) !== undefined;
  return alike.length === 1 && !isWord ? tank.name : `${unit.name}.${tank.name}`;
}

/** Columns that lines of levels fill. */
const WIDTH = 96;

/**
 * The lines of a case, without indent: the levels of all tanks, and who and what is on board where that is other than in the
 * rig's own lines. Undefined where the language has no words for it: nobody in the seats of a rig that has somebody in them, or
 * things that another declaration stows.
 */
export function caseLines(rig: RigModel, state: CaseModel): readonly string[] | undefined {
  const occupants = occupantLine(rig, state);
  const stowed = stowLines(rig, state);
  if (occupants === undefined || stowed === undefined) return undefined;
  const { absent } = state;
  return [
    ...levelLines(rig, state),
    ...occupants,
    ...(absent.size > 0 ? [`absent ${[...absent].join(', ')}`] : []),
    ...stowed,
  ];
}

function levelLines(rig: RigModel, state: CaseModel): readonly string[] {
  const lines: string[] = [];
  for (const unit of rig.units) {
    for (const tank of unit.tanks) {
      const entry = `${tankName(rig, unit, tank)} ${levelText(levelOf(unit, tank, state).value)}`;
      const last = lines.at(-1);
      if (last !== undefined && last.length + entry.length < WIDTH) lines[lines.length - 1] = `${last}  ${entry}`;
      else lines.push(entry);
    }
  }
  return lines;
}

function occupantLine(rig: RigModel, { occupants = rig.occupants }: CaseModel): readonly string[] | undefined {
  const own = new Set(rig.occupants);
  if (own.size === new Set(occupants).size && occupants.every((seat) => own.has(seat))) return [];
  if (occupants.length === 0) return undefined;
  const seats = rig.units.flatMap((unit) => unit.seats.map(({ name }) => name));
  const short = occupants.map((full) => {
    const name = full.slice(full.indexOf('.') + 1);
    return seats.filter((seat) => seat === name).length === 1 ? name : full;
  });
  return [`occupants ${short.join(', ')}`];
}

/** What the state stows beside the rig's own lines, each line of the text once with what of it is on board. */
function stowLines({ location: { declaration } }: RigModel, { stowed }: CaseModel): readonly string[] | undefined {
  const byStatement = new Map<string, string[]>();
  for (const { location } of stowed) {
    const written = location.declaration === declaration ? stowedText(declaration, location.span) : undefined;
    if (written === undefined) return undefined;
    byStatement.set(written.place, [...(byStatement.get(written.place) ?? []), written.thing]);
  }
  return [...byStatement].map(([place, things]) => `stow ${things.join(', ')}${place}`);
}

function stowedText(declaration: Declaration, span: { readonly start: number; readonly end: number }) {
  const statement = statementOf(declaration, span);
  const last = statement?.objects.at(-1);
  const object = statement?.objects.find(({ start, end }) => start <= span.start && span.end <= end);
  if (statement?.head.text !== 'stow' || statement.broken || last === undefined || object === undefined) {
    return undefined;
  }
  const { text } = declaration;
  const written = (start: number, end: number) => text.slice(start, end).replace(/\s+/g, ' ');
  return { thing: written(object.start, object.end), place: written(last.end, statement.end) };
}
