/** Generated documents for the bench: an invented hire yard of any size, the same text for the same size. */

export interface Workload {
  readonly text: string;
  readonly lines: number;
  /** Where a letter can be put in and taken out again so that a name becomes unknown and known: offsets, in the middle third. */
  readonly places: readonly number[];
  /** Offsets of names, all over the text. */
  readonly names: readonly number[];
}

const ITEMS = ['toolbox', 'ladder', 'generator', 'awning', 'spare_wheel', 'water_can'] as const;

/** Whole bays, each with a vehicle, a trailer, items and a rig, until there are at least so many lines. */
export function generate(lines: number): Workload {
  const bays: string[] = [];
  for (let count = 0; count < lines; ) {
    const text = bay(bays.length + 1);
    bays.push(text);
    count += text.split('\n').length - 1;
  }
  const text = `# Invented scenario: a hire yard with ${bays.length} bays.\n${bays.join('')}`;
  const stowed = [...text.matchAll(/stow 2 x toolbox_\d+/g)].map((found) => found.index + found[0].length);
  return {
    text,
    lines: text.split('\n').length - 1,
    places: stowed.filter((place) => place > text.length / 3 && place < (text.length * 2) / 3),
    names: [...text.matchAll(/(?<=^(?:vehicle|trailer|rig|item) )\w/gm)].map(({ index }) => index),
  };
}

/** A number between the bounds that depends on the bay and on what it is for, and on nothing else. */
function vary(bay: number, salt: number, least: number, most: number): number {
  const mixed = Math.imul(bay * 31 + salt, 0x9e3779b1) >>> 0;
  return Math.round(least + ((most - least) * (mixed % 1000)) / 1000);
}

function bay(n: number): string {
  const items = ITEMS.map(
    (name, index) => `## Kept on shelf ${index + 1} of bay ${n}.
item ${name}_${n} ${vary(n, index, 6, 40)} kg size ${vary(n, index + 10, 300, 900)} x 400 x 300 mm
`,
  );
  return `
## The truck of bay ${n}.
vehicle Truck${n} "Truck of bay ${n}" {
  wheelbase 3200 mm, track 1680 mm
  tare ${vary(n, 20, 1150, 1250)} kg on front, ${vary(n, 21, 900, 980)} kg on rear, 680 mm up, gyration 1580 mm
  hitch ball at 1150 mm behind rear, 440 mm up, rating 250 kg
  seat driver 80 kg at 1350 mm back, 380 mm left, 700 mm up
  tank fuel 80 L of diesel at 2100 mm back, 450 mm up, size 900 x 400 x 300 mm
  locker bed from 2300 mm to 3900 mm back, floor 820 mm up, holds 600 kg
  limits { GVM 3200 kg  GCM 6000 kg  towing 3000 kg }
}

## The trailer of bay ${n}.
trailer Trailer${n} "Trailer of bay ${n}" {
  body from 900 mm to 5600 mm back, width 2040 mm, from 420 mm to 2300 mm up
  coupling ball 50 mm, 430 mm up
  axles tandem at 3420 mm back, spacing 820 mm, track 1860 mm, equalised {
    rating 2200 kg
  }
  tare ${vary(n, 22, 1000, 1100)} kg at ${vary(n, 23, 3180, 3240)} mm back, 720 mm up, gyration 1480 mm
  brakes electric
  tank fresh 95 L of water at 2600 mm back, 350 mm left, 510 mm up, size 900 x 450 x 240 mm
  locker front from 1000 mm to 2400 mm back, floor 500 mm up, holds 300 kg
  locker back from 4500 mm to 5500 mm back, floor 500 mm up, holds 200 kg
  limits { ATM 2000 kg  GTM 1850 kg  coupling 200 kg }
}

${items.join('\n')}
## What goes out of bay ${n}.
rig Hire${n} {
  tow Truck${n} with driver
  haul Trailer${n}
  stow 2 x toolbox_${n}, ladder_${n} in Truck${n}.bed
  stow generator_${n}, water_can_${n} in Trailer${n}.front
  stow awning_${n}, spare_wheel_${n} in Trailer${n}.back
  case departing { Trailer${n}.fresh 100 %  Truck${n}.fuel 100 % }
  case homebound { Trailer${n}.fresh 10 %  Truck${n}.fuel 20 % }
}
`;
}
