import { writeFileSync } from 'node:fs';
import Mocha from 'mocha';
import { version } from 'vscode';

interface Result {
  readonly title: string;
  readonly error?: string;
}

/**
 * The entry point that VS Code calls in its extension host: the run fails when this rejects. Writes the results to the
 * file that $RIGWRIGHT_HOST_RESULTS names.
 */
export async function run(): Promise<void> {
  const mocha = new Mocha({ ui: 'tdd', timeout: 30_000, color: false });
  mocha.suite.emit('pre-require', globalThis, '', mocha);
  // Imported only now, and in this order: the first file sees the extension before anything has activated it.
  await import('./activation.test.ts');
  await import('./diagnostics.test.ts');
  await import('./language-features.test.ts');
  await import('./levels.test.ts');
  await import('./pages.test.ts');
  await import('./virtual-workspace.test.ts');
  await import('./server-lifecycle.test.ts');

  const results: Result[] = [];
  await new Promise<number>((resolve) => {
    mocha
      .run(resolve)
      .on('pass', (test) => results.push({ title: test.fullTitle() }))
      .on('fail', (test, error: Error) =>
        results.push({ title: test.fullTitle(), error: error.stack ?? error.message }),
      );
  });
  const failed = results.filter(({ error }) => error !== undefined).length;
  const passed = results.length - failed;
  const report = process.env.RIGWRIGHT_HOST_RESULTS;
  if (report) {
    const summary = { passed, failed, vscode: version, node: process.versions.node, results };
    writeFileSync(report, JSON.stringify(summary, undefined, 1));
  }
  if (failed > 0 || passed === 0) throw new Error(`${passed} passed, ${failed} failed`);
}
