import { formatLength } from '../../units/display.ts';
import { flagOf } from '../arguments.ts';
import { systemOf } from '../display-system.ts';
import { readMeasured } from '../measured.ts';
import type { AxleGroup, Coupling, CouplingKind } from '../model.ts';
import { assume, locate, report } from '../scope.ts';
import { readMarks, readRating } from './coupling-marks.ts';
import { contextOf, entriesOf, type UnitDraft, type UnitEntry } from './draft.ts';
import type { Places } from './places.ts';

/** Height of a coupling taken where none is stated, m: only grades, braking and independent springs depend on it. */
const USUAL_HEIGHT = 0.43;
const HEIGHT_BASIS =
  'rule of the language: grades, braking and independent axles depend on it; ISO 1103 balls stand at 350 to 420 mm above the road (from memory), utility couplings higher';

/** The trailer's own coupling; its datum. */
export function readCoupling(draft: UnitDraft, places: Places, groups: readonly AxleGroup[]): Coupling | undefined {
  if (draft.kind !== 'trailer') return undefined;
  const entry = entriesOf(draft, 'coupling')[0];
  const steered = groups.some((group) => group.steered);
  if (entry === undefined) {
    const kind: CouplingKind = steered ? 'drawbar' : 'ball';
    const location = locate(draft.header, draft.header.statement.name ?? draft.header.statement.head);
    assume(
      draft.scope,
      `coupling of ${draft.name} not stated: ${kind}, ${formatLength(USUAL_HEIGHT, systemOf(draft.scope.declaration))} up taken`,
      HEIGHT_BASIS,
      location,
    );
    return { kind, x: 0, z: USUAL_HEIGHT, location };
  }
  return read(draft, entry, places, steered ? 'drawbar' : 'ball', 0);
}

/** Where the next unit is coupled. */
export function readHitch(draft: UnitDraft, places: Places): Coupling | undefined {
  const entry = entriesOf(draft, 'hitch')[0];
  if (entry === undefined) return undefined;
  const { x, lost } = places.of(entry);
  if (x === undefined) {
    if (!entry.line.statement.broken && lost !== true) {
      report(
        draft.scope,
        'missing-place',
        { what: 'The hitch', example: 'hitch ball at 1150 mm behind rear, 430 mm up' },
        locate(entry.line, entry.line.statement.head),
      );
    }
    return undefined;
  }
  return read(draft, entry, places, 'ball', x);
}

function read(draft: UnitDraft, entry: UnitEntry, places: Places, usual: CouplingKind, x: number): Coupling {
  const context = contextOf(draft, entry);
  const location = locate(entry.line, entry.line.statement.head);
  const [sizeValue] = entry.read.values;
  const size =
    sizeValue &&
    readMeasured(sizeValue, { what: `the size of ${entry.read.what}`, kinds: ['length'], sign: 'positive' }, context);
  let { z } = places.of(entry);
  if (z === undefined) {
    z = USUAL_HEIGHT;
    assume(
      draft.scope,
      `height of the ${entry.spec.keyword} of ${draft.name} not stated: ${formatLength(USUAL_HEIGHT, systemOf(draft.scope.declaration))} taken`,
      HEIGHT_BASIS,
      location,
    );
  }
  const rating = readRating(draft, entry);
  return {
    kind: flagOf(entry.read, 'coupling') ?? usual,
    x,
    z,
    location,
    ...(size ? { size: size.value } : {}),
    ...readJoint(draft, entry),
    ...(rating ? { rating } : {}),
    marks: readMarks(draft, entry),
  };
}

/** Damper and spring that resist turning at a hitch. */
function readJoint(draft: UnitDraft, entry: UnitEntry): { damper?: number; spring?: number } {
  const context = contextOf(draft, entry);
  const damperValue = entry.read.keywords.get('damper')?.[0];
  const springValue = entry.read.keywords.get('spring')?.[0];
  const damper =
    damperValue &&
    readMeasured(damperValue, { what: 'the damper', kinds: ['rotary damping'], sign: 'not negative' }, context);
  const spring =
    springValue &&
    readMeasured(springValue, { what: 'the spring', kinds: ['rotary stiffness'], sign: 'not negative' }, context);
  return { ...(damper ? { damper: damper.value } : {}), ...(spring ? { spring: spring.value } : {}) };
}
