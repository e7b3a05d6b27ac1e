import type { Severity } from '../../language/diagnostics/finding.ts';
import { nearestName } from '../../language/semantics/nearest.ts';
import type { DisplaySystem } from '../../language/units/display.ts';
import { renderDiagnostics, turnedOffLines } from './check.ts';
import { type FoundDiagnostic, findDiagnostics, findTurnedOff, summaryLine, tally, unexpected } from './findings.ts';
import { findInputs } from './inputs.ts';
import { renderJson } from './json.ts';
import { CAUTION, renderRigs } from './loads.ts';
import { type FoundRig, findRigs } from './rigs.ts';
import { type ColorChoice, lineWidth, type Paint, painter, type Terminal } from './terminal.ts';
import { listed, oneLine, wrap } from './text.ts';
import { type CheckedWorkspace, loadWorkspace, uriOf } from './workspace.ts';

export const CLEAN = 0;
export const ERRORS_FOUND = 1;
/** Wrong usage, or input that cannot be read. */
export const UNUSABLE = 2;

export const FORMATS = ['text', 'json'] as const;

export interface CommonOptions {
  readonly format: (typeof FORMATS)[number];
  readonly color: ColorChoice;
  /** Files, folders or patterns of files in which errors are expected. */
  readonly expectErrors?: readonly string[];
  /** Least severity of the diagnostics shown. */
  readonly level: Severity;
}

export interface CheckOptions extends CommonOptions {
  readonly quiet?: boolean;
}

export interface LoadsCommandOptions extends CommonOptions {
  readonly rig?: readonly string[];
  readonly case?: readonly string[];
  /** Those of each rig where absent. */
  readonly units?: DisplaySystem;
  readonly withDiagnostics?: boolean;
}

/** `rigwright check`: prints the diagnostics and gives the exit code. */
export async function check(named: readonly string[], options: CheckOptions, terminal: Terminal): Promise<number> {
  const workspace = await open(named, options, terminal);
  const diagnostics = findDiagnostics(workspace);
  const shown = findDiagnostics(workspace, options.level);
  if (!options.quiet) {
    if (options.format === 'json') terminal.out.write(renderJson({ workspace, diagnostics: shown }));
    else if (workspace.documents.size > 0) {
      const paint = painter(options.color, terminal.out, terminal.environment);
      writeLines(terminal, [
        ...renderDiagnostics(shown, workspace.documents, paint),
        paint('heading', summaryLine(shown, workspace.documents.size)),
        ...turnedOffLines(findTurnedOff(workspace), lineWidth(terminal.out)),
      ]);
    }
  }
  return exitCode(workspace, diagnostics, options, terminal);
}

/** `rigwright loads`: prints the load tables and gives the exit code. */
export async function loads(
  named: readonly string[],
  options: LoadsCommandOptions,
  terminal: Terminal,
): Promise<number> {
  const opened = await openRigs(named, options, terminal);
  if (opened === undefined) return UNUSABLE;
  const { workspace, rigs } = opened;
  const diagnostics = findDiagnostics(workspace);
  const shown = findDiagnostics(workspace, options.level);
  if (options.format === 'json') {
    terminal.out.write(renderJson({ workspace, diagnostics: shown, rigs, cases: options.case }));
  } else if (workspace.documents.size > 0) {
    writeLines(terminal, loadsText(workspace, rigs, shown, options, terminal));
  }
  return exitCode(workspace, diagnostics, options, terminal);
}

function loadsText(
  workspace: CheckedWorkspace,
  rigs: readonly FoundRig[],
  diagnostics: readonly FoundDiagnostic[],
  options: LoadsCommandOptions,
  terminal: Terminal,
): string[] {
  const paint = painter(options.color, terminal.out, terminal.environment);
  const width = lineWidth(terminal.out);
  const cases = options.case ?? [];
  const tables =
    rigs.length > 0
      ? renderRigs(rigs, { units: options.units, paint, width, cases })
      : ['no rig, vehicle or trailer in these files'];
  return [
    ...tables,
    '',
    ...(options.withDiagnostics ? [...renderDiagnostics(diagnostics, workspace.documents, paint), ''] : []),
    options.withDiagnostics
      ? paint('heading', summaryLine(diagnostics, workspace.documents.size))
      : summaryWithHint(workspace, diagnostics, paint),
    ...turnedOffLines(findTurnedOff(workspace), width),
    ...wrap(CAUTION, width, '', ''),
  ];
}

