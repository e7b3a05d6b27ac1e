import { formatShare } from '../units/display.ts';
import { define } from './define.ts';
import { truck } from './examples.ts';
import { byTheModel, dampingText, intendedSpeed, type StabilityBreach, sampled } from './stability-wording.ts';
import { helpSentence } from './wording.ts';

/** A figure in a state that no case names, against its limit; SI. */
interface Beyond {
  /** `Rear axle of YardTruck`. */
  readonly subject: string;
  /** `the load`. */
  readonly quantity: string;
  readonly sense: 'at most' | 'at least';
  /** `its rating`. */
  readonly limitName: string;
  readonly value: number;
  readonly limit: number;
  /** Shows a figure of the same dimension. */
  readonly format: (value: number) => string;
  /** Shows the difference of two: of shares in percentage points. */
  readonly formatDifference: (value: number) => string;
  /** `with fresh 0 % and waste 100 %, else as in case homebound`, or `in case homebound`. */
  readonly state: string;
  readonly found: 'proved' | 'sampled';
}

interface Reached extends Beyond {
  /** The case whose ranges these are; absent for everything reachable. */
  readonly case: string | undefined;
  readonly help: string | undefined;
}

interface Tolerated extends Beyond {
  /** The figure without tolerances. */
  readonly nominal: number;
  /** Share of all tolerances with which the limit holds, 0 to 1. */
  readonly holdsWith: number;
  /** The mass whose tolerance counts most, where it is known. */
  readonly largest: string | undefined;
}

function beyond({ value, limit, sense, limitName, format, formatDifference }: Beyond): string {
  if (limit === 0 && limitName === 'zero') return `${format(-value)} below zero`;
  const by = formatDifference(Math.abs(value - limit));
  // A name that explains itself in brackets has its figure behind a comma.
  const figure = limitName.endsWith(')') ? `: ${format(limit)},` : ` (${format(limit)})`;
  return `${by} ${sense === 'at most' ? 'over' : 'under'} ${limitName}${figure}`;
}

function reached(parameters: Reached): string {
  const { subject, quantity, value, format, state, help, found } = parameters;
  const holds =
    parameters.case === undefined
      ? 'Every named case holds it'
      : `The middle of the ranges of case ${parameters.case} holds it`;
  const sampled = found === 'sampled' ? '; states were tried, not all of them, and others can be worse' : '';
  return `${subject}: ${quantity} of ${format(value)} is ${beyond(parameters)} ${state}. ${holds}${sampled}.${helpSentence(help)}`;
}

interface Levels {
  readonly least: number;
  readonly most: number;
}

const levels = ({ least, most }: Levels): string =>
  least === most ? formatShare(least) : `${formatShare(least)} to ${formatShare(most)}`;
/** The lateral motion in a state that no case names; figures of the linear model. */
interface Swaying extends StabilityBreach {
  /** Damping ratio at the intended speed; −1 where the rig folds. */
  readonly damping: number;
  readonly least: number;
  /** That of the worst named case. */
  readonly named: number;
  /** How many states were tried. */
  readonly tried: number;
}

function swaying(parameters: Swaying): string {
  const { subject, damping, least, named, tried, state, help } = parameters;
  const at = `at ${intendedSpeed(parameters)}`;
  const swings = `has a damping ratio of ${dampingText(damping)} ${at}`;
  const does =
    damping <= -1
      ? `${subject} folds ${at}`
      : damping <= 0
        ? `The swinging of ${subject} does not die out: it ${swings}`
        : `The swinging of ${subject} ${swings}, below the recommended ${dampingText(least)}`;
  const holds = named < 1 ? `Every named case has ${dampingText(named)} or more` : 'In no named case anything swings';
  return `${does}, ${state}${byTheModel(parameters)}. ${holds}; ${sampled(tried)}.${helpSentence(help)}`;
}

