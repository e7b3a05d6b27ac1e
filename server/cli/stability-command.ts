import type { DisplaySystem } from '../../language/units/display.ts';
import { turnedOffLines } from './check.ts';
import {
  type CommonOptions,
  exitCode,
  openRigs,
  summaryWithHint,
  UNUSABLE,
  writeError,
  writeLines,
} from './commands.ts';
import { findDiagnostics, findTurnedOff } from './findings.ts';
import { renderJson } from './json.ts';
import { CAUTION } from './loads.ts';
import { plotsOf, writePlots } from './plots.ts';
import { readSpeed } from './speed.ts';
import { renderStability, STABILITY_NOTE } from './stability.ts';
import { type FoundStability, findStability } from './stability-results.ts';
import { lineWidth, painter, type Terminal } from './terminal.ts';
import { wrap } from './text.ts';

export interface StabilityCommandOptions extends CommonOptions {
  readonly rig?: readonly string[];
  readonly case?: readonly string[];
  /** As written: `100km/h`. */
  readonly speed?: string;
  /** Those of each rig where absent. */
  readonly units?: DisplaySystem;
  /** Folder that plots go into. */
  readonly plot?: string;
  readonly force?: boolean;
}

/** `rigwright stability`: prints the lateral stability of rigs, writes plots where asked, and gives the exit code. */
export async function stability(
  named: readonly string[],
  options: StabilityCommandOptions,
  terminal: Terminal,
): Promise<number> {
  const speed = options.speed === undefined ? undefined : readSpeed(options.speed);
  if (typeof speed === 'object') return refuse(`--speed ${options.speed}: ${speed.problem}`);
  if (options.force && options.plot === undefined) return refuse('--force: it belongs to --plot');
  const opened = await openRigs(named, options, terminal);
  if (opened === undefined) return UNUSABLE;
  const { workspace, rigs: all } = opened;
  const rigs = options.rig === undefined ? all.filter(({ kind }) => kind === 'rig') : all;
  const found = findStability(rigs, { cases: options.case ?? [], ...(speed === undefined ? {} : { speed }) });
  const plots = await writeAsked(found);
  if (plots === undefined) return UNUSABLE;
  const diagnostics = findDiagnostics(workspace);
  const shown = findDiagnostics(workspace, options.level);
  if (options.format === 'json') {
    terminal.out.write(renderJson({ workspace, diagnostics: shown, stability: found, plots }));
  } else if (workspace.documents.size > 0) {
    const paint = painter(options.color, terminal.out, terminal.environment);
    const width = lineWidth(terminal.out);
    const tables = renderStability(found, { units: options.units, paint, width });
    writeLines(terminal, [
      ...(found.length > 0 ? tables : ['no rig in these files']),
      '',
      ...(plots.length > 0 ? [...plots.map((file) => `plot written: ${file}`), ''] : []),
      summaryWithHint(workspace, shown, paint),
      ...turnedOffLines(findTurnedOff(workspace), width),
      ...wrap(STABILITY_NOTE, width, '', ''),
      ...wrap(CAUTION, width, '', ''),
    ]);
  }
  return exitCode(workspace, diagnostics, options, terminal);

  function refuse(message: string): number {
    writeError(terminal, options, message);
    return UNUSABLE;
  }

  /** The plots written; undefined where they cannot be, which is told. */
  async function writeAsked(found: readonly FoundStability[]): Promise<readonly string[] | undefined> {
    if (options.plot === undefined) return [];
    const target = { folder: options.plot, cwd: terminal.cwd, force: options.force === true };
    const written = await writePlots(plotsOf(found, options.units), target);
    if (!('message' in written)) return written;
    refuse(`--plot ${written.input}: ${written.message}`);
    return undefined;
  }
}
