import { isTyreMarking, parseTyreMarking, type TyreMarking } from '../../catalogue/tyres.ts';
import { STANDARD_GRAVITY } from '../../mechanics/combination.ts';
import { ASSUMED_TYRES, type AssumedTyre, assumedCurve, type TyreKind } from '../../mechanics/stability/tyre-table.ts';
import { type CorneringCurve, curveThrough } from '../../mechanics/stability/tyres.ts';
import { CORNERING_STIFFNESS } from '../../units/dimension.ts';
import { type DisplaySystem, formatLength, formatMass, formatNumber, formatQuantity } from '../../units/display.ts';
import { systemOfRig } from '../display-system.ts';
import type { Assumption, AxleGroup, RigModel, UnitModel } from '../model.ts';
import type { StateResult } from '../state.ts';

/** How the tyres of an axle group hold the road sideways. */
export interface Cornering {
  /** One tyre. */
  readonly curve: CorneringCurve;
  readonly tyresPerSide: number;
  /** m */
  readonly relaxation: number;
  /** What was taken because the file does not say it. */
  readonly assumptions: readonly Assumption[];
}

const KIND_OF_SERVICE: Readonly<Record<TyreMarking['service'], TyreKind>> = {
  passenger: 'passenger',
  'light truck': 'light-truck',
  commercial: 'commercial',
  trailer: 'trailer',
};

/** Capacity over load taken for tyres that are not stated where the axle has no rating either. */
const USUAL_RESERVE = 1.25;

/** The tyres of a rig: those of every axle group, by unit and group. */
export type RigTyres = readonly (readonly Cornering[])[];

/**
 * The tyres of all axle groups. They are the same in every state: where they are not stated they are taken to be made for
 * the greatest load of the group over `states`, the cases on the level.
 */
export function tyresOf(rig: RigModel, states: readonly StateResult[]): RigTyres {
  return rig.units.map((unit) =>
    unit.groups.map((group) => {
      const loads = states.map(({ quantities }) => quantities.get(`${unit.name}.${group.name}.load`)?.value ?? 0);
      return corneringOf(unit, group, Math.max(0, ...loads), systemOfRig(rig));
    }),
  );
}

/**
 * The tyres of a group: as stated; else by their kind, rated for what their marking says; else as radial tyres rated for
 * the axle's rating, or for `load` kg (of the whole group) and a quarter more.
 */
function corneringOf(unit: UnitModel, group: AxleGroup, load: number, system: DisplaySystem): Cornering {
  const { tyres } = group;
  const marking = tyres && parseTyreMarking(tyres.marking);
  const known = marking !== undefined && isTyreMarking(marking) ? marking : undefined;
  const kind =
    known === undefined ? (unit.kind === 'trailer' ? 'trailer' : 'passenger') : KIND_OF_SERVICE[known.service];
  const assumed = ASSUMED_TYRES[kind][known === undefined || known.construction === 'radial' ? 'radial' : 'bias'];
  const perSide = tyres === undefined ? 1 : Math.max(1, Math.round(tyres.count / (2 * group.axles.length)));
  const sides = 2 * group.axles.length * perSide;
  const capacity = tyres?.capacity ?? (group.rating?.value ?? Math.max(load, 1) * USUAL_RESERVE) / sides;
  const rated = capacity * STANDARD_GRAVITY;
  const name = `${unit.name}.${group.name}`;
  const location = tyres?.location ?? group.location;
  const assumptions: Assumption[] = [];
  if (tyres === undefined) {
    assumptions.push({
      text: `tyres of ${name} not stated: ${kind} tyres rated for ${formatMass(capacity, system)} each taken`,
      basis: group.rating
        ? 'the rating of the axle'
        : 'the load on the axle and a quarter more; common practice, no source',
      location,
    });
  }
  const curve = statedCurve(tyres?.cornering, rated) ?? assumedCurve(assumed, rated);
  if (tyres?.cornering === undefined) assumptions.push(assumedStiffness(name, assumed, curve, location, system));
  const relaxation = tyres?.relaxation ?? assumed.relaxation.value;
  if (tyres?.relaxation === undefined) {
    assumptions.push({
      text: `relaxation length of the tyres of ${name} not stated: ${formatLength(relaxation, system)} taken`,
      basis: assumed.relaxation.source,
      location,
    });
  }
  return { curve, tyresPerSide: perSide, relaxation, assumptions };
}

/** The curve of a tyre whose stiffness (N/rad) is stated at the load it is rated for (N). */
function statedCurve(stiffness: number | undefined, rated: number): CorneringCurve | undefined {
  if (stiffness === undefined) return undefined;
  return curveThrough(stiffness / rated, rated, ASSUMED_TYRES.passenger.radial.peakRatio.value);
}

function assumedStiffness(
  name: string,
  { coefficient }: AssumedTyre,
  curve: CorneringCurve,
  location: Assumption['location'],
  system: DisplaySystem,
): Assumption {
  const unit = system === 'US' ? undefined : 'kN/deg';
  const peak = formatQuantity({ value: curve.peak, dimension: CORNERING_STIFFNESS }, unit, { system });
  return {
    text: `cornering stiffness of the tyres of ${name} not stated: ${formatNumber(coefficient.value, 3)} of the load per degree at the rated load taken, at most ${peak} a tyre`,
    basis: `${coefficient.source}; from ${formatNumber(coefficient.least, 3)} to ${formatNumber(coefficient.most, 3)}`,
    location,
  };
}