/** A car with a trailer that has a generator over its axle and a tank at its tail. */
const weekend = (lines: string) => `vehicle Runabout {
  wheelbase 2500 mm, track 1500 mm
  kerb 780 kg on front, 620 kg on rear, 560 mm up, inertia 2300 kg·m²
  axle front rating 900 kg
  axle rear rating 1000 kg
  hitch ball at 850 mm behind rear, 430 mm up
}
trailer Tourer {
  coupling ball 50 mm, 430 mm up
  axles single at 3900 mm back, track 1860 mm, rating 1100 kg
  tare 800 kg at 3400 mm back, 720 mm up, inertia 1700 kg·m²
  brakes overrun
  tank waste 90 L of grey_water at 6600 mm back, 500 mm up
  tank fresh 60 L of water at 2400 mm back, 500 mm up
}
rig Weekend {
  tow Runabout
  haul Tourer
  travel 90 km/h
${lines}}
`;

/** The truck with water and waste tanks of 400 L each, in a rig. */
const tanker = (gross: number, lines: string) => `${truck(`  limits { GVM ${gross} kg }
  tank water 400 L of water at 2100 mm back, 900 mm up
  tank waste 400 L of grey_water at 2100 mm back, 500 mm up
`)}rig Errand {
  tow Truck
${lines}}
`;

const sideTank = (
  place: string,
) => `${truck(`  tank water 300 L of water at 2100 mm back,${place} 900 mm up\n`)}rig Errand {
  tow Truck
  case empty { water 0 % }
}
`;

const crane = (tolerance: string) => `${truck(`  limits { GVM 2300 kg }
  fitting crane 120 kg at 2100 mm back, 900 mm up, tolerance ${tolerance}
`)}rig Errand {
  tow Truck
}
`;

