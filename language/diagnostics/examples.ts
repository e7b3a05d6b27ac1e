/** Units that the examples of the catalogue are made of: an invented yard. Every line is as an author would write it. */

/** A tow vehicle of 2120 kg without hitch; `lines` are added to its block, each with its line end. */
export const truck = (lines = '') => `vehicle Truck {
  wheelbase 3200 mm, track 1680 mm
  kerb 1180 kg on front, 940 kg on rear, 680 mm up, inertia 4200 kg·m²
${lines}}
`;

export const HITCH = '  hitch ball at 1150 mm behind rear, 430 mm up\n';

/** A trailer of 240 kg on one axle, its coupling load 8 % of it. */
export const hauler = (lines = '', axle = '') => `trailer Hauler {
  coupling ball 50 mm, 430 mm up
  axles single at 2600 mm back, track 1500 mm${axle}
  tare 240 kg at 2400 mm back, 520 mm up, inertia 210 kg·m²
  brakes overrun
${lines}}
`;

/** A deck over the hauler's centre of gravity: what stands on it keeps the share of the coupling load. */
export const BED = '  locker bed from 1400 mm to 3400 mm back, floor 500 mm up\n';

/** Sand, 400 kg unless said otherwise, low enough to make no odds. */
export const sand = (mass = 400) => `item sand ${mass} kg size 1800 x 1100 x 200 mm\n`;

/** The hauler behind the truck with sand in its bed; `lines` are added to the rig's block. */
export const delivery = (lines = '') => `rig Delivery {
  tow Truck
  haul Hauler
  stow sand in Hauler.bed
${lines}  case loaded { }
}
`;

/** The truck, the hauler with its bed, and the rig of both carrying sand; lines are added to the blocks. */
export const yard = (parts: {
  readonly sand?: number;
  readonly truck?: string;
  readonly hauler?: string;
  readonly axle?: string;
  readonly rig?: string;
}) =>
  [sand(parts.sand), truck(HITCH + (parts.truck ?? '')), hauler(BED + (parts.hauler ?? ''), parts.axle)].join('') +
  delivery(parts.rig);
