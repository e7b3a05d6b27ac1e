// Bundles the extension, the language server and the command line into dist/, minified, for Node 20 and newer.
//   node esbuild.mjs              production bundles and dist/THIRD-PARTY-NOTICES.txt
//   node esbuild.mjs --dev        not minified, with source maps
//   node esbuild.mjs --meta       also prints what each bundle is made of
//   node esbuild.mjs --host-tests also bundles the extension-host tests into out/host/
import { mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { build } from 'esbuild';
import { sizeReport, thirdPartyNotices } from './server/scripts/bundle-report.mjs';

const has = (flag) => process.argv.includes(flag);
const dev = has('--dev');

/** Shipped bundles: output name in dist/ → entry point. A dynamic import() inside stays lazy: it is evaluated on first use. */
const SHIPPED = {
  extension: 'client/extension.ts',
  server: 'server/node.ts',
  language: 'server/language-bundle.ts',
  cli: 'server/cli/main.ts',
};

/** Bundles that only tests load: output name in out/host/ → entry point. */
const HOST_TESTS = {
  suite: 'tests/host/suite/index.ts',
};

/** The server starts before it needs the language: its dynamic import of that bundle is left to the bundle. */
const languageApart = {
  name: 'language-apart',
  setup: ({ onResolve }) => {
    onResolve({ filter: /\/language-bundle\.ts$/ }, ({ kind }) =>
      kind === 'dynamic-import' ? { path: './language.js', external: true } : undefined,
    );
  },
};

/** VS Code 1.91, the oldest supported, runs extensions and their servers on Node 20. */
const node = {
  bundle: true,
  platform: 'node',
  format: 'cjs',
  target: 'node20',
  logLevel: 'warning',
  metafile: true,
  external: ['vscode'],
  // ECMAScript modules first: the UMD builds of some packages ask for their parts at run time.
  mainFields: ['module', 'main'],
  // Node 20 lacks Object.groupBy; a CommonJS bundle lacks import.meta.url.
  define: { 'Object.groupBy': 'objectGroupBy', 'import.meta.url': 'moduleUrl' },
  inject: ['server/scripts/object-group-by.mjs', 'server/scripts/module-url.mjs'],
};

// Only the bundles are cleared: a packaged .vsix in dist/ may be in use.
mkdirSync('dist', { recursive: true });
for (const name of Object.keys(SHIPPED)) rmSync(`dist/${name}.js.map`, { force: true });

const builds = [
  build({
    ...node,
    entryPoints: SHIPPED,
    outdir: 'dist',
    plugins: [languageApart],
    supported: { 'dynamic-import': false }, // becomes require, which is quicker
    minify: !dev,
    sourcemap: dev,
    legalComments: 'none', // the licence texts themselves go into THIRD-PARTY-NOTICES.txt
  }),
];
if (has('--host-tests')) {
  const external = ['vscode', 'mocha'];
  builds.push(build({ ...node, entryPoints: HOST_TESTS, outdir: 'out/host', sourcemap: 'inline', external }));
}
const [shipped] = await Promise.all(builds).catch(() => process.exit(1)); // esbuild has printed what is wrong
writeFileSync('dist/THIRD-PARTY-NOTICES.txt', thirdPartyNotices(shipped.metafile));
if (has('--meta')) console.log(sizeReport(shipped.metafile));
