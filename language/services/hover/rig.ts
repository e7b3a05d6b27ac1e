import { limitsOf } from '../../rules/index.ts';
import { tallyLimits, tallyRequired, tallyText } from '../../rules/limits/tally.ts';
import { levelStates } from '../../rules/states.ts';
import type { CaseModel, RigModel } from '../../semantics/model.ts';
import { requirementsOf } from '../../semantics/requirements.ts';
import type { RigResult, StateResult } from '../../semantics/state.ts';
import { type DisplaySystem, formatMass } from '../../units/display.ts';
import { massOf, supportLoads } from '../contributions.ts';
import { loadRange } from '../details.ts';
import { levelWords } from '../figures.ts';
import { bold, type Column, enumerate, paragraphs, plain, table } from '../markdown.ts';
import { RATING_HEADS, ratedFigures, ratedRow } from '../ratings.ts';
import { reachTable, type ShownReach, shownReach } from '../reach-figures.ts';
import { assumptionList, incompleteList } from './context.ts';
import { everyLimit, rangeWords, reachWords } from './reach.ts';
import { stabilityWords } from './stability.ts';

export const NOT_COMPUTED = 'Its loads cannot be computed yet: the problems of its lines say what is missing.';

/** `**Weekend** — rig "Weekend trip"`. */
export function heading(name: string, kind: string, title?: string): string {
  return `${bold(name)} — ${kind}${title === undefined ? '' : ` “${plain(title)}”`}`;
}

/** A rig: loads per case with their margins, states of motion, assumptions. */
export function rigHover(rig: RigModel, result: RigResult, system: DisplaySystem): string {
  const units = rig.units.map(({ name }) => name);
  const markets = rig.markets.length > 0 ? `, for ${enumerate(rig.markets)}` : '';
  const states = levelStates(result);
  return paragraphs(
    heading(rig.name, `rig of ${enumerate(units) || 'nothing yet'}${markets}`, rig.title),
    rig.documentation,
    states.length === 0 ? NOT_COMPUTED : loadTable(result, states, system, shownReach(result)),
    motionTable(result, system),
    states.length === 0 ? undefined : limitsWords(result),
    reachWords(result, everyLimit, system),
    states.length === 0 ? undefined : deviceWords(rig),
    stabilityWords(rig, system),
    assumptionList(result.assumptions, 'short'),
  );
}

/** How many limits of plates and texts were checked, and what the author requires, and how they stand. */
function limitsWords(result: RigResult): string {
  const limits = `Limits: ${tallyText(tallyLimits(limitsOf(result)))}.`;
  if (requirementsOf(result.rig).length === 0) return limits;
  return `${limits} Required in the file: ${tallyText(tallyRequired(result))}.`;
}

/** A case of a rig or of a trailer: what is in it, and its loads. */
export function caseHover(model: CaseModel, result: RigResult, system: DisplaySystem): string {
  const states = levelStates(result).filter((state) => state.case === model || state.case.name === model.name);
  const [state] = states;
  const shown = shownReach(result, model.name);
  const levels = [...model.levels].map(([tank, level]) => {
    const mass = state && massOf(state, ({ name }) => name === tank);
    return `${tank} ${levelWords(level)}${mass === undefined ? '' : `, ${formatMass(mass, system)}`}`;
  });
  return paragraphs(
    heading(model.name, `case of ${result.rig.name}`, model.title),
    model.documentation,
    levels.length > 0 ? `Tanks: ${plain(levels.join('; '))}.` : undefined,
    model.occupants ? `Seats taken: ${plain(enumerate(model.occupants) || 'none')}.` : undefined,
    model.absent.size > 0 ? `Absent: ${plain(enumerate([...model.absent]))}.` : undefined,
    state === undefined ? NOT_COMPUTED : loadTable(result, states, system, shown),
    shown && rangeWords(result, model.name, system),
    motionTable(result, system, model.name),
    stabilityWords(result.rig, system, model.name),
    incompleteList(result),
  );
}

/** Says so where a device shifts load between the axles and the first coupling. */
function deviceWords({ units, weightDistribution }: RigModel): string | undefined {
  const device = weightDistribution ?? units[0]?.weightDistribution;
  if (device === undefined || units.length < 2) return undefined;
  return 'Coupling and axle loads include the effect of the weight-distribution device.';
}

/** Axle loads, coupling load and share, masses, with limits and margins. */
function loadTable(
  result: RigResult,
  states: readonly StateResult[],
  system: DisplaySystem,
  shown: ShownReach | undefined,
): string {
  const several = result.rig.units.length > 1;
  const rows = ratedFigures(result.rig).map((figure) => {
    const row = ratedRow(figure, states, system);
    return several && figure.unit ? { ...row, label: `${figure.unit} ${row.label}` } : row;
  });
  return reachTable(shown, states, rows, RATING_HEADS, system, 'on level road');
}

/** Support loads on grades and while braking: their range over the cases. Empty where no such state is asked for. */
function motionTable(result: RigResult, system: DisplaySystem, caseName?: string): string {
  const states = result.states.filter(
    (state) => state.motion.kind !== 'level' && (caseName === undefined || state.case.name === caseName),
  );
  const motions = [...new Set(states.map(({ motion }) => motion.text))];
  if (motions.length === 0) return '';
  const columns: Column[] = motions.map((head) => ({ head: plain(head), align: 'right' }));
  const rows = supportLoads(result).map(({ quantity, label }) => [
    label,
    ...motions.map((text) => {
      const inMotion = states.filter(({ motion }) => motion.text === text);
      return loadRange(inMotion, quantity, system);
    }),
  ]);
  return table([{ head: caseName === undefined ? 'over all cases' : 'in motion', align: 'left' }, ...columns], rows);
}
