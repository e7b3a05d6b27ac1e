import type { ReadStatement } from '../arguments.ts';
import { flagOf, readStatement, resolveSpec } from '../arguments.ts';
import type { ReadingContext } from '../measured.ts';
import { readMeasured } from '../measured.ts';
import type { BrakeKind, Limit, LimitName, VehicleType, WeightDistributionDevice } from '../model.ts';
import { assume, locate, report } from '../scope.ts';
import { missing } from './axles.ts';
import { contextOf, entriesOf, namesIn, type UnitDraft, type UnitEntry } from './draft.ts';

/** The limits that each kind of unit has. */
export const LIMITS_OF: Readonly<Record<'vehicle' | 'trailer', readonly LimitName[]>> = {
  vehicle: ['GVM', 'GCM', 'towing', 'towing_unbraked', 'coupling', 'payload', 'UVW', 'CCC', 'OCCC'],
  trailer: ['ATM', 'GTM', 'towing', 'towing_unbraked', 'coupling', 'payload', 'coupling_minimum', 'UVW', 'CCC'],
};

/** Words for the gross mass of a vehicle that the trade also uses of a trailer, where they stand for its ATM. */
const OF_TRAILERS_TOO: ReadonlySet<string> = new Set(['GVWR', 'MAM']);

/** The ratings on the plates. A variant's line goes before its original's; in a trailer GVWR and MAM are read as ATM. */
export function readLimits(draft: UnitDraft): Readonly<Partial<Record<LimitName, Limit>>> {
  const limits: Partial<Record<LimitName, Limit>> = {};
  const accepted = LIMITS_OF[draft.kind];
  for (const entry of entriesOf(draft, 'limits')) {
    for (const statement of entry.line.statement.block?.statements ?? []) {
      const line = { ...entry.line, statement };
      const spec = resolveSpec(line, 'limits', 'limits', draft.scope);
      if (spec === undefined) continue;
      const read = readStatement(line, spec, draft.scope);
      const name = accepted.find(
        (limit) =>
          limit === (draft.kind === 'trailer' && OF_TRAILERS_TOO.has(statement.head.text) ? 'ATM' : spec.keyword),
      );
      if (name === undefined) {
        report(
          draft.scope,
          'unknown-statement',
          {
            found: statement.head.text,
            block: `the limits of a ${draft.kind}`,
            accepted: `. They hold: ${accepted.join(', ')}`,
          },
          locate(line, statement.head),
        );
        continue;
      }
      const [value] = read.values;
      if (value === undefined) {
        missing(draft, { read, spec, line, name }, 'its mass', `${statement.head.text} 2000 kg`);
        continue;
      }
      const before = limits[name];
      if (before !== undefined && before.location.declaration === line.declaration) {
        report(draft.scope, 'repeated-part', { part: `'${name}'`, head: 'limits' }, locate(line, statement.head), [
          { location: before.location, message: 'The first one.' },
        ]);
        continue;
      }
      const context = { scope: draft.scope, line, names: namesIn(draft, line) };
      const measured = readMeasured(value, { what: statement.head.text, kinds: ['mass'], sign: 'positive' }, context);
      if (measured !== undefined) limits[name] = { value: measured.value, location: locate(line, value) };
    }
  }
  return limits;
}

/** Brakes of a trailer; a vehicle counts as braked. */
export function readBrakes(draft: UnitDraft): BrakeKind {
  const entry = entriesOf(draft, 'brakes')[0];
  const stated = entry && flagOf(entry.read, 'brakes');
  if (stated !== undefined) return stated;
  if (entry !== undefined) {
    if (entry.read.isRefused !== true) missing(draft, entry, 'their kind', 'brakes electric');
  } else if (draft.kind === 'trailer') {
    assume(
      draft.scope,
      `brakes of ${draft.name} not stated: overrun brakes taken`,
      'rule of the language: decides which towing rating counts and who holds the trailer back',
      locate(draft.header, draft.header.statement.name ?? draft.header.statement.head),
    );
  }
  return 'overrun';
}

/** What the unit is certified as; undefined where it is not said. */
export function readVehicleType(draft: UnitDraft): VehicleType | undefined {
  const keyword = `${draft.kind}_type` as const;
  const entry = entriesOf(draft, keyword)[0];
  if (entry === undefined) return undefined;
  const stated = flagOf(entry.read, keyword);
  if (stated === undefined && entry.read.isRefused !== true) {
    const example = keyword === 'vehicle_type' ? 'vehicle_type motor_home' : 'trailer_type recreation_trailer';
    missing(draft, entry, `what the ${draft.kind} is certified as`, example);
  }
  return stated;
}

export function readWeightDistribution(
  read: ReadStatement,
  context: ReadingContext,
): WeightDistributionDevice | undefined {
  const { line, scope } = context;
  const location = locate(line, line.statement.head);
  const moment = read.keywords.get('moment')?.[0];
  const restores = read.keywords.get('restores')?.[0];
  if (moment !== undefined && restores !== undefined) {
    report(
      scope,
      'repeated-part',
      { part: "how strong it is ('moment' and 'restores')", head: 'weight_distribution' },
      location,
    );
    return undefined;
  }
  if (moment !== undefined) {
    const measured = readMeasured(
      moment,
      { what: 'the moment of the weight-distribution device', kinds: ['moment'], sign: 'not negative' },
      context,
    );
    return measured && { kind: 'moment', moment: measured.value, location };
  }
  if (restores !== undefined) {
    const measured = readMeasured(
      restores,
      { what: 'the share that the weight-distribution device restores', kinds: ['ratio'], sign: 'not negative' },
      context,
    );
    return measured && { kind: 'restored', share: measured.value, location };
  }
  if (!line.statement.broken)
    report(
      scope,
      'missing-part',
      { what: 'weight_distribution', part: 'how strong it is', example: 'weight_distribution restores 50 %' },
      location,
    );
  return undefined;
}

/** The device stated in a unit's own block. */
export function readUnitDevice(draft: UnitDraft): WeightDistributionDevice | undefined {
  const entry: UnitEntry | undefined = entriesOf(draft, 'weight_distribution')[0];
  return entry && readWeightDistribution(entry.read, contextOf(draft, entry));
}
