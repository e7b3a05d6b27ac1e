import { levelStates } from '../../rules/states.ts';
import { axlesOf } from '../../rules/subjects.ts';
import type { AxleGroup, Coupling, Tyres, UnitModel } from '../../semantics/model.ts';
import type { RigResult, StateResult } from '../../semantics/state.ts';
import { PRESSURE, SPEED } from '../../units/dimension.ts';
import { type DisplaySystem, formatLength, formatMass, formatValue } from '../../units/display.ts';
import { biggestTerms } from '../contributions.ts';
import { loadRange } from '../details.ts';
import { axleWords, formatContribution } from '../figures.ts';
import { bold, paragraphs, plain, table } from '../markdown.ts';
import { couplingConcept } from '../markets.ts';
import {
  greatest,
  marginWords,
  quantityRow,
  RATING_HEADS,
  type RatedFigure,
  ratedRow,
  ratingsOn,
  tightest,
  tyreRating,
} from '../ratings.ts';
import { reachTable } from '../reach-figures.ts';
import type { Row } from '../tables.ts';
import { type HoverContext, inRigs, statesShown, type UnitView } from './context.ts';
import { marksWords } from './marks.ts';
import { limitsOfGroups, limitsOfJoint, reachShown, reachWords } from './reach.ts';
import { heading, NOT_COMPUTED } from './rig.ts';

/** As many contributors are listed. */
const MOST_CONTRIBUTORS = 5;

/** Axle groups of a unit: loads per case, left and right, and what contributes most. */
export function axlesHover(context: HoverContext, groups: readonly AxleGroup[], { unit, result }: UnitView): string {
  const { system } = context;
  const states = statesShown(context, result);
  const [only] = groups.length === 1 ? groups : [];
  const title = only ? lineHeading(only.name, unit, axleFacts(only, system)) : heading(unit.name, 'axles');
  return paragraphs(
    title,
    states.length === 0
      ? NOT_COMPUTED
      : reachTable(
          reachShown(context, result),
          states,
          groups.flatMap((group) => axleRows(result, unit, group, states, system)),
          RATING_HEADS,
          system,
        ),
    reachWords(result, limitsOfGroups(unit, groups), system),
    ...groups.map((group) => group.tyres && tyreWords(group.tyres, system)),
    only && contributorTable(states, `${unit.name}.${only.name}.load`, system),
  );
}

function axleFacts({ axles, suspension, x, name }: AxleGroup, system: DisplaySystem): string {
  const count = axles.length > 1 ? `${axles.length} axles, ${suspension}` : name === 'axles' ? 'single axle' : 'axle';
  return `${count}, ${formatLength(Math.abs(x), system)} ${x > 0 ? 'ahead' : 'back'}`;
}

function axleRows(
  result: RigResult,
  unit: UnitModel,
  group: AxleGroup,
  states: readonly StateResult[],
  system: DisplaySystem,
): Row[] {
  const prefix = `${unit.name}.${group.name}`;
  const words = axleWords(group);
  const load = ratedRow(
    {
      quantities: [`${prefix}.load`],
      unit: unit.name,
      label: words,
      ratings: [...ratingsOn(result.rig, `${prefix}.load`), ...tyreRating(result.rig, unit, group)],
    },
    states,
    system,
  );
  const each = group.axles.length > 1 ? axlesOf(unit, group) : [];
  return [
    load,
    ...each.map(({ prefix: name }, index) => quantityRow(`${name}.load`, `axle ${index + 1} from the front`, system)),
    quantityRow(`${prefix}.left`, `${words}, left wheels`, system),
    quantityRow(`${prefix}.right`, `${words}, right wheels`, system),
  ];
}

/** `4 tyres 195R14C 106/104Q: 950 kg each, 3 800 kg together, up to 160 km/h, at 450 kPa.` */
export function tyreWords({ count, marking, capacity, speed, pressure, dual }: Tyres, system: DisplaySystem): string {
  const load =
    capacity === undefined
      ? 'capacity not known'
      : `${formatMass(capacity, system)} each${dual ? ' in twin fitting' : ''}, ${formatMass(count * capacity, system)} together`;
  const facts = [
    load,
    ...(speed === undefined ? [] : [`up to ${formatValue(speed / KMH_PER_SI, SPEED, system)}`]),
    ...(pressure === undefined ? [] : [`at ${formatValue(pressure, PRESSURE, system)}`]),
  ];
  return `${count} tyre${count === 1 ? '' : 's'} ${plain(marking)}: ${facts.join(', ')}.`;
}

const KMH_PER_SI = 3.6;

