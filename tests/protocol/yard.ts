/** A small invented yard: a rig, and the file with its items. Also folders on disk to keep such files in. */

import { mkdtempSync, realpathSync, writeFileSync } from 'node:fs';
import { mkdir, rm } from 'node:fs/promises';
import os from 'node:os';
import path from 'node:path';
import { pathToFileURL } from 'node:url';

export const ITEMS = `## Steel box with hand tools.
item toolbox 42 kg size 800 x 400 x 400 mm
`;

/** Has no errors where `items.rig` beside it holds ITEMS. */
export const DELIVERY = `use "items.rig"

vehicle YardTruck "Yard truck" {
  wheelbase 3200 mm, track 1680 mm
  tare 1180 kg on front, 940 kg on rear, 680 mm up
  hitch ball at 1150 mm behind rear, 440 mm up, rating 250 kg
  seat driver 80 kg at 1350 mm back, 380 mm left, 700 mm up
  limits { GVM 3200 kg  GCM 6000 kg  towing 3000 kg }
}

trailer Hauler "Tool trailer" {
  coupling ball 50 mm, 430 mm up
  axles single at 2600 mm back, track 1500 mm
  tare 240 kg at 2450 mm back, 520 mm up
  locker bed from 1500 mm to 3500 mm back, floor 500 mm up, holds 400 kg
}

rig Delivery {
  tow YardTruck with driver
  haul Hauler
  stow toolbox in Hauler.bed
}
`;

/** The same in one file. */
export const ALONE = DELIVERY.replace('use "items.rig"\n', ITEMS);

export interface Folder {
  readonly path: string;
  readonly uri: string;
  /** Writes a file, making folders as needed, and gives its URI. */
  write(name: string, text: string | Uint8Array): Promise<string>;
  uriOf(name: string): string;
  remove(): Promise<void>;
}

/** A new folder in the system's folder for temporary files. */
export function createFolder(): Folder {
  const folder = realpathSync(mkdtempSync(path.join(os.tmpdir(), 'yard-')));
  const uriOf = (name: string): string => pathToFileURL(path.join(folder, name)).toString();
  return {
    path: folder,
    uri: pathToFileURL(folder).toString(),
    uriOf,
    write: async (name, text) => {
      await mkdir(path.dirname(path.join(folder, name)), { recursive: true });
      writeFileSync(path.join(folder, name), text);
      return uriOf(name);
    },
    remove: () => rm(folder, { recursive: true, force: true }),
  };
}
