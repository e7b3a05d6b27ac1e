import { randomUUID } from 'node:crypto';
import { lstat, rename, rm, stat, writeFile } from 'node:fs/promises';
import path from 'node:path';
import { dampingPlot } from '../../language/drawing/damping-plot.ts';
import { responsePlot } from '../../language/drawing/response-plot.ts';
import { svgOf } from '../../language/drawing/svg.ts';
import { errorCode } from '../files.ts';
import type { Problem } from './inputs.ts';
import type { FoundStability } from './stability-results.ts';
import { type AskedUnits, inUnitsOf } from './units.ts';

/** A picture and the file it goes into. */
export interface Plot {
  /** Without a folder. */
  readonly file: string;
  readonly svg: string;
}

/** Damping over speed and response over time of each rig, `damping-RIG.svg` and `response-RIG.svg`. */
export function plotsOf(rigs: readonly FoundStability[], asked: AskedUnits): Plot[] {
  const taken = new Set<string>();
  return rigs.flatMap(({ stability, worst }): Plot[] => {
    if (stability === undefined || worst === undefined) return [];
    const { units } = inUnitsOf(stability.rig, asked);
    const name = freeName(stability.rig.name, taken);
    const damping = dampingPlot(stability, units);
    const response = responsePlot(worst, stability.speed, units);
    return [
      ...(damping ? [{ file: `damping-${name}.svg`, svg: svgOf(damping) }] : []),
      ...(response ? [{ file: `response-${name}.svg`, svg: svgOf(response) }] : []),
    ];
  });
}

/** A rig's name as part of a file's name, unlike those taken, also where case makes no difference. */
function freeName(name: string, taken: Set<string>): string {
  const plain = name.replace(/[^\p{Letter}\p{Mark}\p{Number}_-]/gu, '_');
  let free = plain;
  for (let count = 2; taken.has(free.toLowerCase()); count++) free = `${plain}-${count}`;
  taken.add(free.toLowerCase());
  return free;
}

/**
 * Writes plots into a folder that exists: all, or none where one of the files is there and may not be replaced. A file is
 * replaced as such, never what a symbolic link points to. Gives the files' paths as named, or what is in the way.
 */
export async function writePlots(
  plots: readonly Plot[],
  { folder, cwd, force }: { readonly folder: string; readonly cwd: string; readonly force: boolean },
): Promise<readonly string[] | Problem> {
  const target = path.resolve(cwd, folder);
  try {
    if (!(await stat(target)).isDirectory())
      return { input: folder, message: 'it is a file; name a folder for the plots' };
  } catch (error) {
    const code = errorCode(error);
    const missing = code === 'ENOENT' || code === 'ENOTDIR';
    return { input: folder, message: missing ? 'there is no such folder; make it first' : `the system says ${code}` };
  }
  const named = (file: string) => path.join(folder, file).replaceAll(path.sep, '/');
  for (const { file } of plots) {
    const inTheWay = await obstacle(path.join(target, file), force);
    if (inTheWay !== undefined) return { input: named(file), message: inTheWay };
  }
  for (const { file, svg } of plots) {
    try {
      await replaceFile(path.join(target, file), svg, force);
    } catch (error) {
      return { input: named(file), message: `it cannot be written (${errorCode(error)})` };
    }
  }
  return plots.map(({ file }) => named(file));
}

/** What keeps a file from being written. */
async function obstacle(file: string, force: boolean): Promise<string | undefined> {
  try {
    const found = await lstat(file);
    if (found.isDirectory()) return 'it is a folder';
    return force ? undefined : 'it is there already; --force replaces it';
  } catch (error) {
    const code = errorCode(error);
    return code === 'ENOENT' ? undefined : `it cannot be looked at (${code})`;
  }
}

/** Writes beside the file and moves it there, so that it is whole at all times; without `force` only where none is. */
async function replaceFile(file: string, content: string, force: boolean): Promise<void> {
  if (!force) return writeFile(file, content, { flag: 'wx' });
  const draft = `${file}.${randomUUID()}.tmp`;
  try {
    await writeFile(draft, content, { flag: 'wx' });
    await rename(draft, file);
  } finally {
    await rm(draft, { force: true });
  }
}
