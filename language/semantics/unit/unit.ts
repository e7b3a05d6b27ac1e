import { LEVEL } from '../../mechanics/combination.ts';
import { isStaticsProblem, solveSupports } from '../../mechanics/statics.ts';
import { readStatement } from '../arguments.ts';
import { readCases } from '../cases.ts';
import { toMechanics } from '../combination.ts';
import { assumeLeftOut } from '../left-out.ts';
import type { UnitModel } from '../model.ts';
import { settleLets } from '../names.ts';
import { readReachable } from '../reachable.ts';
import { readRequirements } from '../requirements.ts';
import { readRuleLines } from '../rule-lines.ts';
import { assume, type Line, leftOutOf, locate, report, type Scope } from '../scope.ts';
import { specOf } from '../specs.ts';
import { unitLines } from '../unit-lines.ts';
import { readWeighings } from '../weighing/read-weighing.ts';
import { readAxleGroups, readWheelbase } from './axles.ts';
import { readCoupling, readHitch } from './couplings.ts';
import { draftUnit, entriesOf, namesIn, type UnitDraft } from './draft.ts';
import { createHeights } from './heights.ts';
import { readBrakes, readLimits, readUnitDevice, readVehicleType } from './limits.ts';
import { readGrowth, readParts } from './parts.ts';
import { createPlaces, impliedPlaces } from './places.ts';
import { describeStaticsProblem } from './statics-text.ts';
import { fixedPlace, readBody, readLockers, readSeats } from './stowage.ts';
import { readTanks } from './tanks.ts';
import { readTare } from './tare.ts';
import { readBerths, readOffRoad } from './use.ts';

/** Reads a `vehicle`, `trailer` or `variant` declaration. */
export function readUnit(header: Line, scope: Scope): UnitModel | undefined {
  const { statement } = header;
  if (statement.name === undefined) return undefined;
  const name = statement.name.text;
  const spec = specOf('file', statement.head.text);
  if (spec !== undefined) readStatement(header, spec, scope);
  const lines = unitLines(header, scope);
  if (lines === undefined) return undefined;
  const draft = draftUnit(header, lines, name, scope);
  settleLets(scope, draft.lets);
  const wheelbase = readWheelbase(draft);
  const body = readBody(draft);
  const heights = createHeights(draft, body);
  const places = createPlaces(draft, impliedPlaces(draft.kind, wheelbase?.length), heights, (entry) =>
    fixedPlace(draft, entry, body, wheelbase?.length),
  );
  const groups = readAxleGroups(draft, places, wheelbase);
  const coupling = readCoupling(draft, places, groups);
  const hitch = readHitch(draft, places);
  const tare = readTare(draft, places, heights, groups, body);
  const parts = readParts(draft, places, heights);
  const growth = tare === undefined ? readGrowth(draft, parts) : [];
  const tanks = readTanks(draft, places, heights);
  const lockers = readLockers(draft, places, heights, body);
  const seats = readSeats(draft, places, heights);
  heights.conclude();
  if (tare !== undefined && parts.length > 0) {
    assume(
      scope,
      `tare of ${name} is stated, so its ${parts.length} listed part${parts.length > 1 ? 's are' : ' is'} counted on top of it`,
      'rule of the language: without a tare line the parts are the tare',
      tare.location,
    );
  }
  const location = locate(header, statement.name);
  const device = readUnitDevice(draft);
  const vehicleType = readVehicleType(draft);
  const berths = readBerths(draft);
  const title = statement.arguments.find((argument) => argument.kind === 'text');
  const unit: Omit<UnitModel, 'computable' | 'assumptions'> = {
    kind: draft.kind,
    name,
    groups,
    brakes: readBrakes(draft),
    parts: [...(tare ? [tare] : []), ...parts, ...growth],
    tanks,
    lockers,
    seats,
    unreadable: unreadableIn(draft, [...tanks, ...lockers, ...seats]),
    limits: readLimits(draft),
    requirements: readRequirements(
      entriesOf(draft, 'require').map(({ line }) => ({ line, lets: draft.lets })),
      scope,
      name,
    ),
    cases: [],
    weighings: [],
    location,
    levels: readRuleLines(draft.rules, scope),
    ...(title?.kind === 'text' ? { title: title.text.value } : {}),
    ...(statement.documentation ? { documentation: statement.documentation } : {}),
    ...(lines.variantOf !== undefined ? { variantOf: lines.variantOf } : {}),
    ...(coupling ? { coupling } : {}),
    ...(hitch ? { hitch } : {}),
    ...(body ? { body } : {}),
    ...(device ? { weightDistribution: device } : {}),
    ...(vehicleType ? { vehicleType } : {}),
    ...(berths !== undefined ? { berths } : {}),
    ...(readOffRoad(draft) ? { offRoad: true } : {}),
  };
  const computable = !places.circular() && checkComputable(draft, { ...unit, computable: true, assumptions: [] });
  const whole: UnitModel = { ...unit, computable, assumptions: [...scope.assumptions] };
  const cases = readCases(
    entriesOf(draft, 'case').map(({ line }) => line),
    [whole],
    scope,
    (line) => namesIn(draft, line),
  );
  const [states] = entriesOf(draft, 'reachable');
  const reachable =
    states &&
    readReachable(
      states.line,
      [whole],
      scope,
      (line) => namesIn(draft, line),
      cases.flatMap((each) => each.stowed),
    );
  const weighings = readWeighings(ownSlips(draft), {
    units: [whole],
    cases,
    scope,
    namesFor: (line) => namesIn(draft, line),
  });
  if (computable) assumeLeftOut(scope, header, lines.lines);
  return { ...whole, cases, weighings, ...(reachable ? { reachable } : {}), assumptions: [...scope.assumptions] };
}

