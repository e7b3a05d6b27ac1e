import type { DisplaySystem } from '../../language/units/display.ts';
import { turnedOffLines } from './check.ts';
import { type CommonOptions, checkHint, exitCode, openRigs, UNUSABLE, writeLines } from './commands.ts';
import { ENVELOPE_NOTE, renderEnvelopes, TOLERANCE_NOTE } from './envelope.ts';
import { type FoundEnvelope, findEnvelope } from './envelope-results.ts';
import { findDiagnostics, findTurnedOff, summaryLine } from './findings.ts';
import { renderJson } from './json.ts';
import { CAUTION } from './loads.ts';
import { lineWidth, painter, type Terminal } from './terminal.ts';
import { wrap } from './text.ts';

export interface EnvelopeCommandOptions extends CommonOptions {
  readonly rig?: readonly string[];
  readonly case?: readonly string[];
  /** Those of each rig where absent. */
  readonly units?: DisplaySystem;
}

/** Narrower terminals get longer lines than they have columns. */
const NARROWEST = 40;

/** `rigwright envelope`: prints between what the quantities of rigs lie, and gives the exit code. */
export async function envelope(
  named: readonly string[],
  options: EnvelopeCommandOptions,
  terminal: Terminal,
): Promise<number> {
  const opened = await openRigs(named, options, terminal);
  if (opened === undefined) return UNUSABLE;
  const { workspace, rigs } = opened;
  const envelopes = rigs.map((rig) => findEnvelope(rig, options.case ?? [])).filter(hasCase);
  const diagnostics = findDiagnostics(workspace);
  const shown = findDiagnostics(workspace, options.level);
  if (options.format === 'json') {
    terminal.out.write(renderJson({ workspace, diagnostics: shown, envelopes }));
  } else if (workspace.documents.size > 0) {
    const paint = painter(options.color, terminal.out, terminal.environment);
    const width = lineWidth(terminal.out, NARROWEST);
    const units = options.units === undefined ? {} : { units: options.units };
    const tables = renderEnvelopes(envelopes, { ...units, paint, width });
    const summary = summaryLine(shown, workspace.documents.size) + checkHint(shown);
    writeLines(terminal, [
      ...(envelopes.length > 0 ? tables : ['no rig, vehicle or trailer in these files']),
      '',
      ...wrap(summary, width, '', '').map((line) => paint('heading', line)),
      ...turnedOffLines(findTurnedOff(workspace), width),
      ...wrap(ENVELOPE_NOTE, width, '', ''),
      ...(envelopes.some(({ tolerances }) => tolerances.length > 0) ? wrap(TOLERANCE_NOTE, width, '', '') : []),
      ...wrap(CAUTION, width, '', ''),
    ]);
  }
  return exitCode(workspace, diagnostics, options, terminal);

  /** Of a rig that has none of the cases asked for there is nothing to say; of one without loads there is. */
  function hasCase({ found, reaches }: FoundEnvelope): boolean {
    return options.case === undefined || reaches.length > 0 || found.result.states.length === 0;
  }
}
