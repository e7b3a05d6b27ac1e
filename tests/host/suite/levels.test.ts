import { rmSync, writeFileSync } from 'node:fs';
import { suite, suiteSetup, suiteTeardown, test } from 'mocha';
import * as vscode from 'vscode';
import { closeAll, openInYard, replace, until, yard } from './support.ts';

/** Of 240 kg that stand 2050 mm behind the coupling of an axle at 2600 mm, 21 % are on the coupling: RW603, information. */
const HEAVY = `trailer Heavy {
  coupling ball 50 mm, 430 mm up
  axles single at 2600 mm back, track 1500 mm
  tare 240 kg at 2050 mm back, 520 mm up, inertia 210 kg·m²
  brakes overrun
}
`;
const SEVERITY = vscode.DiagnosticSeverity;

suite('levels of rules', () => {
  const settings = () => vscode.workspace.getConfiguration('rigwright');
  const fileOf = (name: string) => vscode.Uri.joinPath(yard(), name).fsPath;
  let document: vscode.TextDocument;

  /** Waits until the one finding of the file has the severity; undefined: until there is none. */
  const until603 = (severity: vscode.DiagnosticSeverity | undefined) =>
    until(`RW603 with severity ${severity}`, () => {
      const found = vscode.languages.getDiagnostics(document.uri);
      return severity === undefined ? found.length === 0 : found.length === 1 && found[0]?.severity === severity;
    });

  suiteSetup(async () => {
    writeFileSync(fileOf('heavy.rig'), HEAVY);
    document = await openInYard('heavy.rig');
  });
  suiteTeardown(async () => {
    await closeAll();
    for (const file of ['heavy.rig', 'rigwright.json']) rmSync(fileOf(file), { force: true });
  });

  test('follow the setting', async () => {
    await until603(SEVERITY.Information);
    await settings().update('levels', { RW603: 'error' }, vscode.ConfigurationTarget.Workspace);
    await until603(SEVERITY.Error);
    await settings().update('levels', { RW603: 'off' }, vscode.ConfigurationTarget.Workspace);
    await until603(undefined);
  });

  test('follow the workspace file, which goes before the setting, and tell what is wrong in it', async () => {
    const file = vscode.Uri.joinPath(yard(), 'rigwright.json');
    writeFileSync(file.fsPath, '{ "levels": { "RW603": { "level": "warning", "reason": "house rule" } } }\n');
    await until603(SEVERITY.Warning);
    writeFileSync(file.fsPath, '{ "levels": ');
    const wrong = () => vscode.languages.getDiagnostics(file).filter(({ source }) => source === 'rigwright');
    await until('a diagnostic in the file', () => wrong().length === 1);
    await until603(undefined);
    rmSync(file.fsPath);
    await until('no diagnostic in the file', () => wrong().length === 0);
  });

  test('follow a line of the file, which goes before both', async () => {
    await replace(document, 'brakes overrun', 'brakes overrun\n  rule RW603 error "by design"');
    await until603(SEVERITY.Error);
    await settings().update('levels', undefined, vscode.ConfigurationTarget.Workspace);
  });
});
