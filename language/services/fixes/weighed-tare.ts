import { massEstimate, placeEstimate } from '../../diagnostics/weighing-wording.ts';
import { listed } from '../../diagnostics/wording.ts';
import { estimateOf, foundTares, slipName } from '../../rules/weighings.ts';
import type { Analysis, Diagnostic } from '../../semantics/analysis.ts';
import { systemOf } from '../../semantics/display-system.ts';
import { jointWeighingOf, weighingsOf } from '../../semantics/results.ts';
import type { WeighedTare, WeighingResult } from '../../semantics/weighing/weighing-result.ts';
import type { Declaration, Span } from '../../syntax/tree.ts';
import { formatMass } from '../../units/display.ts';
import { type Fix, type FixEdit, statementOf } from './fix.ts';
import { rewriteTare } from './tare-line.ts';
import { listUnlisted } from './unlisted.ts';
import type { WrittenChange, WrittenEdit } from './written.ts';

/**
 * What slips say of tares, taken over into the file: offered at the first line of a slip for each unit whose tare is off
 * by more than two standard errors, and not while readings contradict each other. It is what all slips of the rig say
 * together, or while these disagree, what this one says. A stated tare is rewritten with what it was in a comment; to a
 * tare that is the sum of its parts, what they lack is added.
 */
export function takeOverTares(analysis: Analysis, uri: string, range: Span): readonly Fix[] {
  const placed = analysis.entityAt(uri, range.start);
  if (placed?.entity?.kind !== 'rig' && placed?.entity?.kind !== 'unit') return [];
  const { declaration, start } = placed;
  const { rig } = placed.entity.result;
  if (rig.weighings.length === 0) return [];
  const at = { start: range.start - start, end: range.end - start };
  return weighingsOf(rig)
    .filter(({ weighing }) => touches(declaration, weighing.location.span, at))
    .flatMap((slip) => {
      const diagnostic = diagnosticOf(analysis, uri, start + slip.weighing.location.span.start);
      return slip.suspects.length > 0
        ? []
        : fixesOf(analysis, estimateOf(slip, jointWeighingOf(rig)), slip, diagnostic);
    });
}

function touches(declaration: Declaration, name: Span, at: Span): boolean {
  const statement = statementOf(declaration, name);
  const first = { start: statement?.start ?? name.start, end: statement?.block?.start ?? name.end };
  return first.start <= at.end && at.start <= first.end;
}

function diagnosticOf(analysis: Analysis, uri: string, start: number): Diagnostic | undefined {
  return analysis.diagnostics(uri).find((found) => found.key === 'slip-disagrees' && found.start === start);
}

function fixesOf(
  analysis: Analysis,
  { tares, together }: ReturnType<typeof estimateOf>,
  { weighing }: WeighingResult,
  diagnostic: Diagnostic | undefined,
): readonly Fix[] {
  const off = new Set(foundTares(tares).map(({ unit }) => unit));
  const slips = together?.map(slipName) ?? [weighing.name];
  return tares.flatMap((tare): readonly Fix[] => {
    if (!off.has(tare.of.name) || tare.mass.standardError === undefined) return [];
    const change = changeOf(tare, slips);
    const edits = change && editsOf(analysis, tare.of.location.declaration, change.edits);
    if (change === undefined || edits === undefined) return [];
    const { title } = change;
    return [{ title, edits, ...(diagnostic === undefined ? {} : { diagnostic }) }];
  });
}

/** A stated tare is rewritten, a sum of parts gets what it lacks. */
function changeOf(tare: WeighedTare, slips: readonly string[]): WrittenChange | undefined {
  if (!tare.of.parts.some(({ kind }) => kind === 'tare')) return listUnlisted(tare, slips);
  const edits = rewriteTare(tare);
  return edits && { title: takeOverTitle(tare, slips), edits };
}

/**
 * `Take over the weighed tare of Hauler: 285 kg ± 3 kg, 2 412 mm ± 8 mm back, in place of 240 kg`, with the slips if
 * there are several: `… (october and november together)`.
 */
function takeOverTitle({ of, mass, x }: WeighedTare, slips: readonly string[]): string {
  const system = systemOf(of.location.declaration);
  const weighed = massEstimate({ value: mass.value, standardError: mass.standardError ?? 0 }, system);
  const place =
    x.standardError === undefined
      ? ''
      : `, ${placeEstimate({ value: x.value, standardError: x.standardError }, 'x', system)}`;
  const by = slips.length > 1 ? ` (${listed(slips)} together)` : '';
  return `Take over the weighed tare of ${of.name}: ${weighed}${place}, in place of ${formatMass(mass.filed, system)}${by}`;
}

/** Edits in the declaration of a unit, which may stand in another file; undefined where that is not at hand. */
function editsOf(
  analysis: Analysis,
  declaration: Declaration,
  edits: readonly WrittenEdit[],
): readonly FixEdit[] | undefined {
  const place = analysis.absolute({ declaration, span: { start: 0, end: 0 } });
  return (
    place &&
    edits.map(({ start, end, text }) => ({ uri: place.uri, start: place.start + start, end: place.start + end, text }))
  );
}
