// What the bundles are made of, from esbuild's metafile: sizes by package, and the licences that ship with them.
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';

const kilobytes = (bytes) => `${(bytes / 1024).toFixed(1).padStart(8)} kB`;

/** `node_modules/name` or `node_modules/@scope/name` that holds an input file (the innermost one), if any. */
function packageFolder(input) {
  const match = /^(.*node_modules\/(?:@[^/]+\/)?[^/]+)\//.exec(input);
  return match?.[1];
}

/** Own files are reported by their top-level folder, the others by package. */
const owner = (input) => packageFolder(input) ?? `${input.split('/')[0]}/`;

/** A table per bundle: its size, then the bytes that each package or own folder contributes, largest first. */
export function sizeReport(metafile) {
  const lines = [];
  for (const [file, output] of Object.entries(metafile.outputs)) {
    if (!file.endsWith('.js')) continue;
    const bytesByOwner = new Map();
    for (const [input, { bytesInOutput }] of Object.entries(output.inputs)) {
      bytesByOwner.set(owner(input), (bytesByOwner.get(owner(input)) ?? 0) + bytesInOutput);
    }
    lines.push(`${kilobytes(output.bytes)}  ${file}`);
    for (const [name, bytes] of [...bytesByOwner].sort((a, b) => b[1] - a[1])) {
      if (bytes > 0) lines.push(`${kilobytes(bytes)}    ${name}`);
    }
  }
  return lines.join('\n');
}

/** Licence texts of all packages in the bundles, as their licences ask for. Throws when a package brings none. */
export function thirdPartyNotices(metafile) {
  const folders = new Set(Object.keys(metafile.inputs).flatMap((input) => packageFolder(input) ?? []));
  const notices = [...folders].sort().map((folder) => {
    const manifest = JSON.parse(readFileSync(path.join(folder, 'package.json'), 'utf8'));
    const file = readdirSync(folder).find((name) => /^(licen[cs]e|copying)/i.test(name));
    const text =
      file && existsSync(path.join(folder, file)) ? readFileSync(path.join(folder, file), 'utf8').trim() : '';
    if (!text && !manifest.license) throw new Error(`${folder} ships neither a licence file nor a licence name`);
    return `${manifest.name} ${manifest.version} (${manifest.license ?? 'see below'})\n\n${text || 'No licence text in the package.'}`;
  });
  return `Rigwright includes the following libraries.\n\n${notices.join(`\n\n${'-'.repeat(80)}\n\n`)}\n`;
}
