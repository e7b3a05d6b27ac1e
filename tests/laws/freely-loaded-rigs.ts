import fc from 'fast-check';

/** Something of an invented rig that is not the same in all its states. */
export interface FreeThing {
  readonly kind: 'tank' | 'item' | 'seat';
  /** In the trailer, else in the vehicle; seats are always in the vehicle. */
  readonly towed: boolean;
  /** kg, or litres of water. */
  readonly mass: number;
  /** Place between the ends of its unit, 0 to 1; and across, −1 to 1. */
  readonly along: number;
  readonly across: number;
  /** Whether a tank is a body of liquid, else a point. */
  readonly sized: boolean;
}

export interface ReachableRig {
  readonly speed: number;
  /** kg on the axles of the vehicle. */
  readonly front: number;
  readonly rear: number;
  /** kg, and mm behind the coupling. */
  readonly tare: number;
  readonly place: number;
  readonly braked: boolean;
  readonly travel: string;
  readonly things: readonly FreeThing[];
}

const thing: fc.Arbitrary<FreeThing> = fc.record({
  kind: fc.constantFrom('tank', 'tank', 'item', 'seat'),
  towed: fc.constantFrom(true, true, false),
  mass: fc.integer({ min: 15, max: 140 }),
  along: fc.double({ min: 0, max: 1, noNaN: true }),
  across: fc.double({ min: -1, max: 1, noNaN: true }),
  sized: fc.boolean(),
});

/** Rigs of a car and a trailer with at most `most` things that come and go. */
export const reachableRigs = (most: number): fc.Arbitrary<ReachableRig> =>
  fc.record({
    speed: fc.integer({ min: 60, max: 120 }),
    front: fc.integer({ min: 780, max: 1150 }),
    rear: fc.integer({ min: 620, max: 900 }),
    tare: fc.integer({ min: 600, max: 1100 }),
    place: fc.integer({ min: 3300, max: 3800 }),
    braked: fc.boolean(),
    travel: fc.constantFrom('', ', grades -8 % to 6 %', ', braking 3 m/s²', ', grades -10 % to 8 %, braking 3 m/s²'),
    things: fc.array(thing, { minLength: 1, maxLength: most, size: 'max' }),
  });

/** Whether each of the things is there, by index; of a tank also how full it is, 0 to 1. */
export type Presence = readonly (boolean | number)[];

/** Every combination of things that are there or not. */
export function presences(count: number): Presence[] {
  return Array.from({ length: 2 ** count }, (_, bits) =>
    Array.from({ length: count }, (_, index) => ((bits >> index) & 1) === 1),
  );
}

/** The rig as a file, with a case for each of `named`; all else is reachable. */
export function textOf(rig: ReachableRig, named: readonly Presence[]): string {
  const { speed, front, rear, tare, place, braked, travel, things } = rig;
  const lines = { car: '', trailer: '', items: '', optional: '' };
  for (const [index, each] of things.entries()) {
    const towed = each.towed && each.kind !== 'seat';
    const along = Math.round(towed ? 900 + each.along * 5200 : 900 + each.along * 2600);
    const side = each.across < 0 ? 'right' : 'left';
    const spot = `at ${along} mm back, ${Math.round(Math.abs(each.across) * 700)} mm ${side}, 700 mm up`;
    const size = each.sized ? ', size 600 x 500 x 400 mm' : '';
    const unit = towed ? 'trailer' : 'car';
    if (each.kind === 'tank') lines[unit] += `  tank thing${index} ${each.mass} L of water ${spot}${size}\n`;
    else if (each.kind === 'seat') lines.car += `  seat thing${index} ${each.mass} kg ${spot}\n`;
    else lines.items += `item thing${index} ${each.mass} kg\n`;
  }
  const stowed = things.flatMap(({ kind, towed, along, across }, index) => {
    if (kind !== 'item') return [];
    const x = Math.round(towed ? 900 + along * 5200 : 900 + along * 2600);
    const y = `${Math.round(Math.abs(across) * 700)} mm ${across < 0 ? 'right' : 'left'}`;
    return [`  stow thing${index} in ${towed ? 'Tourer' : 'Runabout'} at ${x} mm back, ${y}, 700 mm up\n`];
  });
  const optional = things.flatMap(({ kind }, index) => (kind === 'tank' ? [] : [`thing${index}`]));
  const cases = named.map((present, at) => {
    const levels = things.flatMap(({ kind }, index) =>
      kind === 'tank' ? [`thing${index} ${Number(present[index]) * 100} %`] : [],
    );
    const absent = things.flatMap(({ kind }, index) => (kind === 'item' && !present[index] ? [`thing${index}`] : []));
    const seated = things.flatMap(({ kind }, index) => (kind === 'seat' && present[index] ? [`thing${index}`] : []));
    const parts = [
      ...levels,
      ...(absent.length > 0 ? [`absent ${absent.join(', ')}`] : []),
      ...(seated.length > 0 ? [`occupants ${seated.join(', ')}`] : []),
    ];
    return `  case c${at} {\n${parts.map((part) => `    ${part}\n`).join('')}  }\n`;
  });
  return `${lines.items}vehicle Runabout {
  wheelbase 2600 mm, track 1500 mm
  kerb ${front} kg on front, ${rear} kg on rear, 560 mm up, inertia 2500 kg·m²
  axle front rating 1300 kg
  axle rear rating 1400 kg
  hitch ball at 900 mm behind rear, 430 mm up
${lines.car}}
trailer Tourer {
  coupling ball 50 mm, 430 mm up
  axles single at 3900 mm back, track 1860 mm, rating 1700 kg
  tare ${tare} kg at ${place} mm back, 720 mm up, inertia 1900 kg·m²
  brakes ${braked ? 'overrun' : 'unbraked'}
${lines.trailer}}
rig Weekend {
  tow Runabout
  haul Tourer
${stowed.join('')}  travel ${speed} km/h${travel}
${optional.length > 0 ? `  reachable { optional ${optional.join(', ')} }\n` : ''}${cases.join('')}}
`;
}
