import { execFileSync } from 'node:child_process';

/** Runs once before the tests of this folder, so that they never see bundles older than the sources. */
export default function setup(): void {
  execFileSync(process.execPath, ['esbuild.mjs'], { stdio: 'inherit' });
}
