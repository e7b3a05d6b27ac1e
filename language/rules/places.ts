import type { Location, RelatedFinding } from '../diagnostics/finding.ts';
import { evaluateLoad, type Influence } from '../mechanics/influence.ts';
import { systemOfRig } from '../semantics/display-system.ts';
import type { Limit } from '../semantics/model.ts';
import type { RigResult, Source, StateResult } from '../semantics/state.ts';
import { formatMass } from '../units/display.ts';

/** As many contributors are pointed at. */
const MOST_CONTRIBUTORS = 3;

/** Whether a place lies in the declaration that is being checked. */
export function isOwn(result: Pick<RigResult, 'rig'>, location: Location): boolean {
  return location.declaration === result.rig.location.declaration;
}

/** The first of the places that lies in the declaration being checked; its name where none does. */
export function ownPlace(result: Pick<RigResult, 'rig'>, ...places: readonly (Location | undefined)[]): Location {
  return places.find((place) => place !== undefined && isOwn(result, place)) ?? result.rig.location;
}

/** Where a broken limit is shown: in a rig at the case, in a unit alone at the limit. */
export function limitPlace(result: Pick<RigResult, 'rig'>, state: StateResult, limit?: Limit): Location {
  return result.rig.standalone
    ? ownPlace(result, limit?.location, state.case.location)
    : ownPlace(result, state.case.location);
}

/** Points at something that is not shown already. */
export function pointAt(shown: Location, location: Location | undefined, message: string): RelatedFinding[] {
  if (location === undefined || samePlace(shown, location)) return [];
  return [{ location, message }];
}

function samePlace(a: Location, b: Location): boolean {
  return a.declaration === b.declaration && a.span.start === b.span.start && a.span.end === b.span.end;
}

/** Which contributions are pointed at, and how their loads are shown. */
export interface ContributorOptions {
  /** -1 for those that take off the load; 1 unless said otherwise. */
  readonly sign?: 1 | -1;
  /** As masses unless said otherwise. */
  readonly format?: (load: number) => string;
  /** All sources unless said otherwise. */
  readonly among?: (source: Source) => boolean;
}

/** The masses that put most on a load, or take most off it. */
export function contributors(
  state: StateResult,
  influence: Influence | undefined,
  { sign = 1, format, among = () => true }: ContributorOptions = {},
): RelatedFinding[] {
  if (influence === undefined) return [];
  const system = systemOfRig(state.rig);
  const mass = (kilograms: number) => formatMass(kilograms, system);
  return evaluateLoad(influence, state.sources)
    .terms.filter(({ source, load }) => sign * load > 0 && among(source.id))
    .sort((a, b) => sign * (b.load - a.load) || compareNames(a.source.id.name, b.source.id.name))
    .slice(0, MOST_CONTRIBUTORS)
    .map(({ source, load }) => ({
      location: source.id.location,
      message: `${source.id.name} (${mass(source.mass)}) contributes ${(format ?? mass)(load)}`,
    }));
}

/** Order by code units: the same on every machine. */
export function compareNames(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
