import { deviationOfResolution } from '../../mechanics/weighing/observation.ts';
import type { Value } from '../../syntax/tree.ts';
import { formatMass } from '../../units/display.ts';
import type { ReadStatement } from '../arguments.ts';
import { systemOf } from '../display-system.ts';
import { readMeasured } from '../measured.ts';
import { type Line, locate, report, type Scope } from '../scope.ts';
import type { WeighedRig } from './weighed-rig.ts';
import type { ScaleAccuracy } from './weighing-model.ts';

/**
 * Division taken where a slip says nothing of its scale, kg: usual of public weighbridges (common practice, no source).
 */
const USUAL_DIVISION = 20;

/** Finest and coarsest division of a scale that weighs vehicles, kg; beyond them it is a slip of the pen. */
const FINEST = 1e-3;
const COARSEST = 500;

/** What the slip says of its scale; the usual division where it says nothing, which slips show with their readings. */
export function readScale(scales: readonly ReadStatement[], what: string, rig: WeighedRig): ScaleAccuracy {
  const { scope, namesFor } = rig;
  const [read, second] = scales;
  if (second !== undefined) {
    const part = `what its scale shows ('${second.spec.keyword}')`;
    report(scope, 'repeated-part', { part, head: what }, locate(second.line, second.line.statement.head));
  }
  if (read !== undefined) {
    const { line, spec } = read;
    const [value] = read.values;
    if (value === undefined && !line.statement.broken) {
      const example = `${spec.keyword} ${spec.keyword === 'scale' ? '20' : '10'} kg`;
      report(
        scope,
        'missing-part',
        { what: `'${spec.keyword}'`, part: 'its mass', example },
        locate(line, line.statement.head),
      );
    }
    const wanted = {
      what: spec.keyword === 'scale' ? 'the division of the scale' : 'the accuracy of the scale',
      kinds: ['mass'],
      sign: 'positive',
      tolerance: true,
    } as const;
    const measured = value && readMeasured(value, wanted, { scope, line, names: namesFor(line) });
    if (measured?.tolerance !== undefined) {
      report(
        scope,
        'unexpected-part',
        { part: 'tolerance', head: spec.keyword, accepted: 'one mass' },
        locate(line, value ?? line.statement.head),
      );
    }
    const of = spec.keyword === 'scale' ? 'The division of the scale' : 'The accuracy of the scale';
    if (measured !== undefined && value !== undefined && isOfScale(measured.value, of, value, line, scope)) {
      return spec.keyword === 'accuracy'
        ? { kind: 'accuracy', value: measured.value, deviation: measured.value }
        : { kind: 'division', value: measured.value, deviation: deviationOfResolution(measured.value) };
    }
  }
  return { kind: 'assumed', value: USUAL_DIVISION, deviation: deviationOfResolution(USUAL_DIVISION) };
}

/** Whether a figure can be the division or accuracy of a scale, or what a reading may be off; if not, it is reported. */
export function isOfScale(figure: number, what: string, value: Value, line: Line, scope: Scope): boolean {
  if (figure >= FINEST && figure <= COARSEST) return true;
  const system = systemOf(line.declaration);
  const wanted = `from ${formatMass(FINEST, system)} to ${formatMass(COARSEST, system)}: how finely the scale reads, not what it carries`;
  const found = line.declaration.text.slice(value.start, value.end);
  report(scope, 'out-of-range', { what, wanted, found }, locate(line, value));
  return false;
}
