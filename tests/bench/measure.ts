import type { Position } from 'vscode-languageserver/node';
import { type ServerUnderTest, startServerUnderTest } from './server-under-test.ts';
import type { Workload } from './workspace.ts';

/** Times in milliseconds, memory in bytes. */
export interface Measurement {
  readonly open: number;
  readonly editMedian: number;
  readonly edit95: number;
  readonly hover: number;
  readonly memory: number;
}

const URI = 'file:///yard/hire.rig';
const OPENINGS = 5;
const WARM_UP_EDITS = 60;
const EDITS = 400;
const HOVERS = 100;

/**
 * Measures servers on one document, each with that document alone open. Each edit adds a diagnostic or takes it away. The
 * servers take turns edit by edit, so that what else the machine does falls on all of them.
 */
export async function measure(scripts: readonly string[], workload: Workload): Promise<Measurement[]> {
  const { text, places, names } = workload;
  const positionAt = createPositions(text);
  const subjects: Subject[] = [];
  for (const script of scripts) {
    const open = await measureOpening(script, workload);
    const server = await startServerUnderTest(script);
    await server.open(URI, text);
    subjects.push({ server, open, edits: [], hovers: [] });
  }
  const positions = places.map(positionAt);
  for (let index = 0; index < WARM_UP_EDITS + EDITS; index++) {
    for (const { server, edits } of subjects) edits.push(await edit(server, index, positions));
  }
  for (let index = 0; index < HOVERS; index++) {
    const position = positionAt(names[Math.floor((index * names.length) / HOVERS)] ?? 0);
    for (const { server, hovers } of subjects) hovers.push(await server.hover(URI, position));
  }
  const measured = subjects.map(
    ({ server, open, edits, hovers }): Measurement => ({
      open,
      editMedian: quantile(edits.slice(WARM_UP_EDITS), 0.5),
      edit95: quantile(edits.slice(WARM_UP_EDITS), 0.95),
      hover: quantile(hovers, 0.5),
      memory: server.memory(),
    }),
  );
  for (const { server } of subjects) await server.stop();
  return measured;
}

interface Subject {
  readonly server: ServerUnderTest;
  readonly open: number;
  readonly edits: number[];
  readonly hovers: number[];
}

/** Opens the document again and again in a process of its own, so that the memory of the others is that of one document. */
async function measureOpening(script: string, { text }: Workload): Promise<number> {
  const server = await startServerUnderTest(script);
  const times: number[] = [];
  for (let index = 0; index < OPENINGS; index++) {
    const uri = `file:///yard/opened-${index}.rig`;
    times.push(await server.open(uri, text));
    await server.close(uri);
  }
  await server.stop();
  return quantile(times, 0.5);
}

/** Puts a letter in or, every other time, takes it out again, at one place after the other; the time that takes. */
function edit(server: ServerUnderTest, index: number, places: readonly Position[]): Promise<number> {
  const place = places[Math.floor(index / 2) % places.length] ?? { line: 0, character: 0 };
  return index % 2 === 0 ? server.edit(URI, index + 2, place, 0, 'x') : server.edit(URI, index + 2, place, 1, '');
}

/** Times from the start of the process to the answer to `initialize`, for each script, taken in turn. */
export async function measureInitialize(scripts: readonly string[], rounds: number): Promise<number[]> {
  const times = scripts.map((): number[] => []);
  for (let round = 0; round < rounds; round++) {
    for (const [index, script] of scripts.entries()) {
      const server = await startServerUnderTest(script);
      times[index]?.push(server.initializeTime);
      await server.stop();
    }
  }
  return times.map((all) => quantile(all, 0.5));
}

function quantile(values: readonly number[], share: number): number {
  const sorted = values.toSorted((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * share))] ?? Number.NaN;
}

/** Positions of offsets in a text with LF line ends. */
function createPositions(text: string): (offset: number) => Position {
  const starts = [0, ...[...text.matchAll(/\n/g)].map(({ index }) => index + 1)];
  return (offset) => {
    const line = starts.findLastIndex((start) => start <= offset);
    return { line, character: offset - (starts[line] ?? 0) };
  };
}
