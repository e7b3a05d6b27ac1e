import { brokenIn } from '../../rules/reach/breach.ts';
import { type ReachBreach, reachBreaches, reachesOf } from '../../rules/reach/check-reach.ts';
import type { Analysis } from '../../semantics/analysis.ts';
import { casesOf, wholeReach } from '../../semantics/envelope/reach.ts';
import { reachableLevels } from '../../semantics/envelope/reachable-levels.ts';
import type { RigModel, Tank, UnitModel } from '../../semantics/model.ts';
import { levelOf } from '../../semantics/sources.ts';
import type { RigResult } from '../../semantics/state.ts';
import type { Statement } from '../../syntax/tree.ts';
import { editOf, type FixEdit, type Fixer, indentAt, indentStep } from './fix.ts';
import { breachAt, insertion } from './reached-case.ts';
import { levelText, tankName } from './reached-state.ts';

/**
 * States the levels of one tank as reachable with which the limit of a finding holds, and every other limit that reachable
 * states break; nothing where no tank does it alone, where several would, or where every case would have to stay out.
 */
export const stateReachable: Fixer = (analysis, uri, diagnostic) => {
  const found = breachAt(analysis, uri, diagnostic);
  if (found === undefined || found.breach.kind !== 'reach') return [];
  const { result, breach } = found;
  const tanks = result.rig.units.flatMap((unit) => unit.tanks.map((tank) => ({ unit, tank })));
  const ranges = tanks.flatMap(({ unit, tank }) => holdingRange(result, breach, unit, tank) ?? []);
  const [range] = ranges;
  if (range === undefined || ranges.length > 1) return [];
  const line = `${tankName(result.rig, range.unit, range.tank)} ${levelText(range.least)} to ${levelText(range.most)}`;
  const edit = stated(analysis, result.rig, range, line);
  return edit === undefined
    ? []
    : [
        {
          title: `State what is reachable: ${line}; the limit then holds, if the rig is never driven otherwise`,
          edits: [edit],
          diagnostic,
        },
      ];
};

/** Levels from one to another, as shares. */
export interface Range {
  readonly least: number;
  readonly most: number;
}

interface TankRange extends Range {
  readonly unit: UnitModel;
  readonly tank: Tank;
}

/** The widest levels, cut at one end in whole per cent, that hold what is broken; they hold the levels of all cases. */
function holdingRange(result: RigResult, breach: ReachBreach, unit: UnitModel, tank: Tank): TankRange | undefined {
  const cases = casesOf(result);
  const now = reachableLevels(result.rig, unit, tank, cases);
  const levels = cases.map((state) => levelOf(unit, tank, state));
  const least = Math.max(now.least, Math.min(...levels.map((level) => level.least)));
  const most = Math.min(now.most, Math.max(...levels.map((level) => level.most)));
  if (least > most) return undefined;
  const found = cutRange(now, { least, most }, (range) => holdsIn(result, breach, unit, tank, range));
  return found && { ...found, unit, tank };
}

/**
 * The widest range that holds and ends at one end as it is now, at the other at a whole per cent: at most as far as `most` of
 * `furthest` from above, or `least` of it from below. Undefined where no range does, or only a single level.
 */
export function cutRange(now: Range, furthest: Range, holds: (range: Range) => boolean): Range | undefined {
  const fromAbove = (most: number): Range => ({ least: now.least, most });
  const fromBelow = (least: number): Range => ({ least, most: now.most });
  const found =
    cutAt(now.most, furthest.most, (end) => holds(fromAbove(end)), fromAbove) ??
    cutAt(now.least, furthest.least, (end) => holds(fromBelow(end)), fromBelow);
  return found && found.least < found.most ? found : undefined;
}

/** The end nearest to `from`, on the way to `to`, with which it holds; undefined where even `to` does not. */
function cutAt(
  from: number,
  to: number,
  holds: (end: number) => boolean,
  rangeWith: (end: number) => Range,
): Range | undefined {
  if (from === to || !holds(to)) return undefined;
  // Whole per cents between the ends, the one nearest to `to` first; what is within something that holds, holds.
  const sign = Math.sign(from - to);
  const start = sign > 0 ? Math.ceil(to * 100) : Math.floor(to * 100);
  let [good, bad] = [0, Math.floor(Math.abs(from * 100 - start)) + 1];
  if (!holds((start + sign * good) / 100)) return rangeWith(to);
  while (bad - good > 1) {
    const middle = Math.floor((good + bad) / 2);
    if (holds((start + sign * middle) / 100)) good = middle;
    else bad = middle;
  }
  return rangeWith((start + sign * good) / 100);
}

function holdsIn(result: RigResult, breach: ReachBreach, unit: UnitModel, tank: Tank, range: Range): boolean {
  const reaches = reachesOf(result);
  if (reaches === undefined) return false;
  const { rig } = result;
  const { reachable } = rig;
  const level = { ...range, value: range.least, location: tank.location };
  const narrowed: RigModel = {
    ...rig,
    reachable: {
      levelsInError: reachable?.levelsInError ?? new Set(),
      seats: reachable?.seats ?? new Set(),
      items: reachable?.items ?? new Set(),
      location: reachable?.location ?? rig.location,
      levels: new Map([...(reachable?.levels ?? []), [`${unit.name}.${tank.name}`, level]]),
    },
  };
  const reach = wholeReach({ ...result, rig: narrowed });
  // What holds now holds in less.
  const broken = reachBreaches(result).filter(
    (each) => each === breach || (each.kind === 'reach' && each.limit.weight === 'limit'),
  );
  return broken.every(
    ({ limit: { limited } }) => brokenIn(limited, reach, reach.free, reaches.bases, reaches.loads) === undefined,
  );
}

/** In the block of reachable states, in place of what it says of the tank; a block is added where there is none. */
function stated(analysis: Analysis, rig: RigModel, { unit, tank }: TankRange, line: string): FixEdit | undefined {
  const { declaration } = rig.location;
  const { text, statement: top } = declaration;
  // A block of the original would no longer hold for a variant that has its own.
  if (rig.reachable !== undefined && rig.reachable.location.declaration !== declaration) return undefined;
  const block = top?.block?.statements.find(({ head }) => head.text === 'reachable');
  if (block === undefined) {
    const added = insertion(declaration, 'reachable {', [line]);
    return added && editOf(analysis, declaration, added, added.text);
  }
  const written = rig.reachable?.levels.get(`${unit.name}.${tank.name}`)?.location.span;
  const own = written && block.block?.statements.find(({ start, end }) => start <= written.start && written.end <= end);
  if (own !== undefined) return editOf(analysis, declaration, own, line);
  return firstOf(block, text, (start, added) => editOf(analysis, declaration, { start, end: start }, added), line);
}

/** A line of its own at the start of a block. */
function firstOf(
  { start, block, broken }: Statement,
  text: string,
  edit: (start: number, text: string) => FixEdit | undefined,
  line: string,
): FixEdit | undefined {
  if (block === undefined || broken) return undefined;
  const offset = text.indexOf('{', block.start) + 1;
  if (offset === 0) return undefined;
  const indent = indentAt(text, start);
  const [rest = ''] = text.slice(offset).split('\n', 1);
  return edit(offset, `\n${indent}${indentStep(indent)}${line}${rest.trim() === '' ? '' : `\n${indent} `}`);
}
