import path from 'node:path';
import { svgOf } from '../../language/drawing/svg.ts';
import { windowPlot } from '../../language/drawing/window-plot.ts';
import { reachesOf } from '../../language/rules/reach/check-reach.ts';
import { chooseTwo } from '../../language/rules/window/choose.ts';
import { isLimited } from '../../language/rules/window/question.ts';
import { type OperatingWindow, windowOf } from '../../language/rules/window/window.ts';
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
import { writePlots } from './plots.ts';
import type { FoundRig } from './rigs.ts';
import { lineWidth, painter, type Terminal } from './terminal.ts';
import { listed, wrap } from './text.ts';
import { unitsFor } from './units.ts';
import { renderWindow } from './window-text.ts';
import type { CheckedWorkspace } from './workspace.ts';

export interface WindowCommandOptions extends CommonOptions {
  readonly rig?: string;
  readonly case?: string;
  /** As written: `fresh,waste`. */
  readonly of: string;
  readonly practice?: boolean;
  readonly nominal?: boolean;
  /** Those of the rig where absent. */
  readonly units?: DisplaySystem;
  /** File that the drawing goes into. */
  readonly svg?: string;
  readonly force?: boolean;
}

/** The window of a rig, and where the rig stands. */
export interface FoundWindow {
  readonly found: FoundRig;
  readonly window: OperatingWindow;
  readonly units: DisplaySystem;
}

/** `rigwright window`: prints the levels of two tanks or items with which all limits hold, and gives the exit code. */
export async function window(
  named: readonly string[],
  options: WindowCommandOptions,
  terminal: Terminal,
): Promise<number> {
  if (options.force && options.svg === undefined) return refuse('--force: it belongs to --svg');
  const names = namesIn(options.of);
  if (typeof names === 'string') return refuse(`--of ${options.of}: ${names}`);
  const opened = await openRigs(named, asLists(options), terminal);
  if (opened === undefined) return UNUSABLE;
  const { workspace, rigs } = opened;
  if (workspace.documents.size === 0) return UNUSABLE;
  const whole = rigs.filter(({ kind }) => kind === 'rig');
  // Units that no rig uses are looked at alone where there is no rig.
  const candidates = options.rig === undefined && whole.length > 0 ? whole : rigs;
  const [found, ...others] = candidates;
  if (found === undefined) return refuse('no rig, vehicle or trailer in these files');
  if (others.length > 0) return refuse(severalWords(candidates));
  const asked = findWindow(found, workspace, names, options);
  if ('problem' in asked) return refuse(asked.problem);
  const plots = await writeAsked(asked);
  if (plots === undefined) return UNUSABLE;
  const diagnostics = findDiagnostics(workspace);
  const shown = findDiagnostics(workspace, options.level);
  if (options.format === 'json') {
    terminal.out.write(renderJson({ workspace, diagnostics: shown, window: asked, plots }));
  } else {
    const paint = painter(options.color, terminal.out, terminal.environment);
    const width = lineWidth(terminal.out);
    writeLines(terminal, [
      ...renderWindow(asked, { paint, width }),
      '',
      ...(plots.length > 0 ? [...plots.map((file) => `plot written: ${file}`), ''] : []),
      summaryWithHint(workspace, shown, paint),
      ...turnedOffLines(findTurnedOff(workspace), width),
      ...wrap(CAUTION, width, '', ''),
    ]);
  }
  return exitCode(workspace, diagnostics, options, terminal);

  function refuse(message: string): number {
    writeError(terminal, options, message);
    return UNUSABLE;
  }

  /** The drawing's file; undefined where it cannot be written, which is told. */
  async function writeAsked({ window: drawn, units }: FoundWindow): Promise<readonly string[] | undefined> {
    if (options.svg === undefined) return [];
    const { dir, base, ext } = path.parse(options.svg);
    const wrong =
      base === ''
        ? 'name a file'
        : ext.toLowerCase() === '.svg'
          ? undefined
          : 'the drawing is SVG; end its name in .svg';
    if (wrong !== undefined) {
      refuse(`--svg ${options.svg}: ${wrong}`);
      return undefined;
    }
    const target = { folder: dir === '' ? '.' : dir, cwd: terminal.cwd, force: options.force === true };
    const written = await writePlots([{ file: base, svg: svgOf(windowPlot(drawn, units, CAUTION)) }], target);
    if (!('message' in written)) return written;
    refuse(`--svg ${written.input}: ${written.message}`);
    return undefined;
  }
}

function asLists(options: WindowCommandOptions) {
  const { rig, case: one, ...common } = options;
  return {
    ...common,
    ...(rig === undefined ? {} : { rig: [rig] }),
    ...(one === undefined ? {} : { case: [one] }),
  };
}

/** That several rigs are meant, and how to name one of them. */
function severalWords(found: readonly FoundRig[]): string {
  const names = [...new Set(found.map(({ result }) => result.rig.name))];
  const what = found.every(({ kind }) => kind === 'rig') ? 'rig' : 'vehicle or trailer';
  const [only] = names;
  if (names.length === 1) return `more than one ${what} is called ${only}; name one file`;
  return `there is more than one ${what}; name one with --rig: ${listed(names, 'or')}`;
}

/** Two names, or what is wrong with them. */
function namesIn(written: string): readonly [string, string] | string {
  const names = written.split(',').map((name) => name.trim());
  const [first = '', second = '', ...others] = names;
  if (names.some((name) => name === '') || second === '') {
    return 'name two tanks or items with a comma between them, such as fresh,waste';
  }
  if (others.length > 0) return `${names.length} are named; a window has two`;
  return [first, second];
}

function findWindow(
  found: FoundRig,
  { analysis }: CheckedWorkspace,
  names: readonly [string, string],
  options: WindowCommandOptions,
): FoundWindow | { readonly problem: string } {
  const { result, document } = found;
  const { rig } = result;
  const reaches = reachesOf(result);
  if (reaches === undefined) return { problem: `${rig.name} has no loads; \`rigwright check\` says what is missing` };
  const axes = chooseTwo(reaches, names);
  if ('problem' in axes) return { problem: `--of ${options.of}: ${axes.problem}` };
  const levels = analysis.levels(document.uri, rig.location.declaration);
  const asked = windowOf(result, reaches, axes, {
    ...(options.case === undefined ? {} : { case: options.case }),
    tolerances: options.nominal ? 'nominal' : 'worst',
    practice: options.practice === true,
    isOff: (code) => levels.get(code)?.level === 'off',
  });
  if (asked === undefined) return { problem: `--case ${options.case}: ${rig.name} has no such case` };
  if (!isLimited(asked.held)) {
    return { problem: `${rig.name} has no limits to hold: state ratings, limits or what is required of it` };
  }
  return { found, window: asked, units: unitsFor(rig, options.units) };
}
