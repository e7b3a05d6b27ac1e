import { finding } from '../../diagnostics/create.ts';
import type { RelatedFinding } from '../../diagnostics/finding.ts';
import { STABILITY } from '../../diagnostics/stability.ts';
import type { MassSource } from '../../mechanics/influence.ts';
import { systemOfRig } from '../../semantics/display-system.ts';
import type { UnitModel } from '../../semantics/model.ts';
import type { StabilityResult } from '../../semantics/stability/evaluate-stability.ts';
import type { Source } from '../../semantics/state.ts';
import { type DisplaySystem, formatMass, formatShare } from '../../units/display.ts';
import { compareNames } from '../places.ts';
import { quantityOf } from '../states.ts';
import { isSemiTrailer } from '../subjects.ts';
import { usualShare } from '../usual-share.ts';
import { isMovable } from './ease.ts';
import { advise } from './help.ts';
import { casePlace, onTheLevel } from './results.ts';
import type { StabilityRule } from './rule.ts';

/**
 * Radius of gyration of a loaded trailer about its axles, over the distance from its coupling to them. A trailer loaded
 * over its axles stays below; a load spread evenly over a body half as long again as that distance comes to 0.43.
 * Common practice, no source.
 */
const MOST_GYRATION = 0.42;
/** Semi-trailers reach far ahead of their coupling. Common practice, no source. */
const MOST_GYRATION_OF_SEMI_TRAILER = 0.55;
/** The load has to raise the radius over that of the bare trailer by this much: the trailer itself cannot be restowed. */
const RAISED = 1.02;
/** Each end has to hold so much of the load's inertia: mass at one end only is seen in the coupling load. */
const LEAST_AT_AN_END = 0.2;
const MOST_NAMED = 3;

interface AtBothEnds {
  readonly result: StabilityResult;
  readonly trailer: UnitModel;
  /** kg m² about the axles. */
  readonly inertia: number;
  readonly share: number;
  /** Radius of gyration about the axles over the distance from coupling to axles, and the most that is usual. */
  readonly gyration: number;
  readonly most: number;
  /** What can be moved, the greatest part of the inertia first. */
  readonly movable: readonly { readonly source: MassSource<Source>; readonly inertia: number }[];
}

/** Trailers whose coupling load is right but whose load sits at both ends. */
export const massAtBothEnds: StabilityRule = {
  keys: ['mass-at-both-ends'],
  *check(stability) {
    const [worst, ...others] = stability.results
      .filter(onTheLevel)
      .flatMap((result) => result.state.rig.units.flatMap((unit, index) => atBothEnds(result, unit, index)))
      .sort((a, b) => b.gyration / b.most - a.gyration / a.most);
    if (worst === undefined) return;
    const { result, trailer, inertia, share, gyration, most } = worst;
    const also = others
      .filter((other) => other.trailer === trailer)
      .map((other) => ({ state: other.result.label, by: other.gyration }));
    const system = systemOfRig(stability.rig);
    const named = worst.movable.slice(0, MOST_NAMED);
    const place = casePlace(stability, result);
    const parameters = {
      trailer: trailer.name,
      inertia,
      gyration,
      most,
      share,
      contributors: named.map(({ source }) => `${source.id.name} (${formatMass(source.mass, system)})`),
      system,
      state: result.label,
      also,
      help: advise('swinging', stability, result),
    };
    const key = 'mass-at-both-ends';
    yield finding(
      key,
      STABILITY[key],
      parameters,
      place,
      named.map((each) => pointAtSource(each, inertia, system)),
    );
  },
};

function pointAtSource(
  { source, inertia }: AtBothEnds['movable'][number],
  whole: number,
  system: DisplaySystem,
): RelatedFinding {
  const message = `${source.id.name} (${formatMass(source.mass, system)}) makes ${formatShare(inertia / whole)} of the yaw inertia`;
  return { location: source.id.location, message };
}

function atBothEnds(result: StabilityResult, trailer: UnitModel, index: number): AtBothEnds[] {
  const { state } = result;
  const usual = usualShare(trailer);
  const share = quantityOf(state, `${trailer.name}.coupling.share`);
  const { coupling, groups } = trailer;
  if (usual === undefined || coupling === undefined || share === undefined) return [];
  if (share < usual.least || share > usual.most) return [];
  const axles = groups.flatMap((group) => group.axles);
  const middle = axles.reduce((sum, { x }) => sum + x, 0) / axles.length;
  const distance = coupling.x - middle;
  if (!(distance > 0)) return [];
  const own = state.sources
    .filter(({ unit }) => unit === index)
    .map((source) => ({ source, ...about(source, middle) }));
  const movable = own
    .filter(({ source }) => isMovable(source.id.kind))
    .sort((a, b) => b.inertia - a.inertia || compareNames(a.source.id.name, b.source.id.name));
  const bare = own.filter(({ source }) => !isMovable(source.id.kind));
  const most = isSemiTrailer(coupling) ? MOST_GYRATION_OF_SEMI_TRAILER : MOST_GYRATION;
  const gyration = radius(own) / distance;
  if (!(gyration > most) || !(gyration * distance >= RAISED * radius(bare))) return [];
  const ahead = sum(movable.filter(({ source }) => source.centre.x > middle));
  const loaded = sum(movable);
  if (Math.min(ahead, loaded - ahead) < LEAST_AT_AN_END * loaded) return [];
  return [{ result, trailer, inertia: sum(own), share, gyration, most, movable }];
}

interface Part {
  readonly mass: number;
  readonly inertia: number;
}

/** A mass about the vertical through the middle of the axles. */
function about({ mass, centre, id }: MassSource<Source>, middle: number): Part {
  return { mass, inertia: id.body.inertia.zz + mass * ((centre.x - middle) ** 2 + centre.y ** 2) };
}

function sum(parts: readonly Part[]): number {
  return parts.reduce((total, { inertia }) => total + inertia, 0);
}

/** Radius of gyration, m; 0 of nothing. */
function radius(parts: readonly Part[]): number {
  const mass = parts.reduce((total, part) => total + part.mass, 0);
  return mass > 0 ? Math.sqrt(sum(parts) / mass) : 0;
}
