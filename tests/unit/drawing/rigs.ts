import { analyse, openDocument } from '../../../language/index.ts';
import { evaluateStability, type RigStability } from '../../../language/semantics/stability/evaluate-stability.ts';
import type { RigResult } from '../../../language/semantics/state.ts';

/** An invented van with a heavy box trailer: loaded at its tail it sways, over its axle it does less. */
export const SWAY = `vehicle Van {
  wheelbase 2600 mm, track 1500 mm
  tare 750 kg on front, 600 kg on rear, 600 mm up, gyration 1200 mm
  hitch ball at 900 mm behind rear, 420 mm up, rating 100 kg
}
trailer Box {
  coupling ball 50 mm, 420 mm up
  axles single at 3600 mm back, track 1600 mm, rating 1600 kg
  tare 900 kg at 3500 mm back, 600 mm up, gyration 1700 mm
  locker middle from 3200 mm to 4000 mm back, floor 500 mm up, width 1800 mm
  locker tail from 5300 mm to 6200 mm back, floor 500 mm up, width 1800 mm
  brakes overrun
}
item lead 50 kg size 300 x 300 x 200 mm
item tin 50 kg size 300 x 300 x 200 mm
rig Sway "Badly & <loaded>" {
  tow Van
  haul Box
  stow 3 x lead in Box.tail
  stow 5 x tin in Box.middle
  travel 70 km/h, grades -8 % to 6 %, braking 6 m/s²
  case rear_heavy "Lead at the tail" {}
  case centred { absent lead }
}
`;

/** The result of the only rig of a text. */
export function rigResult(text: string): RigResult {
  const uri = 'file:///a.rig';
  const analysis = analyse({ documents: new Map([[uri, { kind: 'text', syntax: openDocument(text) }]]) });
  for (const { entity } of analysis.entities(uri)) if (entity?.kind === 'rig') return entity.result;
  throw new Error('no rig in the text');
}

/** Its stability. */
export function stabilityOf(text: string): RigStability {
  const stability = evaluateStability(rigResult(text));
  if (stability === undefined) throw new Error('the rig tows nothing');
  return stability;
}

export function defined<T>(value: T | undefined): T {
  if (value === undefined) throw new Error('not defined');
  return value;
}
