/**
 * The vocabulary of the language: one table of statements, one of the words that follow a statement's head. The parser
 * takes its token classes from here; reading, completion, hovers and the language reference take the rest.
 */

/** Where a statement may stand: at the top of a file or in the block of another statement. */
export type Context =
  | 'file'
  | 'vehicle'
  | 'trailer'
  | 'axles'
  | 'limits'
  | 'group'
  | 'rig'
  | 'case'
  | 'reachable'
  | 'weighing'
  | 'pass'
  | 'variant';

/** Kinds of quantity by name; `language/units` gives each its dimension. */
export type QuantityKind =
  | 'number'
  | 'ratio'
  | 'length'
  | 'angle'
  | 'area'
  | 'mass'
  | 'volume'
  | 'density'
  | 'mass per area'
  | 'mass per length'
  | 'speed'
  | 'acceleration'
  | 'pressure'
  | 'moment'
  | 'moment of inertia'
  | 'spring rate'
  | 'cornering stiffness'
  | 'rotary damping'
  | 'rotary stiffness'
  | 'force';

export type Sign = 'positive' | 'not negative' | 'any';

/** Kinds of things a name may stand for. */
export type ThingKind =
  | 'unit'
  | 'vehicle'
  | 'trailer'
  | 'item'
  | 'fluid'
  | 'material'
  | 'tyre'
  | 'seat'
  /** A seat or a stowed item. */
  | 'aboard'
  | 'stowage'
  | 'case'
  | 'market'
  | 'tag'
  | 'code';

export interface ArgumentSpec {
  /** What follows the keyword: a value of one of these kinds, or names of things. */
  readonly quantity?: readonly QuantityKind[];
  readonly sign?: Sign;
  /** How many lengths an `x` joins: `900 x 450 x 240 mm`. */
  readonly parts?: readonly number[];
  /** A range with `to` is accepted. */
  readonly range?: boolean;
  /** Text, or the name of a tyre, with a count before it. */
  readonly text?: boolean;
  /** Text between quotes. */
  readonly quoted?: boolean;
  readonly names?: ThingKind;
  readonly list?: boolean;
  readonly documentation: string;
}