/** The coupling of a trailer: load and share per case, and what contributes most. */
export function couplingHover(context: HoverContext, view: UnitView): string {
  const { unit, result } = view;
  const { system } = context;
  const states = statesShown(context, result);
  const load = `${unit.name}.coupling.load`;
  const carried = states.some((state) => state.quantities.has(load));
  const rows = [
    ratedRow(
      {
        quantities: [load],
        unit: unit.name,
        label: 'coupling load',
        concept: couplingConcept(unit),
        ratings: ratingsOn(result.rig, load),
      },
      states,
      system,
    ),
    quantityRow(`${unit.name}.coupling.share`, `share of ${unit.name}`, system),
  ];
  return paragraphs(
    lineHeading('coupling', unit, unit.coupling && couplingFacts(unit.coupling, system)),
    states.length === 0
      ? NOT_COMPUTED
      : carried
        ? reachTable(reachShown(context, result), states, rows, RATING_HEADS, system)
        : 'A hinged drawbar: it carries no vertical load.',
    reachWords(result, limitsOfJoint('Coupling', unit), system),
    ...marksWords(context, view, unit.coupling, `Coupling of ${unit.name}`),
    carried ? contributorTable(states, load, system) : undefined,
  );
}

function couplingFacts({ kind, z }: Coupling, system: DisplaySystem): string {
  return `${kind}, ${formatLength(z, system)} up`;
}

/** The hitch of a unit: what the next unit puts on it, here or in the rigs that have the unit. */
export function hitchHover(context: HoverContext, view: UnitView): string {
  const { unit, result, owner } = view;
  const { system } = context;
  const states = statesShown(context, result);
  const title = lineHeading('hitch', unit, unit.hitch && hitchFacts(unit.hitch, system));
  const figure = hitchFigure(result, unit.name);
  const marks = marksWords(context, view, unit.hitch, `Hitch of ${unit.name}`);
  if (!states.some((state) => state.quantities.has(hitchLoad(unit.name)))) {
    const loads = inRigs(context, owner, (rig) => hitchInRig(rig, unit.name, system));
    return paragraphs(title, loads ?? 'Nothing hangs on it here; its load is shown in the rigs that use it.', ...marks);
  }
  return paragraphs(
    title,
    reachTable(reachShown(context, result), states, [ratedRow(figure, states, system)], RATING_HEADS, system),
    reachWords(result, limitsOfJoint('Hitch', unit), system),
    ...marks,
    contributorTable(states, hitchLoad(unit.name), system),
  );
}

const hitchLoad = (unit: string): string => `${unit}.hitch.load`;

/** The load on a hitch; its ratings are those of the coupling that hangs on it. */
function hitchFigure({ rig }: RigResult, unit: string): RatedFigure {
  const next = rig.units[rig.units.findIndex(({ name }) => name === unit) + 1];
  const ratings = next === undefined ? [] : ratingsOn(rig, `${next.name}.coupling.load`);
  return { quantities: [hitchLoad(unit)], unit, label: `load of ${next?.name ?? 'nothing'}`, ratings };
}

function hitchInRig(result: RigResult, unit: string, system: DisplaySystem): string | undefined {
  const states = levelStates(result);
  const worst = greatest(states, [hitchLoad(unit)]);
  if (worst === undefined) return undefined;
  const limit = tightest(hitchFigure(result, unit).ratings);
  const margin = limit === undefined ? '' : `, ${marginWords(limit.value - worst.value, system)}`;
  return loadRange(states, hitchLoad(unit), system) + margin;
}

function hitchFacts(hitch: Coupling, system: DisplaySystem): string {
  const place = `${formatLength(Math.abs(hitch.x), system)} ${hitch.x > 0 ? 'ahead' : 'back'}`;
  const rating = hitch.rating === undefined ? '' : `, rated ${formatMass(hitch.rating.value, system)}`;
  return `${couplingFacts(hitch, system)}, ${place}${rating}`;
}

/** `**axles** of TourerB — 2 axles, equalised`. */
function lineHeading(name: string, unit: UnitModel, facts = 'not stated'): string {
  return `${bold(name)} of ${plain(unit.name)} — ${facts}`;
}

/** What contributes most to a load, in the state in which the load is greatest. */
function contributorTable(states: readonly StateResult[], quantity: string, system: DisplaySystem): string | undefined {
  const worst = greatest(states, [quantity]);
  if (worst === undefined) return undefined;
  const terms = biggestTerms(worst.state, quantity, MOST_CONTRIBUTORS);
  if (terms.length === 0) return undefined;
  return table(
    [
      { head: `contributes most, ${worst.state.label}`, align: 'left' },
      { head: 'mass', align: 'right' },
      { head: 'to the load', align: 'right' },
    ],
    terms.map(({ source, load }) => [
      plain(source.id.name),
      formatMass(source.mass, system),
      formatContribution(load, system),
    ]),
  );
}
