import { limitsOf } from '../../language/rules/index.ts';
import type { DisplaySystem } from '../../language/units/display.ts';
import { turnedOffLines } from './check.ts';
import { type CommonOptions, checkHint, exitCode, openRigs, UNUSABLE, writeLines } from './commands.ts';
import { findDiagnostics, findTurnedOff, summaryLine } from './findings.ts';
import { renderJson } from './json.ts';
import { type FoundLimits, LIMITS_NOTE, renderLimits } from './limits.ts';
import { CAUTION } from './loads.ts';
import type { FoundRig } from './rigs.ts';
import { lineWidth, painter, type Terminal } from './terminal.ts';
import { wrap } from './text.ts';
import type { CheckedWorkspace } from './workspace.ts';

export interface LimitsCommandOptions extends CommonOptions {
  readonly rig?: readonly string[];
  /** Those of each rig where absent. */
  readonly units?: DisplaySystem;
}

/** Narrower terminals get longer lines than they have columns. */
const NARROWEST = 32;

/** `rigwright limits`: prints what was held against which limit, by which text, and gives the exit code. */
export async function limits(
  named: readonly string[],
  options: LimitsCommandOptions,
  terminal: Terminal,
): Promise<number> {
  const opened = await openRigs(named, options, terminal);
  if (opened === undefined) return UNUSABLE;
  const { workspace, rigs } = opened;
  const found = rigs.map((rig) => findLimits(rig, workspace));
  const diagnostics = findDiagnostics(workspace);
  const shown = findDiagnostics(workspace, options.level);
  if (options.format === 'json') {
    terminal.out.write(renderJson({ workspace, diagnostics: shown, limits: found }));
  } else if (workspace.documents.size > 0) {
    const paint = painter(options.color, terminal.out, terminal.environment);
    const width = lineWidth(terminal.out, NARROWEST);
    const tables = renderLimits(found, { units: options.units, paint, width });
    writeLines(terminal, [
      ...(found.length > 0 ? tables : ['no rig, vehicle or trailer in these files']),
      '',
      ...wrap(summaryLine(shown, workspace.documents.size) + checkHint(shown), width, '', '').map((line) =>
        paint('heading', line),
      ),
      ...turnedOffLines(findTurnedOff(workspace), width),
      ...wrap(LIMITS_NOTE, width, '', ''),
      ...wrap(CAUTION, width, '', ''),
    ]);
  }
  return exitCode(workspace, diagnostics, options, terminal);
}

function findLimits(found: FoundRig, { analysis }: CheckedWorkspace): FoundLimits {
  const { result, document } = found;
  const rows = result.states.length === 0 ? [] : limitsOf(result);
  return { found, rows, levels: analysis.levels(document.uri, result.rig.location.declaration) };
}