/** Words that introduce a value or names inside a statement. One word has one meaning wherever it stands. */
export const ARGUMENTS = {
  at: {
    quantity: ['length', 'pressure'],
    sign: 'any',
    documentation:
      'Where: a distance with a direction (`2600 mm back`), or the name of a thing to stand at. For tyres: the pressure.',
  },
  from: {
    quantity: ['length'],
    sign: 'any',
    range: true,
    documentation:
      'An extent: `from 1900 mm to 2700 mm back`, on both sides of the datum `from 900 mm ahead to 4450 mm back`, or from a named thing `from 300 mm to 900 mm behind axles`. Give one for each direction that is known.',
  },
  size: {
    quantity: ['length'],
    sign: 'positive',
    parts: [3],
    documentation: 'Outer size: length (fore and aft) x width x height.',
  },
  width: {
    quantity: ['length'],
    sign: 'positive',
    documentation: 'Width across the unit; in the middle unless the line says where.',
  },
  height: { quantity: ['length'], sign: 'positive', documentation: 'Inner or outer height.' },
  length: { quantity: ['length'], sign: 'positive', documentation: 'Length.' },
  frontal_area: {
    quantity: ['area'],
    sign: 'positive',
    documentation:
      "Area of the unit's outline seen from the front, for the drag of the air: `frontal_area 4.6 m²`. Without it the width and the height of the body give it.",
  },
  drag_coefficient: {
    quantity: ['number'],
    sign: 'positive',
    documentation:
      'Drag coefficient on the frontal area: `drag_coefficient 0.8`. The drag of a trailer stretches its coupling, which raises the zero-damping speed and lessens the understeer: it counts in the lateral stability, at the middle of the body, in air at rest. Loads are computed without it, and the drag of the vehicle in front changes nothing.',
  },
  diameter: { quantity: ['length'], sign: 'positive', documentation: 'Diameter of a round tank.' },
  floor: {
    quantity: ['length'],
    sign: 'any',
    documentation: 'Height of the floor that things stand on: `floor 320 mm up`.',
  },
  spacing: { quantity: ['length'], sign: 'positive', documentation: 'Distance between neighbouring axles of a group.' },
  track: {
    quantity: ['length'],
    sign: 'positive',
    documentation: 'Distance between the left and the right wheel planes.',
  },
  rate: {
    quantity: ['spring rate'],
    sign: 'positive',
    documentation: 'Vertical spring rate of one axle, both sides together.',
  },
  rating: {
    quantity: ['mass'],
    sign: 'positive',
    documentation: 'The rating on the plate: of an axle group, an axle, a coupling or a hitch.',
  },
  tyres: {
    text: true,
    documentation: 'Number and marking of the tyres: `4 x "195R14C 106/104Q"`, or the name of a `tyre`.',
  },
  holds: { quantity: ['mass'], sign: 'positive', documentation: 'The most that may be stowed in it.' },
  empty: { quantity: ['mass'], sign: 'not negative', documentation: 'Mass of the empty tank or bottle.' },
  level: {
    quantity: ['ratio'],
    sign: 'not negative',
    range: true,
    documentation: 'Level of the tank where a case does not state one.',
  },
  capacity: {
    quantity: ['mass'],
    sign: 'positive',
    documentation: 'Load one tyre may carry, where the marking does not say it.',
  },
  cornering: {
    quantity: ['cornering stiffness'],
    sign: 'positive',
    documentation: 'Cornering stiffness of one tyre at the load it is rated for: `cornering 0.9 kN/deg`.',
  },
  relaxation: { quantity: ['length'], sign: 'positive', documentation: 'Relaxation length of the tyre.' },
  damper: {
    quantity: ['rotary damping'],
    sign: 'not negative',
    documentation: 'Yaw damper at the hitch; only one that works in proportion to the rate, not friction.',
  },
  spring: { quantity: ['rotary stiffness'], sign: 'not negative', documentation: 'Yaw spring at the hitch.' },
  tolerance: {
    quantity: ['ratio', 'mass'],
    sign: 'not negative',
    documentation: 'How far the mass may be off, either way: as a share or as a mass.',
  },
  inertia: {
    quantity: ['moment of inertia'],
    sign: 'positive',
    documentation: 'Yaw moment of inertia about the own centre of gravity.',
  },
  gyration: { quantity: ['length'], sign: 'positive', documentation: 'Yaw radius of gyration, in place of `inertia`.' },
  moment: {
    quantity: ['moment'],
    sign: 'not negative',
    documentation: 'Moment that the device puts between the units.',
  },
  restores: {
    quantity: ['ratio'],
    sign: 'not negative',
    documentation: 'Share of the front-axle load lost to the trailer that the device brings back.',
  },
  grades: {
    quantity: ['ratio'],
    sign: 'any',
    range: true,
    documentation: 'Grades travelled, downhill negative: `grades -8 % to 6 %`.',
  },
  braking: { quantity: ['acceleration'], sign: 'not negative', documentation: 'Deceleration for the braking state.' },
  of: { names: 'fluid', documentation: 'What it is made of or filled with; for a variant, what it varies.' },
  in: {
    names: 'stowage',
    list: true,
    documentation:
      'Where a thing is stowed; for a rig, the markets whose rules apply; for a requirement, the cases it holds in; for a weighing, the case it was taken in.',
  },
  with: { names: 'seat', list: true, documentation: 'The seats that are taken.' },
  tags: { names: 'tag', list: true, documentation: 'Words to sort things by: `tags fragile, keep_low`.' },
  D: {
    quantity: ['force'],
    sign: 'positive',
    documentation:
      'The D value marked on a coupling or hitch (UN R55): the reference for the horizontal forces between tow vehicle and trailer.',
  },
  Dc: {
    quantity: ['force'],
    sign: 'positive',
    documentation: 'The Dc value marked on it: the D value for centre-axle trailers over 3.5 t.',
  },
  V: {
    quantity: ['force'],
    sign: 'positive',
    documentation:
      'The V value marked on it: the reference for the amplitude of the vertical force of centre-axle trailers over 3.5 t.',
  },
  S: {
    quantity: ['mass'],
    sign: 'positive',
    documentation: 'The S value marked on it: the vertical load it may carry. Another word for its `rating`.',
  },
  U: {
    quantity: ['mass'],
    sign: 'positive',
    documentation:
      'The U value marked on a fifth wheel: the vertical load it may carry. Another word for its `rating`.',
  },
  class: {
    quoted: true,
    documentation:
      'The class marked on it, between quotes: a letter of UN R55 with its size and type (`class "A50-X"`), or a class of SAE J684 (`class "III"`).',
  },
  longitudinal: {
    quantity: ['force'],
    sign: 'positive',
    documentation: 'The longitudinal force that coupling and drawbar withstand in the test, pulled and pushed.',
  },
  vertical: {
    quantity: ['force'],
    sign: 'positive',
    documentation: 'The vertical force that coupling and drawbar withstand in the test.',
  },
  wheel_radius: {
    quantity: ['length'],
    sign: 'positive',
    documentation:
      'Height of the wheel centres above the road, loaded: the unit turns about them when one end is raised.',
  },
  reference_pressure: {
    quantity: ['pressure'],
    sign: 'positive',
    documentation: 'Inflation pressure at which the tyre carries the load of its marking.',
  },
} as const satisfies Readonly<Record<string, ArgumentSpec>>;

