/*
 * The parts of the language reference that no table can give. Files stand whole; every one of them is analysed in the
 * tests. The scenario, its units and its people are invented.
 */

/** A whole file that touches most of the language. */
export const FIRST_FILE = `## What the crew of an invented yard takes along.
item toolbox 42 kg "Tool box" size 800 x 400 x 350 mm
item ladder 18 kg size 2100 x 400 x 150 mm

vehicle Truck "Yard truck" {
  wheelbase 3200 mm, track 1680 mm
  kerb 1180 kg on front, 940 kg on rear, 680 mm up, inertia 4200 kg·m²
  seat driver 80 kg at 1350 mm back, 380 mm left, 700 mm up
  hitch ball 50 mm at 1150 mm behind rear, 430 mm up, rating 250 kg
  limits { GVM 3200 kg  GCM 6000 kg  towing 3000 kg }
}

trailer Hauler "Tool trailer" {
  body from 800 mm to 4000 mm back, width 1600 mm, from 450 mm to 1500 mm up
  coupling ball 50 mm, 430 mm up
  axles single at 2600 mm back, track 1500 mm, rating 900 kg
  tare 240 kg at 2450 mm back, 520 mm up, inertia 210 kg·m²
  brakes overrun
  limits { ATM 1000 kg }
  locker bed from 1400 mm to 3400 mm back, floor 500 mm up, holds 500 kg
}

rig Delivery "To the site" {
  tow Truck with driver
  haul Hauler
  stow 4 x toolbox, ladder in Hauler.bed
  travel 90 km/h, grades -8 % to 8 %

  case out { }
  case back { absent toolbox }

  require Hauler.coupling.share between 4 % and 12 % "house rule for this trailer"
}
`;

/** Quantities and arithmetic. */
export const QUANTITY_FILE = `let bench_depth = 2 * 300 mm + 18 mm
let opening = 11 ft 3 in
let plank = 3 3/4 in
let half = (opening - bench_depth) / 2
let sheet_mass = 6.4 kg/m² * 4800 mm * 2040 mm
let share = 125 kg / 1385 kg
`;

/** Documentation of a declaration. */
export const COMMENT_FILE = `# This is a comment: it ends with its line.

## A gas bottle as the yard fills it.
## *Markdown* is shown as such.
item gas_bottle 17.5 kg "Gas bottle" size 310 x 310 x 580 mm   # with its valve cap
`;

/** Places in words. */
export const PLACE_LINES = `fitting rack 24 kg at 1200 mm back, 300 mm left, 900 mm up
fitting lamp 2 kg at 150 mm behind rack, 200 mm above rack
fitting box 6 kg at rack, 1400 mm up
fitting step 9 kg at 400 mm ahead of axles, 600 mm right, 350 mm up
fitting cooker 8 kg ± 0.5 kg at 2100 mm ± 20 mm back, 780 mm up
`;

/** Lines that a requirement may be written as. */
export const REQUIREMENT_LINES = `require Hauler.coupling.load at most 250 kg "plate of the hitch"
require YardTruck.front.lost at most 20 %
require Hauler.axles.load + YardTruck.rear.load at most 5000 kg
require rig.mass <= 6000 kg in loaded
`;

/** Levels of rules, with their reasons. */
export const LEVEL_LINES_EXAMPLE = `rule RW603 off "nose-heavy by design, see drawing 12"
rule RW612, RW613 error "house rule"
`;

/** A list of parts in place of a tare line. */
export const PARTS_FILE = `material ply_18 11.5 kg/m²
material channel_100 8.6 kg/m

trailer Cart {
  coupling ball 50 mm, 430 mm up
  axles single at 2400 mm back, track 1500 mm
  brakes overrun
  member rails 2 x 3200 mm of channel_100 lengthwise at 2300 mm back, 450 mm up
  panel floor 3000 x 1500 mm of ply_18 flat at 2350 mm back, 500 mm up
  fitting running_gear 95 kg at 2400 mm back, 330 mm up
  growth 3 %
}
`;