/** The summary of a command that does not print the diagnostics, with where they are. */
export function summaryWithHint(
  { documents }: CheckedWorkspace,
  diagnostics: readonly FoundDiagnostic[],
  paint: Paint,
): string {
  return paint('heading', summaryLine(diagnostics, documents.size)) + checkHint(diagnostics);
}

/** Where more is said of errors and warnings, where there are any. */
export function checkHint(diagnostics: readonly FoundDiagnostic[]): string {
  const { error, warning } = tally(diagnostics);
  return error + warning > 0 ? '; `rigwright check` tells more' : '';
}

/** Opens the files and finds the rigs asked for; undefined after a name that nothing has, which is told at once. */
export async function openRigs(
  named: readonly string[],
  options: CommonOptions & Pick<LoadsCommandOptions, 'rig' | 'case'>,
  terminal: Terminal,
): Promise<{ readonly workspace: CheckedWorkspace; readonly rigs: readonly FoundRig[] } | undefined> {
  const workspace = await open(named, options, terminal);
  const rigs = findRigs(workspace, options.rig);
  const wrong = wrongNames(workspace, rigs, options);
  if (wrong === undefined) return { workspace, rigs };
  writeError(terminal, options, wrong);
  return undefined;
}

/** Finds, reads and analyses the files; what cannot be had is told at once on the error output. */
export async function open(
  named: readonly string[],
  options: CommonOptions,
  terminal: Terminal,
): Promise<CheckedWorkspace> {
  const workspace = await loadWorkspace(await findInputs(named, terminal.cwd), terminal.cwd);
  for (const { input, message } of workspace.problems) writeError(terminal, options, `${input}: ${message}`);
  return workspace;
}

export async function exitCode(
  workspace: CheckedWorkspace,
  diagnostics: readonly FoundDiagnostic[],
  options: CommonOptions,
  terminal: Terminal,
): Promise<number> {
  if (workspace.problems.length > 0) return UNUSABLE;
  if (options.expectErrors === undefined) return tally(diagnostics).error > 0 ? ERRORS_FOUND : CLEAN;
  const expected = await findInputs(options.expectErrors, terminal.cwd);
  for (const { input, message } of expected.problems) {
    writeError(terminal, options, `--expect-errors ${input}: ${message}`);
  }
  if (expected.problems.length > 0) return UNUSABLE;
  const surprises = unexpected(workspace, diagnostics, new Set(expected.files.map(uriOf)));
  for (const surprise of surprises) writeError(terminal, options, surprise);
  return surprises.length > 0 ? ERRORS_FOUND : CLEAN;
}

/** What is wrong with the names that `--rig` and `--case` give; undefined when all are found. */
function wrongNames(
  workspace: CheckedWorkspace,
  rigs: readonly FoundRig[],
  options: Pick<LoadsCommandOptions, 'rig' | 'case'>,
): string | undefined {
  if (workspace.documents.size === 0) return undefined; // nothing was read, and that was said
  const unknown = (option: string, name: string, known: readonly string[]): string =>
    `--${option} ${name}: nothing in these files is called that; ${nameHelp(name, known)}`;
  const missing = (wanted: readonly string[], known: ReadonlySet<string>) => wanted.find((name) => !known.has(name));
  const rigNames = new Set(namesOfRigs(rigs));
  const rig = missing(options.rig ?? [], rigNames);
  if (rig !== undefined) return unknown('rig', rig, namesOfRigs(findRigs(workspace)));
  const caseNames = new Set(rigs.flatMap(({ result }) => result.states.map((state) => state.case.name)));
  // Rigs whose loads cannot be computed have no cases; the output says so.
  const oneCase = caseNames.size === 0 ? undefined : missing(options.case ?? [], caseNames);
  return oneCase === undefined ? undefined : unknown('case', oneCase, [...caseNames]);
}

/** What a name that nothing has may have meant. */
export function nameHelp(name: string, known: readonly string[]): string {
  const near = nearestName(name, known);
  if (near !== undefined) return `did you mean ${near}?`;
  return known.length > 0 ? `there is ${listed(known)}` : 'there is none';
}

function namesOfRigs(rigs: readonly FoundRig[]): string[] {
  return rigs.map(({ result }) => result.rig.name);
}

export function writeLines(terminal: Terminal, lines: readonly string[]): void {
  terminal.out.write(`${lines.join('\n')}\n`);
}

export function writeError(terminal: Terminal, options: Pick<CommonOptions, 'color'>, message: string): void {
  const paint: Paint = painter(options.color, terminal.error, terminal.environment);
  terminal.error.write(`${paint('error', 'rigwright:')} ${oneLine(message)}\n`);
}
