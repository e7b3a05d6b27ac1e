// Adds up what the steps of .ci/run did, given as NAME=EXIT_STATUS. A step with reports in out/reports counts its tests;
// the others count as one check each. A step that failed although no test of it did, and a layer that ran nothing,
// count as one failure.
import { existsSync, readFileSync } from 'node:fs';
import path from 'node:path';

const FAST_LAYERS = ['unit', 'published', 'laws', 'architecture', 'grammar', 'protocol'];

const read = (name) => {
  const file = path.join('out/reports', name);
  return existsSync(file) ? JSON.parse(readFileSync(file, 'utf8')) : undefined;
};

/** Counts of a layer of the fast suite: the test files in its folder. A file that does not load is a failure. */
function fastLayer(layer) {
  const folder = `${path.resolve('tests', layer)}${path.sep}`;
  const files = (read('vitest.json')?.testResults ?? []).filter(({ name }) => path.resolve(name).startsWith(folder));
  const tests = files.flatMap(({ assertionResults }) => assertionResults);
  const count = (status) => tests.filter((test) => test.status === status).length;
  const broken = files.filter(({ status, assertionResults }) => status === 'failed' && assertionResults.length === 0);
  return { name: `fast: ${layer}`, passed: count('passed'), failed: count('failed') + broken.length };
}

function reported(name) {
  const { passed, failed } = read(`${name}.json`) ?? { passed: 0, failed: 0 };
  return { name, passed, failed };
}

const LAYERS_OF_STEP = {
  fast: () => FAST_LAYERS.map(fastLayer),
  host: () => [reported('host')],
  workbench: () => [reported('workbench')],
};

/** Rows of the table for one step. */
function rowsOf(step) {
  const [name, status] = step.split('=');
  const succeeded = status === '0';
  const layers = LAYERS_OF_STEP[name]?.();
  if (!layers) return [{ name, passed: succeeded ? 1 : 0, failed: succeeded ? 0 : 1 }];
  const rows = layers.map((layer) =>
    layer.passed + layer.failed > 0 ? layer : { ...layer, failed: 1, note: 'ran nothing' },
  );
  const explained = rows.some(({ failed }) => failed > 0);
  if (!succeeded && !explained) rows.push({ name, passed: 0, failed: 1, note: `exit status ${status}` });
  return rows;
}

const rows = process.argv.slice(2).flatMap(rowsOf);
console.log();
for (const { name, passed, failed, note } of rows) {
  console.log(
    `${name.padEnd(20)} ${String(passed).padStart(5)} passed ${String(failed).padStart(4)} failed  ${note ?? ''}`,
  );
}
const sum = (key) => rows.reduce((total, row) => total + row[key], 0);
console.log(`\n${sum('passed')} passed, ${sum('failed')} failed`);
process.exit(sum('failed') > 0 || sum('passed') === 0 ? 1 : 0);
