import { setFlagsFromString } from 'node:v8';

/**
 * Keeps the young generation at the size it has now, and has the old one collected once it has grown by half. Nearly
 * all that reading and analysing a document allocates is garbage after the next edit; left alone, V8 answers with a young
 * generation of up to a hundred megabytes and lets the old one grow to several times what is alive, for little gain in
 * speed (see tests/bench). Called when the language has been loaded, so that start-up is not held back.
 */
export function keepHeapSmall(): void {
  setFlagsFromString('--semi-space-growth-factor=1');
  setFlagsFromString('--heap-growing-percent=50');
}