export type ArgumentKeyword = keyof typeof ARGUMENTS;

/** Words that stand alone in a statement; at most one of each group. */
export const FLAGS = {
  arrangement: { single: 'One axle.', tandem: 'Two axles.', tri: 'Three axles.' },
  suspension: {
    equalised: 'The axles of the group share its load equally (rocker, balance beam, linked air bags).',
    independent: 'Every axle springs on its own; give `rate` where it is known.',
  },
  steering: { steered: 'The axle is steered.' },
  mounting: { dual: 'Two tyres at each end of the axle.' },
  coupling: {
    ball: 'Ball coupling.',
    pin: 'Pin coupling.',
    eye: 'Drawbar eye.',
    kingpin: 'Kingpin on a fifth wheel.',
    gooseneck: 'Gooseneck coupling above the rear axle.',
    drawbar: 'Hinged drawbar of a full trailer: carries no vertical load.',
  },
  brakes: {
    unbraked: 'No service brakes.',
    overrun: 'Overrun brakes.',
    electric: 'Electric brakes.',
    air: 'Air brakes.',
  },
  shape: {
    upright: 'A round tank that stands.',
    lying: 'A round tank that lies: across the unit, or `lying lengthwise`.',
  },
  orientation: {
    flat: 'The panel lies level.',
    lengthwise: 'Along the unit: a side wall, a rail, a lying tank.',
    crosswise: 'Across the unit: a front wall, a cross member, a lying tank.',
  },
  springing: {
    air_suspension: 'Air suspension, or one that the type approval takes as equivalent.',
  },
  vehicle_type: {
    passenger_car: 'Certified as a passenger car.',
    multipurpose_vehicle: 'Certified as a multipurpose passenger vehicle.',
    truck: 'Certified as a truck.',
    motor_home: 'Certified as a motor home.',
  },
  trailer_type: {
    recreation_trailer: 'Certified as a recreation vehicle trailer.',
    utility_trailer: 'Certified as a trailer of another kind.',
  },
  level: {
    off: 'What the rule finds is not reported; it is counted, with the reason given.',
    information: 'What the rule finds is reported as information.',
    warning: 'What the rule finds is reported as a warning.',
    error: 'What the rule finds is reported as an error.',
  },
} as const satisfies Readonly<Record<string, Readonly<Record<string, string>>>>;

export type FlagGroup = keyof typeof FLAGS;
export type FlagOf<G extends FlagGroup> = keyof (typeof FLAGS)[G] & string;

/** Directions from a unit's datum, or with `of` from a named thing. */
export const DIRECTIONS = { back: '-x', ahead: '+x', left: '+y', right: '-y', up: '+z', down: '-z' } as const;
/** Directions that need the thing they start from; `on` says what a reading stands on. */
export const RELATIONS = { behind: '-x', above: '+z', below: '-z', on: 'support' } as const;

export type HeadKind =
  /** The head, then the name it declares. */
  | 'declares'
  /** The head, then perhaps a name. */
  | 'may declare'
  /** The head, then names of things, perhaps counted. */
  | 'lists'
  /** The head alone. */
  | 'plain'
  /** `use`, `let`, `require`, `rule`: forms of their own. */
  | 'own form';

export interface StatementSpec {
  readonly keyword: string;
  /** Words of the trade that are read as the keyword. */
  readonly synonyms?: readonly string[];
  readonly contexts: readonly Context[];
  readonly head: HeadKind;
  /** What a listing head lists. */
  readonly lists?: ThingKind;
  /** A text between quotes may follow the name. */
  readonly title?: boolean;
  /** Kinds of the bare value, told apart by their unit. */
  readonly value?: readonly QuantityKind[];
  readonly valueParts?: readonly number[];
  readonly arguments?: readonly ArgumentKeyword[];
  readonly flags?: readonly FlagGroup[];
  /** Words of its flag groups that do not fit it. */
  readonly unfit?: readonly string[];
  /** Values with a direction place the thing. */
  readonly place?: boolean;
  readonly block?: Context;
  readonly documentation: string;
  /** A statement of this kind as it stands in its context. */
  readonly example: string;
}

const PARTS: readonly Context[] = ['vehicle', 'trailer', 'group'];
const UNITS: readonly Context[] = ['vehicle', 'trailer'];