/** Lines of the slips of a unit; those of a variant's original are of another unit. */
function ownSlips(draft: UnitDraft): readonly Line[] {
  return entriesOf(draft, 'weighing').flatMap(({ line }) =>
    line.declaration === draft.header.declaration ? [line] : [],
  );
}

/** Names of the tanks, lockers and seats declared that are not among those read. */
function unreadableIn(draft: UnitDraft, read: readonly { readonly name: string }[]): readonly string[] {
  const known = new Set(read.map(({ name }) => name));
  const declared = ['tank', 'locker', 'seat'].flatMap((keyword) => entriesOf(draft, keyword).map(({ name }) => name));
  return [...new Set([...declared, ...draft.strays])].filter((name) => !known.has(name));
}

/** Whether the unit's loads can be computed; reports what stands in the way unless an error has already been reported. */
function checkComputable(draft: UnitDraft, unit: UnitModel): boolean {
  const { scope, header } = draft;
  const location = locate(header, header.statement.name ?? header.statement.head);
  const failed =
    draft.broken || leftOutOf(scope).length > 0 || scope.findings.some(({ severity }) => severity === 'error');
  if (unit.groups.length === 0) {
    if (!failed)
      report(
        scope,
        'no-axles',
        {
          unit: unit.name,
          example:
            unit.kind === 'vehicle'
              ? 'wheelbase 3200 mm, track 1680 mm'
              : 'axles single at 2600 mm back, track 1500 mm',
        },
        location,
      );
    return false;
  }
  if (unit.parts.length === 0) {
    if (!failed) {
      report(
        scope,
        'missing-part',
        {
          what: unit.name,
          part: 'its tare: a tare line, or fittings, panels and members',
          example:
            unit.kind === 'vehicle'
              ? 'kerb 1180 kg on front, 940 kg on rear, 680 mm up'
              : 'tare 240 kg at 2450 mm back, 520 mm up',
        },
        location,
      );
    }
    return false;
  }
  const solution = solveSupports(toMechanics([unit]), LEVEL);
  if (isStaticsProblem(solution)) {
    if (!failed)
      report(scope, 'no-loads', { unit: unit.name, problem: describeStaticsProblem(solution, [unit]) }, location);
    return false;
  }
  return true;
}
