/** Prints how fast the built server is, next to a server that does nothing on the same library. Not a test. */

import { build } from 'esbuild';
import { SETTLING_PAUSE_MS } from '../../server/session.ts';
import { measureEnvelope } from './envelope.ts';
import { type Measurement, measure, measureInitialize } from './measure.ts';
import { measureSettling, measureStability } from './stability.ts';
import { generate } from './workspace.ts';

const SERVER = 'dist/server.js';
const FLOOR = 'out/bench/floor.js';
const INITIALIZE_ROUNDS = 15;
/** Lines of the document, and how many times the floor's time an edit may take. */
const SIZES: readonly { readonly lines: number; readonly goal?: number }[] = [
  { lines: 1_000 },
  { lines: 10_000, goal: 3 },
  { lines: 50_000, goal: 4 },
];
const MOST_MEMORY = 200e6;
const INITIALIZE_GOAL = 1.3;
/** Milliseconds. */
const STABILITY_GOAL = 10;
/** Milliseconds for both ends of one quantity with 40 things free. */
const ENVELOPE_GOAL = 2;
/** The search over states may take as many times what the named ones take. */
const REACH_GOAL = 2;
/** The stability of what an edit reached is published at most one frame after the rest. */
const FRAME = 1000 / 60;

const milliseconds = (value: number): string => `${value.toFixed(2)} ms`;
const megabytes = (value: number): string => `${(value / 1e6).toFixed(0)} MB`;

const ROWS: readonly [name: string, key: keyof Measurement, format: (value: number) => string][] = [
  ['edit to diagnostics, p50', 'editMedian', milliseconds],
  ['edit to diagnostics, p95', 'edit95', milliseconds],
  ['open to diagnostics, p50', 'open', milliseconds],
  ['hover, p50', 'hover', milliseconds],
  ['resident memory', 'memory', megabytes],
];

function row(name: string, server: number, floor: number, format: (value: number) => string, goal?: string): void {
  const ratio = `${(server / floor).toFixed(2)}x`;
  console.log(
    `  ${name.padEnd(26)}${format(server).padStart(12)}${format(floor).padStart(12)}${ratio.padStart(9)}  ${goal ?? ''}`.trimEnd(),
  );
}

const verdict = (goal: string, isMet: boolean): string => `goal ${goal}: ${isMet ? 'met' : 'NOT met'}`;

await build({
  entryPoints: ['tests/bench/floor.ts'],
  outfile: FLOOR,
  bundle: true,
  platform: 'node',
  format: 'cjs',
  target: 'node20',
  minify: true,
  logLevel: 'warning',
});

console.log(`Node ${process.version}, ${process.platform} ${process.arch}`);
console.log(`  ${''.padEnd(26)}${'server'.padStart(12)}${'floor'.padStart(12)}${'ratio'.padStart(9)}`);
const [initialize = Number.NaN, floor = Number.NaN] = await measureInitialize([SERVER, FLOOR], INITIALIZE_ROUNDS);
const isQuick = initialize / floor < INITIALIZE_GOAL;
row('start to initialize, p50', initialize, floor, milliseconds, verdict(`< ${INITIALIZE_GOAL}x`, isQuick));

for (const { lines, goal } of SIZES) {
  const workload = generate(lines);
  console.log(`\n${workload.lines} lines, ${(workload.text.length / 1e6).toFixed(2)} MB`);
  const [server, nothing] = await measure([SERVER, FLOOR], workload);
  if (!server || !nothing) throw new Error('nothing was measured');
  const goals: Partial<Record<keyof Measurement, string>> = {
    memory: verdict(`< ${megabytes(MOST_MEMORY)}`, server.memory < MOST_MEMORY),
    editMedian: goal ? verdict(`<= ${goal}x`, server.editMedian / nothing.editMedian <= goal) : undefined,
  };
  for (const [name, key, format] of ROWS) row(name, server[key], nothing[key], format, goals[key]);
}

const envelope = measureEnvelope();
console.log(`\nEverything reachable of one rig, ${envelope.free} things free; the floor: the loads of its named case`);
row('ends of a share, p50', envelope.share, envelope.cases, milliseconds);
const isSoon = envelope.ranges < ENVELOPE_GOAL;
row(
  'ends of all figures, p50',
  envelope.ranges,
  envelope.cases,
  milliseconds,
  verdict(`< ${ENVELOPE_GOAL} ms`, isSoon),
);
row('all limits, p50', envelope.limits, envelope.cases, milliseconds);

const { items, whole, sensitivities, reachable, library } = measureStability();
console.log('\nLateral stability of one rig at 60 speeds; the floor: only its eigenvalues, by ml-matrix');
const stabilityGoal = (value: number): string => verdict(`< ${STABILITY_GOAL} ms`, value < STABILITY_GOAL);
row('5 cases, 5 roads, p50', whole, library, milliseconds, stabilityGoal(whole));
row(`moves of ${items} items, p50`, sensitivities, library, milliseconds, stabilityGoal(sensitivities));
const reachGoal = verdict(`<= ${REACH_GOAL}x the 5 cases`, reachable / whole <= REACH_GOAL);
row('worst reachable state, p50', reachable, library, milliseconds, reachGoal);
const settling = measureSettling(1_000);
const room = FRAME - SETTLING_PAUSE_MS;
console.log(
  `  after an edit of 1,000 lines, p50: ${milliseconds(settling)}  ${verdict(`< ${milliseconds(room)}`, settling < room)}`,
);