export const STATEMENTS: readonly StatementSpec[] = [
  {
    keyword: 'use',
    contexts: ['file'],
    head: 'own form',
    documentation: 'Makes the names of another file of the workspace known here.',
    example: 'use "items.rig"',
  },
  {
    keyword: 'let',
    contexts: ['file', 'vehicle', 'trailer', 'group', 'rig'],
    head: 'own form',
    documentation: 'Names a quantity. The value may be computed from others: `+`, `-`, `*`, `/` and parentheses.',
    example: 'let bench_depth = 2 * 300 mm + 18 mm',
  },
  {
    keyword: 'item',
    contexts: ['file'],
    head: 'declares',
    title: true,
    value: ['mass'],
    arguments: ['size', 'tolerance', 'tags'],
    documentation: 'A thing that can be stowed.',
    example: 'item awning 38 kg "Roll-out awning" size 2600 x 160 x 160 mm tolerance 1 kg tags long',
  },
  {
    keyword: 'fluid',
    contexts: ['file'],
    head: 'declares',
    title: true,
    value: ['density'],
    documentation: 'A fluid by its density. Water, grey_water, diesel, petrol, LPG and AUS32 are built in.',
    example: 'fluid brine 1.15 kg/L',
  },
  {
    keyword: 'material',
    contexts: ['file'],
    head: 'declares',
    title: true,
    value: ['mass per area', 'mass per length'],
    documentation: 'A sheet by its mass per area or a section by its mass per length.',
    example: 'material sandwich_30 6.4 kg/m²',
  },
  {
    keyword: 'tyre',
    contexts: ['file'],
    head: 'declares',
    title: true,
    arguments: ['at', 'capacity', 'cornering', 'relaxation', 'reference_pressure'],
    documentation: 'A tyre by its marking.',
    example: 'tyre load_range "195R14C 106/104Q" at 450 kPa',
  },
  {
    keyword: 'vehicle',
    contexts: ['file'],
    head: 'declares',
    title: true,
    block: 'vehicle',
    documentation:
      'A tow vehicle, or one that travels alone. Its datum is the front axle, on the middle line, at road level.',
    example:
      'vehicle YardTruck "Yard truck" {\n  wheelbase 3200 mm, track 1680 mm\n  kerb 1180 kg on front, 940 kg on rear, 680 mm up\n}',
  },
  {
    keyword: 'trailer',
    contexts: ['file'],
    head: 'declares',
    title: true,
    block: 'trailer',
    documentation: 'A trailer. Its datum is the coupling centre, on the middle line, at road level.',
    example:
      'trailer Hauler "Tool trailer" {\n  coupling ball 50 mm, 430 mm up\n  axles single at 2600 mm back, track 1500 mm\n  tare 240 kg at 2450 mm back, 520 mm up\n}',
  },
  {
    keyword: 'variant',
    contexts: ['file'],
    head: 'declares',
    title: true,
    arguments: ['of'],
    block: 'variant',
    documentation:
      'A vehicle or trailer like another one, except for the lines given: a line replaces the line of the same head and name, `without` takes lines away.',
    example:
      'variant HaulerLong of Hauler "Tool trailer, long bed" {\n  axles single at 2900 mm back, track 1500 mm\n}',
  },
  {
    keyword: 'rig',
    contexts: ['file'],
    head: 'declares',
    title: true,
    arguments: ['in'],
    block: 'rig',
    documentation: 'A tow vehicle with what it pulls, who sits in it and what is stowed where. `in` names the markets.',
    example: 'rig Delivery in AU {\n  tow YardTruck\n  haul Hauler\n}',
  },

  {
    keyword: 'body',
    contexts: UNITS,
    head: 'plain',
    arguments: ['from', 'width', 'height', 'frontal_area', 'drag_coefficient'],
    documentation:
      'Outline of the body, for drawings and for checking that things lie inside, and the drag of the air on it.',
    example:
      'body from 880 mm to 5680 mm back, width 2040 mm, from 420 mm to 2550 mm up, frontal_area 4.6 m², drag_coefficient 0.8',
  },
  {
    keyword: 'wheelbase',
    contexts: ['vehicle'],
    head: 'plain',
    value: ['length'],
    arguments: ['track'],
    documentation: 'Distance from the front axle to the rear axle; gives the axles `front` and `rear` their places.',
    example: 'wheelbase 3200 mm, track 1680 mm',
  },
  {
    keyword: 'axles',
    synonyms: ['axle'],
    contexts: UNITS,
    head: 'may declare',
    arguments: ['at', 'spacing', 'track', 'rate', 'rating', 'tyres', 'reference_pressure'],
    flags: ['arrangement', 'suspension', 'steering', 'mounting', 'springing'],
    place: true,
    block: 'axles',
    documentation:
      'An axle or a group of axles; the place is the middle of the group. Without a name it is called `axles`.',
    example:
      'axles tandem at 3420 mm back, spacing 820 mm, track 1860 mm, equalised {\n    rating 2200 kg\n    tyres 4 x "195R14C 106/104Q" at 450 kPa\n  }',
  },
  {
    keyword: 'coupling',
    contexts: ['trailer'],
    head: 'plain',
    value: ['length'],
    arguments: ['at', 'rating', 'D', 'Dc', 'V', 'S', 'U', 'class', 'longitudinal', 'vertical'],
    flags: ['coupling'],
    place: true,
    documentation: "The trailer's own coupling: its kind, and its height when the trailer stands level.",
    example: 'coupling ball 50 mm, 430 mm up',
  },
  {
    keyword: 'hitch',
    contexts: UNITS,
    head: 'plain',
    value: ['length'],
    arguments: ['at', 'rating', 'damper', 'spring', 'D', 'Dc', 'V', 'S', 'U', 'class'],
    flags: ['coupling'],
    place: true,
    documentation: 'Where the next unit is coupled: behind the rear axle, or ahead of it for a kingpin or gooseneck.',
    example: 'hitch ball at 1150 mm behind rear, 440 mm up, rating 250 kg',
  },
  {
    keyword: 'tare',
    synonyms: ['kerb'],
    contexts: UNITS,
    head: 'plain',
    value: ['mass'],
    arguments: ['at', 'tolerance', 'inertia', 'gyration'],
    place: true,
    documentation:
      'The empty unit as weighed or specified: readings (`1260 kg on axles, 125 kg on coupling`) or a mass and its place. Without it the tare is the sum of fittings, panels and members.',
    example: 'tare 1385 kg at 3205 mm back, 720 mm up, tolerance 2 %',
  },
  {
    keyword: 'growth',
    contexts: UNITS,
    head: 'plain',
    value: ['ratio'],
    documentation: 'Allowance on the rolled-up tare for what the list does not hold yet.',
    example: 'growth 3 %',
  },
  {
    keyword: 'brakes',
    contexts: ['trailer'],
    head: 'plain',
    flags: ['brakes'],
    documentation: "The trailer's service brakes.",
    example: 'brakes electric',
  },
  {
    keyword: 'limits',
    contexts: UNITS,
    head: 'plain',
    block: 'limits',
    documentation: 'The ratings on the plates.',
    example: 'limits { ATM 2000 kg  GTM 1850 kg  coupling 200 kg }',
  },
  {
    keyword: 'seat',
    contexts: ['vehicle'],
    head: 'declares',
    title: true,
    value: ['mass'],
    arguments: ['at'],
    place: true,
    documentation: 'A seat and the mass of who sits there (75 kg where none is given, listed as an assumption).',
    example: 'seat driver 80 kg at 1350 mm back, 380 mm left, 700 mm up',
  },
  {
    keyword: 'tank',
    contexts: UNITS,
    head: 'declares',
    title: true,
    value: ['volume', 'mass'],
    arguments: ['of', 'at', 'size', 'empty', 'diameter', 'length', 'height', 'level', 'tolerance'],
    flags: ['shape', 'orientation'],
    unfit: ['flat'],
    place: true,
    documentation:
      'A tank or a gas bottle: its content when full, its fluid, its place and shape. The place is the middle of the shape.',
    example: 'tank fresh 95 L of water at 2600 mm back, 350 mm left, 410 mm up, size 900 x 450 x 240 mm',
  },
  {
    keyword: 'locker',
    contexts: UNITS,
    head: 'declares',
    title: true,
    arguments: ['at', 'from', 'floor', 'height', 'width', 'size', 'holds'],
    place: true,
    documentation:
      'A place to stow things: locker, boot, deck, roof rack. `left` or `right` alone puts it against that side wall of the body; without a `width` it is that half of the body.',
    example: 'locker galley from 1900 to 2700 mm back, left, floor 320 mm up, holds 80 kg',
  },
  {
    keyword: 'fitting',
    contexts: PARTS,
    head: 'declares',
    title: true,
    value: ['mass'],
    arguments: ['at', 'size', 'tolerance'],
    place: true,
    documentation: 'A part of the unit with its mass and place. A count may stand before the mass: `4 x 1.2 kg`.',
    example: 'fitting fridge 31 kg at 2350 mm back, 620 mm left, 780 mm up, size 520 x 500 x 820 mm',
  },
  {
    keyword: 'panel',
    contexts: PARTS,
    head: 'declares',
    title: true,
    value: ['length'],
    valueParts: [2],
    arguments: ['of', 'at', 'tolerance'],
    flags: ['orientation'],
    place: true,
    documentation:
      'A sheet: length x width of a material with a mass per area. A count may stand before: `2 x 4800 x 2100 mm`.',
    example: 'panel roof 4800 x 2040 mm of sandwich_30 flat at 3280 mm back, 2500 mm up',
  },
  {
    keyword: 'member',
    contexts: PARTS,
    head: 'declares',
    title: true,
    value: ['length'],
    arguments: ['of', 'at', 'from', 'tolerance'],
    flags: ['orientation'],
    place: true,
    documentation: 'A length of a section with a mass per length. A count may stand before: `2 x 4200 mm`.',
    example: 'member rails 2 x 5200 mm of channel_100 lengthwise at 2900 mm back, 480 mm up',
  },
  {
    keyword: 'group',
    contexts: PARTS,
    head: 'declares',
    title: true,
    arguments: ['at'],
    place: true,
    block: 'group',
    documentation:
      'Parts that belong together. With a place, the places inside are counted from it, up from its height.',
    example:
      'group kitchen at 2350 mm back, 600 mm left, 400 mm up {\n    fitting sink 4.5 kg at 100 mm ahead, 450 mm up\n    fitting stove 8 kg at 300 mm back, 440 mm up\n  }',
  },
  {
    keyword: 'without',
    contexts: ['variant'],
    head: 'lists',
    lists: 'stowage',
    documentation: 'Takes lines of the original away, by name or by head.',
    example: 'without fridge, growth',
  },
  {
    keyword: 'weight_distribution',
    contexts: ['vehicle', 'rig'],
    head: 'plain',
    arguments: ['moment', 'restores'],
    documentation: 'A weight-distribution device between the tow vehicle and the first trailer.',
    example: 'weight_distribution restores 50 %',
  },
  {
    keyword: 'require',
    contexts: ['vehicle', 'trailer', 'rig'],
    head: 'own form',
    title: true,
    arguments: ['in'],
    documentation:
      "The author's own limit on a computed quantity: `between a and b`, `at least a`, `at most b`; with `in` only in those cases. Loads, masses and places are held in every reachable state too; what lateral stability comes to (`rig.damping`, `rig.swing_frequency`, `rig.zero_damping_speed`, `rig.divergence_speed`) in the least-damped one that a search comes upon.",
    example: 'require Hauler.coupling.share between 6 % and 12 % "house rule for this chassis"',
  },

  {
    keyword: 'rating',
    contexts: ['axles'],
    head: 'plain',
    value: ['mass'],
    documentation: 'Rating of the axle or the whole group.',
    example: 'rating 2200 kg',
  },
  {
    keyword: 'tyres',
    contexts: ['axles'],
    head: 'plain',
    arguments: ['at', 'reference_pressure'],
    flags: ['mounting'],
    documentation: 'The tyres of the axle or the whole group.',
    example: 'tyres 4 x "195R14C 106/104Q" at 450 kPa',
  },

  {
    keyword: 'GVM',
    synonyms: ['GVWR', 'MAM'],
    contexts: ['limits'],
    head: 'plain',
    value: ['mass'],
    documentation: 'Gross vehicle mass: the most the vehicle may weigh, the coupling load included.',
    example: 'GVM 3200 kg',
  },
  {
    keyword: 'GCM',
    synonyms: ['GCWR', 'GTW'],
    contexts: ['limits'],
    head: 'plain',
    value: ['mass'],
    documentation: 'Gross combination mass: the most the vehicle and all it pulls may weigh together.',
    example: 'GCM 6000 kg',
  },
  {
    keyword: 'ATM',
    synonyms: ['MTPLM'],
    contexts: ['limits'],
    head: 'plain',
    value: ['mass'],
    documentation:
      'Aggregate trailer mass: the most the trailer may weigh, with what it puts on the coupling. In a trailer GVWR and MAM are read as this.',
    example: 'ATM 2000 kg',
  },
  {
    keyword: 'GTM',
    contexts: ['limits'],
    head: 'plain',
    value: ['mass'],
    documentation: "Gross trailer mass: the most the trailer's axles may carry when it is coupled.",
    example: 'GTM 1850 kg',
  },
  {
    keyword: 'towing',
    contexts: ['limits'],
    head: 'plain',
    value: ['mass'],
    documentation: 'The heaviest braked trailer the vehicle may pull.',
    example: 'towing 3000 kg',
  },
  {
    keyword: 'towing_unbraked',
    contexts: ['limits'],
    head: 'plain',
    value: ['mass'],
    documentation: 'The heaviest trailer without brakes the vehicle may pull.',
    example: 'towing_unbraked 750 kg',
  },
  {
    keyword: 'coupling',
    synonyms: ['tongue_load', 'ball_load', 'nose_load', 'pin_load'],
    contexts: ['limits'],
    head: 'plain',
    value: ['mass'],
    documentation: 'The most vertical load on the coupling.',
    example: 'coupling 200 kg',
  },
  {
    keyword: 'payload',
    contexts: ['limits'],
    head: 'plain',
    value: ['mass'],
    documentation: 'The most that may be added to the empty unit.',
    example: 'payload 600 kg',
  },

  {
    keyword: 'tow',
    contexts: ['rig'],
    head: 'lists',
    lists: 'vehicle',
    arguments: ['with'],
    documentation: 'The vehicle, and the seats that are taken.',
    example: 'tow YardTruck with driver',
  },
  {
    keyword: 'haul',
    contexts: ['rig'],
    head: 'lists',
    lists: 'trailer',
    documentation: 'The trailers, from the front.',
    example: 'haul Hauler',
  },
  {
    keyword: 'stow',
    contexts: ['rig', 'case'],
    head: 'lists',
    lists: 'item',
    arguments: ['in', 'at'],
    place: true,
    documentation: 'What is stowed where, and how many. In a case: only in that case.',
    example: 'stow 2 x gas_bottle, awning in Hauler.bed',
  },
  {
    keyword: 'travel',
    contexts: ['rig'],
    head: 'plain',
    value: ['speed'],
    arguments: ['grades', 'braking'],
    documentation: 'The intended speed, the grades travelled and a braking state.',
    example: 'travel 100 km/h, grades -8 % to 6 %, braking 3 m/s²',
  },
  {
    keyword: 'case',
    contexts: ['rig', 'trailer'],
    head: 'declares',
    title: true,
    block: 'case',
    documentation: 'A named load state: levels of the tanks by name, seats taken, items left out.',
    example: 'case homebound { Hauler.fresh 0 % to 40 %  Hauler.waste 60 % }',
  },
  {
    keyword: 'occupants',
    contexts: ['case'],
    head: 'lists',
    lists: 'seat',
    documentation: 'The seats taken in this case, in place of those of `tow … with`.',
    example: 'occupants driver',
  },
  {
    keyword: 'absent',
    contexts: ['case'],
    head: 'lists',
    lists: 'item',
    documentation: 'Items that are not on board in this case.',
    example: 'absent awning',
  },
  {
    keyword: 'reachable',
    contexts: ['rig', 'trailer'],
    head: 'plain',
    block: 'reachable',
    documentation:
      'The states that are driven, beside the named cases: the levels that tanks can have, and who and what may be left behind. Without it every tank can be anywhere from empty to full. Limits are proved for all of these states together.',
    example: 'reachable { Hauler.fresh 20 % to 100 %  Hauler.waste 0 % to 55 % }',
  },
  {
    keyword: 'optional',
    contexts: ['reachable'],
    head: 'lists',
    lists: 'aboard',
    documentation:
      'Seats and items that may be taken or left behind, in any combination. Those that only some of the cases have are so already.',
    example: 'optional driver, awning',
  },

  {
    keyword: 'weighing',
    contexts: ['rig', 'trailer', 'vehicle'],
    head: 'declares',
    title: true,
    arguments: ['in'],
    block: 'weighing',
    documentation:
      'A weighbridge slip, in the case it was taken in: what the scale read under wheels (`Hauler.axles.left`), axles (`Hauler.axles.axle1`), groups (`YardTruck.rear`), the coupling (`Hauler.coupling`), all wheels of a unit (`Hauler`) or everything (`total`), coupled up as the rig stands. Readings of another case stand in `coupled`, of a unit alone in `solo`, with one end raised in `raised`. All slips of a rig, and those of its units, are joined in one estimate of each tare, unless they disagree. A reading on a scale outranks the computed load.',
    example: 'weighing october "Public weighbridge, 2 October" {\n    scale 20 kg\n    total 2400 kg\n  }',
  },
  {
    keyword: 'scale',
    contexts: ['weighing'],
    head: 'plain',
    value: ['mass'],
    documentation: 'The smallest division that the scale shows.',
    example: 'scale 20 kg',
  },
  {
    keyword: 'accuracy',
    contexts: ['weighing'],
    head: 'plain',
    value: ['mass'],
    documentation: 'One standard deviation of a reading, where more is known of the scale than its division.',
    example: 'accuracy 10 kg',
  },
  {
    keyword: 'coupled',
    contexts: ['weighing'],
    head: 'plain',
    arguments: ['in'],
    block: 'pass',
    documentation:
      'Further readings of the rig coupled up, in another case on the same visit: loaded on the way out, empty on the way home.',
    example: 'coupled in loaded { Hauler.axles 1240 kg }',
  },
  {
    keyword: 'solo',
    contexts: ['weighing'],
    head: 'lists',
    lists: 'unit',
    arguments: ['in'],
    block: 'pass',
    documentation:
      'Readings of one unit uncoupled, with the same load as in the case, or in the case named. A trailer stands level on its wheels and its coupling; `total` is then all of it.',
    example: 'solo Hauler { axles 1180 kg  coupling 190 kg }',
  },
  {
    keyword: 'raised',
    contexts: ['weighing'],
    head: 'lists',
    lists: 'unit',
    value: ['angle', 'length'],
    arguments: ['wheel_radius', 'in'],
    block: 'pass',
    documentation:
      'Readings of one unit uncoupled with an axle, or the coupling of a trailer, raised: by the angle that the unit then stands at, or by the height. It is how a scale tells the height of the centre of gravity (axle lift of ISO 10392), with the springs blocked and the tanks full or empty. It is work for a shop with the lifting gear for it: secured against rolling off and tipping, and nobody under it.',
    example: 'raised YardTruck.front 12 deg, wheel_radius 340 mm { front 1120 kg }',
  },

  {
    keyword: 'vehicle_type',
    contexts: ['vehicle'],
    head: 'plain',
    flags: ['vehicle_type'],
    documentation: 'What the certification label says that the vehicle is. Rules of the United States and Canada ask.',
    example: 'vehicle_type motor_home',
  },
  {
    keyword: 'trailer_type',
    contexts: ['trailer'],
    head: 'plain',
    flags: ['trailer_type'],
    documentation: 'What the certification label says that the trailer is. Rules of the United States ask.',
    example: 'trailer_type recreation_trailer',
  },
  {
    keyword: 'coupling_minimum',
    contexts: ['limits'],
    head: 'plain',
    value: ['mass'],
    documentation: 'The least vertical load on the coupling that the maker of the trailer recommends.',
    example: 'coupling_minimum 120 kg',
  },
  {
    keyword: 'UVW',
    synonyms: ['unloaded_vehicle_weight'],
    contexts: ['limits'],
    head: 'plain',
    value: ['mass'],
    documentation:
      'Unloaded vehicle weight as certified: with full tanks of fuel and propane, without water, occupants and cargo.',
    example: 'UVW 1400 kg',
  },
  {
    keyword: 'CCC',
    synonyms: ['cargo_carrying_capacity'],
    contexts: ['limits'],
    head: 'plain',
    value: ['mass'],
    documentation: 'Cargo carrying capacity on the label: the most that may be loaded, occupants not counted.',
    example: 'CCC 500 kg',
  },
  {
    keyword: 'OCCC',
    synonyms: ['occupant_and_cargo_carrying_capacity'],
    contexts: ['limits'],
    head: 'plain',
    value: ['mass'],
    documentation:
      'Occupant and cargo carrying capacity on the label of a motor home: occupants, cargo, water and coupling load.',
    example: 'OCCC 700 kg',
  },
  {
    keyword: 'berths',
    contexts: UNITS,
    head: 'plain',
    value: ['number'],
    documentation:
      'The sleeping places of a caravan or a motor caravan. The texts of some markets ask for a least payload by them.',
    example: 'berths 2',
  },
  {
    keyword: 'off_road',
    contexts: ['vehicle'],
    head: 'plain',
    documentation:
      'The vehicle is type-approved as an off-road vehicle: in the European Union it may tow more with brakes.',
    example: 'off_road',
  },
  {
    keyword: 'rule',
    contexts: ['file', 'vehicle', 'trailer', 'rig'],
    head: 'own form',
    lists: 'code',
    flags: ['level'],
    documentation:
      'Says how much one or more rules weigh, by the codes of what they report, and why: in a block for what is reported of that vehicle, trailer or rig itself (not of the rigs that use the vehicle or trailer), at the top of a file for the whole file. A block goes before the file, the file before the workspace.',
    example: 'rule RW603 off "nose-heavy by design, see drawing 12"',
  },
];

/** Words of the forms with a grammar of their own, and of values. */
export const GRAMMAR_WORDS = ['to', 'and', 'between', 'least', 'most'] as const;
