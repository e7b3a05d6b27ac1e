import { jointWeighingOf, weighingsOf } from '../../language/semantics/results.ts';
import type { DisplaySystem } from '../../language/units/display.ts';
import { turnedOffLines } from './check.ts';
import { type CommonOptions, checkHint, exitCode, openRigs, UNUSABLE, writeLines } from './commands.ts';
import { findDiagnostics, findTurnedOff, summaryLine } from './findings.ts';
import { renderJson } from './json.ts';
import { CAUTION } from './loads.ts';
import { everyRig } from './rigs.ts';
import { lineWidth, painter, type Terminal } from './terminal.ts';
import { wrap } from './text.ts';
import { type FoundWeighings, renderWeighings, WEIGH_NOTE } from './weigh.ts';

export interface WeighCommandOptions extends CommonOptions {
  readonly rig?: readonly string[];
  /** Those of each rig where absent. */
  readonly units?: DisplaySystem;
}

/** Narrower terminals get longer lines than they have columns. */
const NARROWEST = 32;

const NO_SLIP =
  'no weighing in these files: a rig, vehicle or trailer states one as ' +
  '`weighing october { scale 20 kg  Hauler.axles 1920 kg }`';

/** `rigwright weigh`: prints the slips reconciled with the computed loads, and gives the exit code. */
export async function weigh(
  named: readonly string[],
  options: WeighCommandOptions,
  terminal: Terminal,
): Promise<number> {
  const opened = await openRigs(named, options, terminal);
  if (opened === undefined) return UNUSABLE;
  const { workspace } = opened;
  // A unit that a rig uses may have slips of its own.
  const rigs = options.rig === undefined ? everyRig(workspace).filter(hasSlips) : opened.rigs;
  const weighings = rigs.map((found): FoundWeighings => {
    const { rig } = found.result;
    return { found, slips: weighingsOf(rig), joint: jointWeighingOf(rig) };
  });
  const diagnostics = findDiagnostics(workspace);
  const shown = findDiagnostics(workspace, options.level);
  if (options.format === 'json') {
    terminal.out.write(renderJson({ workspace, diagnostics: shown, weighings }));
  } else if (workspace.documents.size > 0) {
    const paint = painter(options.color, terminal.out, terminal.environment);
    const width = lineWidth(terminal.out, NARROWEST);
    const tables = renderWeighings(weighings, { units: options.units, paint, width });
    writeLines(terminal, [
      ...(weighings.length > 0 ? tables : wrap(NO_SLIP, width, '', '')),
      '',
      ...wrap(summaryLine(shown, workspace.documents.size) + checkHint(shown), width, '', '').map((line) =>
        paint('heading', line),
      ),
      ...turnedOffLines(findTurnedOff(workspace), width),
      ...wrap(WEIGH_NOTE, width, '', ''),
      ...wrap(CAUTION, width, '', ''),
    ]);
  }
  return exitCode(workspace, diagnostics, options, terminal);
}

const hasSlips = ({ result: { rig } }: FoundWeighings['found']): boolean => rig.weighings.length > 0;
