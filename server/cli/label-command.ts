import type { MarketName } from '../../language/catalogue/markets.ts';
import { LABEL_CAUTION } from '../../language/label/label.ts';
import {
  type CommonOptions,
  exitCode,
  nameHelp,
  open,
  summaryWithHint,
  UNUSABLE,
  writeError,
  writeLines,
} from './commands.ts';
import { findDiagnostics } from './findings.ts';
import { renderJson } from './json.ts';
import { renderLabels } from './label-text.ts';
import { findLabels, unitNames } from './labels.ts';
import { findRigs } from './rigs.ts';
import { lineWidth, painter, type Terminal } from './terminal.ts';
import { wrap } from './text.ts';

export interface LabelCommandOptions extends CommonOptions {
  readonly unit?: readonly string[];
  readonly market?: readonly MarketName[];
}

/** `rigwright label`: prints drafts of what plates and labels of units say, and gives the exit code. */
export async function label(
  named: readonly string[],
  options: LabelCommandOptions,
  terminal: Terminal,
): Promise<number> {
  const workspace = await open(named, options, terminal);
  const rigs = findRigs(workspace);
  const { unit: units = [], market: markets = [] } = options;
  const known = unitNames(rigs);
  const unknown = units.find((name) => !known.includes(name));
  if (unknown !== undefined && workspace.documents.size > 0) {
    const help = nameHelp(unknown, known);
    writeError(terminal, options, `--unit ${unknown}: no vehicle or trailer here is called that; ${help}`);
    return UNUSABLE;
  }
  const labels = findLabels(rigs, { units, markets });
  const diagnostics = findDiagnostics(workspace);
  const shown = findDiagnostics(workspace, options.level);
  if (options.format === 'json') {
    terminal.out.write(renderJson({ workspace, diagnostics: shown, labels }));
  } else if (workspace.documents.size > 0) {
    const paint = painter(options.color, terminal.out, terminal.environment);
    const width = lineWidth(terminal.out);
    writeLines(terminal, [
      ...(labels.length > 0 ? renderLabels(labels, { paint, width }) : [NO_LABELS]),
      '',
      summaryWithHint(workspace, diagnostics, paint),
      ...wrap(LABEL_CAUTION, width, '', ''),
    ]);
  }
  return exitCode(workspace, diagnostics, options, terminal);
}

const NO_LABELS = 'no rig of these units names a market: name one in the rig (rig Weekend in US), or give --market US';
