import { defineConfig } from 'vitest/config';

/** Tests that import the sources; they need no build. */
const SOURCE_LAYERS = ['unit', 'published', 'laws', 'architecture', 'grammar'];
/** Tests that run the bundles in dist/, which are built first. */
const BUILT_LAYERS = ['protocol'];

/** No test is about time: a busy machine may take as long as it needs. */
const TIMEOUT_MS = 60_000;

const filesOf = (layers: string[]): string[] => layers.map((layer) => `tests/${layer}/**/*.test.ts`);

export default defineConfig({
  test: {
    // The JSON report is what .ci/run counts.
    reporters: process.env.CI ? ['default', ['json', { outputFile: 'out/reports/vitest.json' }]] : ['default'],
    projects: [
      { test: { name: 'source', include: filesOf(SOURCE_LAYERS), testTimeout: TIMEOUT_MS } },
      { test: { name: 'built', include: filesOf(BUILT_LAYERS), globalSetup: 'tests/protocol/build.ts' } },
    ],
  },
});
