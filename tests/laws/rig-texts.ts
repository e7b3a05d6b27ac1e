import fc from 'fast-check';
import type { Edit } from '../../language/index.ts';

/** A workspace whose declarations lean on each other in every way there is: what the laws edit. */
export const FILES: Readonly<Record<string, string>> = {
  'main.rig': `use "items.rig"
use "units.rig"
rule RW602 off "as agreed with the yard"

let depth = 300 mm
let wide = depth * 2 + 100 mm

## A rig of everything.
rig Weekend "Weekend" in AU {
  tow Truck with driver
  haul Hauler
  rule RW603, RW801 warning "house rule"
  stow 2 x bottle, awning in Hauler.bed
  travel 90 km/h, grades -6 % to 6 %
  case full { fresh 100 %  Truck.fuel 100 % }
  case empty { fresh 0 %  Truck.fuel 10 %
    absent awning }
  require Hauler.coupling.share between 4 % and 15 % "house rule"
}

variant Long of Hauler "Long bed" {
  axles single at 2900 mm back, track 1500 mm
  without jack
}

rig Second { tow Truck
  haul Long }
`,
  'units.rig': `use "items.rig"
let axle_line = 2600 mm

trailer Hauler "Tool trailer" {
  let bed_start = 500 mm
  coupling ball 50 mm, 430 mm up
  axles single at axle_line back, track 1500 mm { rating 1000 kg  tyres 2 x light }
  tare 240 kg at 2450 mm back, 520 mm up, inertia 210 kg·m²
  brakes overrun
  rule RW531 off "known"
  limits { ATM 750 kg  coupling 75 kg }
  tank fresh 40 L of brine at 1200 mm back, 500 mm up
  locker bed from bed_start to 3000 mm back, floor 600 mm up, holds 400 kg
  fitting jack 12 kg at 300 mm back, 500 mm up
  panel deck 2500 x 1500 mm of ply flat at 1800 mm back, 600 mm up
}

vehicle Truck {
  wheelbase 3200 mm, track 1680 mm
  kerb 1180 kg on front, 940 kg on rear, 680 mm up, inertia 4200 kg·m²
  hitch ball 50 mm at 1150 mm behind rear, 430 mm up
  seat driver 80 kg at 1350 mm back, 700 mm up
  tank fuel 70 L of diesel at 2600 mm back, 500 mm up
}
`,
  'items.rig': `## Gas.
item bottle 17.5 kg size 300 x 300 x 500 mm
item awning 38 kg "Roll-out awning" tags long
fluid brine 1.15 kg/L
material ply 8 kg/m²
tyre light "165R13C 94/92N" at 300 kPa
let spare = 3 kg
`,
};

const SNIPPETS = [
  '{',
  '}',
  '"',
  '\n',
  '\r\n',
  '\r',
  '#',
  '## doc\n',
  ' ',
  ',',
  '(',
  ')',
  '=',
  'item x 3 kg\n',
  '\nitem bottle 9 kg\n',
  '\nlet depth = wide\n',
  'use "items.rig"\n',
  'use "other.rig"\n',
  '\nuse "main.rig"\n',
  'trailer ',
  '\nrig ',
  'variant ',
  '<<<<<<< ours\n',
  '\n=======\n',
  '\n>>>>>>> theirs\n',
  'é',
  '😀',
  '\u00a0',
  '\uFEFF',
  '\0',
  'kg',
  'mm',
  '3',
  '-',
  'x',
  'Hauler',
  'bottle',
  'axle_line',
  'constructor',
  '__proto__',
  '1e999',
  'rule ',
  '\nrule RW531, RW603 off "snippet"\n',
  '\nrule RW602 error "snippet"\n',
] as const;

/** An edit that fits any text: places are shares of its length. */
export interface RandomEdit {
  readonly at: number;
  readonly length: number;
  readonly text: string;
}

export const randomEdit: fc.Arbitrary<RandomEdit> = fc.record({
  at: fc.double({ min: 0, max: 1, noNaN: true }),
  length: fc.oneof({ weight: 4, arbitrary: fc.constant(0) }, fc.nat(3), fc.nat(60)),
  text: fc.oneof(
    { weight: 2, arbitrary: fc.constant('') },
    { weight: 5, arbitrary: fc.constantFrom(...SNIPPETS) },
    fc.array(fc.constantFrom(...SNIPPETS), { minLength: 2, maxLength: 4 }).map((parts) => parts.join('')),
  ),
});

export function fit({ at, length, text }: RandomEdit, before: string): Edit {
  const start = Math.floor(at * before.length);
  return { start, end: Math.min(before.length, start + length), text };
}

export const apply = (text: string, edit: Edit): string => text.slice(0, edit.start) + edit.text + text.slice(edit.end);
