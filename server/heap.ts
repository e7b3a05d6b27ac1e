import { setFlagsFromString } from 'node:v8';

/**
 * Keeps the young generation at the size it has now. Nearly all that reading and analysing a document allocates is
 * garbage at once; left alone, V8 answers with a young generation of up to a hundred megabytes, for little gain in
 * speed (see tests/bench). Called when the language has been loaded, so that start-up is not held back.
 */
export function keepYoungGenerationSmall(): void {
  setFlagsFromString('--semi-space-growth-factor=1');
}