/** RW90x: states that no case names. */
export const REACH = {
  'range-over-limit': define({
    code: 'RW901',
    severity: 'error',
    title: 'A limit is broken within the ranges of a case',
    message: reached,
    meaning:
      'A case may state ranges of levels. The case is shown at their middle, and every limit is held against all levels within them. The worst is found exactly, by the sign with which each mass counts, unless the message says that states were tried.',
    mend: 'Narrow the range in the case, or move masses so that the limit holds at its ends too.',
    example: tanker(2800, '  case driving { water 0 % to 100 %  waste 0 % to 100 % }\n'),
    mended: tanker(
      2800,
      '  case driving { water 0 % to 90 %  waste 0 % to 70 % }\n  reachable { water 0 % to 90 %  waste 0 % to 70 % }\n',
    ),
    caution:
      'Limits are those that the file states. The plates, the makers’ ratings and local law prevail; verify on a weighbridge.',
  }),
  'reach-over-limit': define({
    code: 'RW902',
    severity: 'warning',
    title: 'A limit is broken in a state that no case names',
    message: reached,
    meaning:
      'People drive the states between the named cases: each tank anywhere between empty and full, or within the range that its own line or a `reachable` block states; seats and items as in any of the cases, in any combination. In one of these states the limit is broken although it holds in every named case.',
    mend: 'If the state can be driven, move masses or lower what the tanks hold; a quick fix adds the state as a case. If it cannot, say so with a `reachable` block, which the load guide repeats.',
    example: tanker(2800, '  case out { water 100 %  waste 0 % }\n  case back { water 0 %  waste 100 % }\n'),
    mended: tanker(
      2800,
      '  case out { water 100 %  waste 0 % }\n  case back { water 0 %  waste 60 % }\n  reachable { waste 0 % to 60 % }\n',
    ),
    caution:
      'Limits are those that the file states. The plates, the makers’ ratings and local law prevail; verify on a weighbridge.',
  }),
  'reach-over-practice': define({
    code: 'RW903',
    severity: 'information',
    title: 'A common practice is left in a state that no case names',
    message: reached,
    meaning: 'As RW901 and RW902, for what is common practice or a recommendation.',
    mend: 'Look whether the state can be driven, and limit it with a `reachable` block if it cannot.',
    example: sideTank(' 800 mm left,'),
    mended: sideTank(''),
    source: 'common practice, no source',
    authority: 'common practice',
  }),
  'tolerance-over-limit': define({
    code: 'RW904',
    severity: 'warning',
    title: 'A tolerance can break a limit',
    message: (parameters: Tolerated) => {
      const { subject, quantity, nominal, value, format, state, holdsWith, largest, found } = parameters;
      const most = largest === undefined ? '' : ` The tolerance of ${largest} counts most.`;
      const mend =
        holdsWith > 0
          ? ` It holds with ${formatShare(holdsWith)} of every tolerance.`
          : ' It holds with hardly any tolerance.';
      const sampled = found === 'sampled' ? ' States were tried, not all of them.' : '';
      return `${subject}: ${quantity} of ${format(nominal)} holds ${state}, but with the tolerances stated it can be ${format(value)}, ${beyond(parameters)}.${mend}${most}${sampled}`;
    },
    meaning:
      'Every toleranced mass and position is taken at the end of its interval that is worst for the limit: the worst case. That all of them are so at once is unlikely; `rigwright envelope` shows the standard deviation beside it.',
    mend: 'Weigh what counts most and state a narrower tolerance, or leave more margin.',
    example: crane('80 kg'),
    mended: crane('2 kg'),
    caution:
      'Limits are those that the file states. The plates, the makers’ ratings and local law prevail; verify on a weighbridge.',
  }),
  'case-unreachable': define({
    code: 'RW905',
    severity: 'warning',
    title: 'A case lies outside the reachable states',
    message: ({
      case: state,
      tank,
      level,
      reachable,
    }: {
      readonly case: string;
      readonly tank: string;
      readonly level: Levels;
      readonly reachable: Levels;
    }) =>
      `Case ${state} has ${tank} ${levels(level)}, outside the ${levels(reachable)} that ${reachable.least === reachable.most ? 'is' : 'are'} stated as reachable. Limits are still held against the case, but not against the states around it.`,
    meaning:
      'The `reachable` block says which levels a tank can have. A named case that has another level, or a range that goes beyond, contradicts it. A tank that a case does not mention has the level of its own line, or is full.',
    mend: 'State the level that the tank has in the case, or widen what is reachable.',
    example: tanker(3000, '  case out { water 100 %  waste 0 % }\n  reachable { water 0 % to 80 % }\n'),
    mended: tanker(3000, '  case out { water 80 %  waste 0 % }\n  reachable { water 0 % to 80 % }\n'),
  }),
  'reach-stability': define({
    code: 'RW906',
    severity: 'warning',
    title: 'Swinging dies out too slowly in a state that no case names',
    message: swaying,
    meaning:
      'People drive the states between the named cases, and a tank at the tail that is full while one at the front is empty lets a trailer swing that is steady in every named case. Damping does not go with each mass one by one as a load does, so that its least is not found exactly: states are tried. Looked at are the corners in which masses, coupling loads and inertias are extreme, and from the worst of them and of the named cases one goes downhill, by exact derivatives, on the worst roads, with tanks between their ends too; tyres are those of the named cases, tolerances are left apart. Said where the rig sways by itself, folds, or has less than the recommended damping at the intended speed there, and in no named case. The figures come from a linear model: small angles, straight running, no wind. Compare layouts with them; never take a speed from them as safe.',
    mend: 'If the state can be driven, move heavy things towards the axles of the trailer, or travel slower in it; name it as a case to see it in full. If it cannot be driven, say so with a `reachable` block.',
    example: weekend('  case out { fresh 100 %  waste 0 % }\n  case back { fresh 100 %  waste 100 % }\n'),
    mended: weekend(
      '  case out { fresh 100 %  waste 0 % }\n  case back { fresh 100 %  waste 100 % }\n  reachable { fresh 100 % }\n',
    ),
    source: 'SAE J2807, damping ratio of at least 0.10 at the test speed; from memory',
    caution:
      'Wind, wet roads and worn or soft tyres make it worse. The makers’ plates and local law prevail; no figure of this model is a safe speed.',
  }),
} as const;
