import fc from 'fast-check';
import { type Reaches, reachesOf } from '../../language/rules/reach/check-reach.ts';
import { type ReachLimit, reachLimits } from '../../language/rules/reach/reach-limit.ts';
import { type Chosen, choose } from '../../language/rules/window/choose.ts';
import type { WindowOptions } from '../../language/rules/window/question.ts';
import { type OperatingWindow, windowOf } from '../../language/rules/window/window.ts';
import type { CaseModel } from '../../language/semantics/model.ts';
import type { RigResult, StateResult } from '../../language/semantics/state.ts';
import { rigResult } from '../unit/drawing/rigs.ts';

/** A rig whose places and limits are drawn at random: three tanks of a trailer, two crates, a passenger, a fuel tank. */
export interface Plan {
  readonly fresh: number;
  readonly waste: number;
  readonly spare: number;
  readonly crates: number;
  readonly tare: number;
  readonly rating: number;
  readonly share: number;
  /** mm; 0 for no limit of height. */
  readonly height: number;
}

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });

export const plan: fc.Arbitrary<Plan> = fc.record({
  fresh: between(1300, 5300),
  waste: between(1300, 5300),
  spare: between(1300, 5300),
  crates: between(1300, 4500),
  tare: between(3000, 3350),
  rating: between(1300, 1650),
  share: between(2, 9),
  height: fc.option(between(700, 760), { nil: 0 }),
});

const mm = (value: number) => `${value.toFixed(3)} mm`;

function unitsOf({ fresh, waste, spare, crates, tare, rating, share, height }: Plan, scale: number): string {
  return `item crate 60 kg size 400 x 400 x 400 mm
vehicle Hauler {
  wheelbase 3200 mm, track 1600 mm
  tare 1100 kg on front, 900 kg on rear, 600 mm up
  hitch ball at 1100 mm behind rear, 440 mm up, rating 200 kg
  tank fuel 80 L of diesel at 2400 mm back, 400 mm up
  seat mate 80 kg at 1500 mm back, 700 mm up
  limits { GVM 2400 kg  towing 2000 kg }
}
trailer Tourer {
  coupling ball 50 mm, 440 mm up
  axles tandem at 3400 mm back, spacing 820 mm, track 1860 mm, equalised, rating ${rating.toFixed(3)} kg
  tare ${(1250 * scale).toFixed(6)} kg at ${mm(tare)} back, 720 mm up${scale === 1 ? ', tolerance 2 %' : ''}
  tank fresh 95 L of water at ${mm(fresh)} back, 810 mm up, size 500 x 400 x 700 mm
  tank waste 70 L of water at ${mm(waste)} back, 800 mm up, size 400 x 400 x 600 mm
  tank spare 50 L of water at ${mm(spare)} back, 380 mm up
  locker bow from ${mm(crates - 200)} to ${mm(crates + 200)} back, floor 500 mm up
  brakes electric
  require coupling.share at least ${share.toFixed(3)} %
  ${height > 0 ? `require cg.up at most ${mm(height)}` : ''}
}
`;
}

const rigOf = (cases: string) => `rig Trip {
  tow Hauler
  haul Tourer
  stow 2 x crate in Tourer.bow
${cases}
}
`;

export const textOf = (drawn: Plan): string =>
  unitsOf(drawn, 1) +
  rigOf(`  case out { fresh 100 %  waste 0 %  spare 50 %  fuel 100 % }
  case home { fresh 20 %  waste 80 %  spare 50 %  fuel 30 %  absent crate }
  reachable { spare 0 % to 60 %  optional mate }`);

/** One state of it, as an author would write it. */
export interface Probe {
  readonly levels: ReadonlyMap<string, number>;
  readonly mate: boolean;
  readonly crates: boolean;
}

export const probeOf = ({ levels, occupants, absent }: CaseModel): Probe => ({
  levels: new Map([...levels].map(([name, { value }]) => [name, value])),
  mate: (occupants ?? []).includes('Hauler.mate'),
  crates: !absent.has('crate'),
});

/** The states of probes on level ground, by a text of their own; `scale` of the trailer's tare. */
export function probed(
  drawn: Plan,
  probes: readonly Probe[],
  scale = 1,
): { limits: ReachLimit[]; states: StateResult[] } {
  const cases = probes.map(({ levels, mate, crates }, index) => {
    const stated = [...levels].map(([name, level]) => `${name} ${(100 * level).toFixed(9)} %`);
    return `  case probe_${index} { ${stated.join('  ')}${mate ? '  occupants mate' : ''}${crates ? '' : '  absent crate'} }`;
  });
  const result = rigResult(unitsOf(drawn, scale) + rigOf(cases.join('\n')));
  return {
    limits: reachLimits(result).filter(({ weight }) => weight === 'limit'),
    states: result.states.filter(({ motion }) => motion.kind === 'level'),
  };
}

export const PLAIN: WindowOptions = { tolerances: 'nominal', practice: false, isOff: () => false };

/** The window of two things of a text. */
export function openWindow(
  text: string,
  names: readonly [string, string],
  options: WindowOptions = PLAIN,
): { window: OperatingWindow; reaches: Reaches; result: RigResult; axes: readonly [Chosen, Chosen] } {
  const result = rigResult(text);
  const reaches = reachesOf(result);
  if (reaches === undefined) throw new Error('no loads');
  const [first, second] = [choose(reaches, names[0]), choose(reaches, names[1])];
  if ('problem' in first || 'problem' in second) throw new Error('no such tank or item');
  const window = windowOf(result, reaches, [first, second], options);
  if (window === undefined) throw new Error('no such case');
  return { window, reaches, result, axes: [first, second] };
}
