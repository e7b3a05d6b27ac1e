/** A pattern of names of computed quantities. `U` stands for a unit, `G` for an axle group, `A` for an axle of it. */
export interface ComputedName {
  readonly pattern: string;
  /** What it is in, or `share` for a plain number shown in per cent. */
  readonly measure: 'mass' | 'length' | 'moment of inertia' | 'share';
  readonly documentation: string;
}

/** Every name that a `require` line may ask about; the same names stand in hovers and in the JSON output. */
export const COMPUTED_NAMES: readonly ComputedName[] = [
  { pattern: 'U.mass', measure: 'mass', documentation: 'Everything on board, coupled or not.' },
  {
    pattern: 'U.payload',
    measure: 'mass',
    documentation: 'What is added to the empty unit: `U.mass` less the tare. How exact the tare is does not change it.',
  },
  {
    pattern: 'U.mass_in_running_order',
    measure: 'mass',
    documentation:
      'Of a vehicle: the tare, a driver of 75 kg and the tanks of petrol and diesel 90 % full, whatever the case says. Of a trailer: the tare. After (EU) 1230/2012 Art. 2; the 75 kg from memory.',
  },
  {
    pattern: 'U.cg.back',
    measure: 'length',
    documentation: "Centre of gravity: distance behind the unit's datum. Ahead of it the value is negative.",
  },
  {
    pattern: 'U.cg.left',
    measure: 'length',
    documentation: 'Centre of gravity: distance to the left of the middle line. To the right it is negative.',
  },
  { pattern: 'U.cg.up', measure: 'length', documentation: 'Centre of gravity: height above the road.' },
  {
    pattern: 'U.yaw_inertia',
    measure: 'moment of inertia',
    documentation: 'Yaw moment of inertia about the centre of gravity.',
  },
  {
    pattern: 'U.coupling.load',
    measure: 'mass',
    documentation: 'What the trailer puts on the unit ahead. Negative where it lifts the hitch.',
  },
  {
    pattern: 'U.coupling.share',
    measure: 'share',
    documentation: "The coupling load as a share of the trailer's mass.",
  },
  {
    pattern: 'U.coupling.drawbar',
    measure: 'mass',
    documentation: 'Force along the drawbar, as kg; positive where it is pulled.',
  },
  { pattern: 'U.hitch.load', measure: 'mass', documentation: 'What the next unit puts on this one.' },
  { pattern: 'U.axles_total', measure: 'mass', documentation: 'Load of all axles of the unit.' },
  { pattern: 'U.G.load', measure: 'mass', documentation: 'Load of an axle group, or of a single axle.' },
  { pattern: 'U.G.left', measure: 'mass', documentation: 'Load of its left wheels.' },
  { pattern: 'U.G.right', measure: 'mass', documentation: 'Load of its right wheels.' },
  {
    pattern: 'U.G.imbalance',
    measure: 'share',
    documentation: 'Difference of left and right as a share of the load: 0 % where both are equal.',
  },
  {
    pattern: 'U.G.lost',
    measure: 'share',
    documentation:
      'Only for the first axle group of a vehicle that tows: the share of its load that the trailer takes off. Negative where it gains load.',
  },
  {
    pattern: 'U.G.A.load',
    measure: 'mass',
    documentation: 'Load of one axle of a group of several; `axle1` is the foremost.',
  },
  { pattern: 'U.G.A.left', measure: 'mass', documentation: 'Load of the left wheel of that axle.' },
  { pattern: 'U.G.A.right', measure: 'mass', documentation: 'Load of the right wheel of that axle.' },
  { pattern: 'rig.mass', measure: 'mass', documentation: 'All units together.' },
  {
    pattern: 'rig.mass_ratio',
    measure: 'share',
    documentation: 'Mass of the trailers over the mass of the tow vehicle.',
  },
];
