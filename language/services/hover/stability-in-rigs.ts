import { dampingText } from '../../diagnostics/stability-wording.ts';
import { advise } from '../../rules/stability/help.ts';
import { firstToFold, leastDampedSwing } from '../../rules/stability/results.ts';
import type { RigModel } from '../../semantics/model.ts';
import { stabilityOf } from '../../semantics/results.ts';
import type { RigStability } from '../../semantics/stability/evaluate-stability.ts';
import { SPEED } from '../../units/dimension.ts';
import { type DisplaySystem, formatValue } from '../../units/display.ts';
import type { SourceTest } from '../contributions.ts';
import { list, paragraphs, plain } from '../markdown.ts';
import { type HoverContext, rigsWith, type UnitView } from './context.ts';
import { criticalWords, effectWords, movesOf, moveWords, stabilityCaution, stabilityEffect } from './stability.ts';

/** As many rigs are told of. */
const MOST_RIGS = 3;
/** As many moves are told of each. */
const MOST_MOVES = 2;

/** A rig that tows, with what is known of its stability. */
interface Towing {
  readonly rig: RigModel;
  /** Undefined where it has not been looked at. */
  readonly stability: RigStability | undefined;
}

type Words = (stability: RigStability) => string | undefined;

/** The stability of the rigs that have a unit, each in a line with what to move first in that unit. */
export function unitStability(context: HoverContext, view: UnitView): string | undefined {
  return told(towing(context, view), 'Lateral stability', (stability) =>
    rigLine(stability, view.unit.name, context.system),
  );
}

/** What moving a thing of a unit does to the stability of the rig hovered in, or of the rigs that have the unit. */
export function thingStability(context: HoverContext, view: UnitView, test: SourceTest): string | undefined {
  const { system } = context;
  if (!view.result.rig.standalone) return stabilityEffect(view.result.rig, test, system);
  return told(towing(context, view), 'Effect on lateral stability', (stability) => {
    const effect = effectWords(stability, test, system);
    return effect && `rig ${plain(stability.rig.name)} ${effect}`;
  });
}

/**
 * The rig hovered in, or the first rigs that have the unit. Stability takes milliseconds a rig: of several rigs it is
 * told where it has been looked at already, and is computed for no more than one.
 */
function towing(context: HoverContext, { result, owner }: UnitView): readonly Towing[] {
  const rigs: RigModel[] = [];
  for (const { rig } of result.rig.standalone ? rigsWith(context.analysis, owner) : [result]) {
    if (rig.units.length > 1 && rig.units[0]?.kind === 'vehicle') rigs.push(rig);
    if (rigs.length >= MOST_RIGS) break;
  }
  const looked = rigs.map((rig) => ({ rig, stability: stabilityOf.known(rig) }));
  const [first] = rigs;
  if (first === undefined || looked.some(({ stability }) => stability !== undefined)) return looked;
  return [{ rig: first, stability: stabilityOf(first) }, ...looked.slice(1)];
}

function told(rigs: readonly Towing[], head: string, words: Words): string | undefined {
  const shown = rigs.flatMap(({ rig, stability }) => {
    const line = stability && words(stability);
    return line === undefined ? [] : [{ rig, line }];
  });
  if (shown.length === 0) return undefined;
  const waiting = rigs.filter(({ stability }) => stability === undefined).map(({ rig }) => `rig ${plain(rig.name)}`);
  return paragraphs(
    `**${head}**`,
    list([
      ...shown.map(({ line }) => line),
      ...waiting.map((rig) => `${rig}: not looked at yet; a hover on the rig does`),
    ]),
    stabilityCaution(shown.map(({ rig }) => rig)),
  );
}

/**
 * `rig Delivery at 90 km/h: damping ratio 0.16, zero-damping speed over 200 km/h, in case out, on the level; move first
 * fresh 100 mm ahead: damping +0.004`; of a rig that folds what helps against that instead. Undefined where nothing is
 * known of it.
 */
function rigLine(stability: RigStability, unit: string, system: DisplaySystem): string | undefined {
  const { rig, speed, results } = stability;
  if (results.length === 0) return undefined;
  const heading = `rig ${plain(rig.name)} at ${formatValue(speed, SPEED, system)}`;
  const folding = firstToFold(results);
  const folds = folding && `folds in ${plain(folding.label)}`;
  const help = folding && plain(advise('folding', stability, folding, { system }));
  const swinging = leastDampedSwing(results);
  if (swinging?.mode === undefined)
    return `${heading}: ${folds === undefined ? 'nothing swings' : `${folds}. ${help}`}`;
  const zero = `zero-damping speed ${criticalWords(swinging.zeroDamping, swinging, system)}`;
  const swings = `damping ratio ${dampingText(swinging.mode.damping)}, ${zero}, in ${plain(swinging.label)}`;
  if (folds !== undefined) return `${heading}: ${folds}; where it swings, ${swings}. ${help}`;
  const index = rig.units.findIndex(({ name }) => name === unit);
  const moves = movesOf(swinging, speed, MOST_MOVES, index).map((move) => moveWords(move, system));
  const first = moves.length === 0 ? '' : `; move first in ${plain(unit)}: ${moves.join('; then ')}`;
  return `${heading}: ${swings}${first}`;
}
