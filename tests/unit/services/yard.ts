/*
 * An invented yard: a truck and a trailer with round numbers, so that every load can be checked with the law of the
 * lever (moments about a support; any textbook of statics).
 */

/** Wheelbase 3000 mm, hitch 1000 mm behind the rear axle. */
export const TRUCK = `
## The yard's old truck.
vehicle Truck "Yard truck" {
  wheelbase 3000 mm, track 1600 mm
  kerb 1200 kg on front, 800 kg on rear, 600 mm up, inertia 3000 kg·m²
  hitch ball at 1000 mm behind rear, 430 mm up, rating 150 kg
  seat driver 80 kg at 1500 mm back, 400 mm left, 700 mm up
  tank fuel 60 L of diesel at 2400 mm back, 400 mm up
  limits { GVM 2400 kg  towing 2000 kg }
}
`;

/** Axle 3000 mm behind the coupling. */
export const TRAILER = `
## Flat bed.
trailer Cart "Flat cart" {
  coupling ball 50 mm, 430 mm up
  axles single at 3000 mm back, track 1500 mm {
    rating 900 kg
    tyres 2 x "195R14C 106/104Q" at 450 kPa
  }
  brakes overrun
  tare 300 kg at 2800 mm back, 500 mm up, inertia 400 kg·m²
  limits { ATM 1000 kg  coupling 100 kg }
  ## Drinking water.
  tank fresh 100 L of water at 1500 mm back, 300 mm left, 400 mm up, size 1000 x 500 x 200 mm
  locker bed from 2000 mm to 4000 mm back, floor 500 mm up, holds 250 kg
  group rack at 2000 mm back, 600 mm up {
    fitting bar 4 kg at 100 mm back, 50 mm up
    fitting hook 1 kg at 200 mm behind bar, 50 mm up
  }
}
`;

export const ITEMS = `
## Steel box with hand tools.
item toolbox 60 kg "Tool box" size 800 x 400 x 400 mm tolerance 2 kg tags heavy, keep_low
item sack 25 kg
`;

export const RIG = `
rig Delivery "Deliveries" in AU {
  tow Truck with driver
  haul Cart
  stow toolbox in Cart.bed
  stow 2 x sack in Cart.bed at 500 mm behind axles, 600 mm up
  travel 90 km/h, grades -8 % to 6 %
  case out "Outward" { fresh 100 %  fuel 100 % }
  case back { fresh 0 % to 40 %  Truck.fuel 50 %  absent toolbox }
  require Cart.coupling.share between 4 % and 15 % in out "house rule"
}
`;

/** All of it in one file. */
export const YARD = TRUCK + TRAILER + ITEMS + RIG;

/** A source with a caret just inside the `index`-th (from 0) place where `text` stands. */
export function caretAt(source: string, text: string, index = 0): string {
  let offset = -1;
  for (let found = 0; found <= index; found++) offset = source.indexOf(text, offset + 1);
  if (offset < 0) throw new Error(`No '${text}' in the source.`);
  return `${source.slice(0, offset + 1)}|${source.slice(offset + 1)}`;
}
