import type { Worst } from '../../language/rules/reach/breach.ts';
import type { ReachLimit } from '../../language/rules/reach/reach-limit.ts';
import type { Chosen } from '../../language/rules/window/choose.ts';
import type { Broken } from '../../language/rules/window/conflict.ts';
import { restState, windowWords } from '../../language/rules/window/words.ts';
import { baseUnits } from '../../language/units/dimension.ts';
import { finite } from './finite.ts';
import type { FoundWindow } from './window-command.ts';

/** A window as the schema describes it, without the rig's name and place. */
export function windowJson({ window, units }: FoundWindow): object {
  const { case: state, tolerances, axes, corners, sides, conflict, tried, points, held } = window;
  const words = windowWords(window, units);
  const isBroken = tried.some(({ broken }) => broken.length > 0);
  return {
    case: state?.name,
    tolerances,
    axes: axes.map(axisJson),
    verdict: corners.length === 0 ? 'none' : sides.length === 0 && !isBroken ? 'all' : 'some',
    corners: corners.map(({ u, v }) => ({ at: [u, v] })),
    sides: sides.map((side, index) => ({
      ...limitJson(side.limit, side.worst),
      from: side.corners.slice(0, 1).map(({ u, v }) => [u, v])[0],
      to: side.corners.slice(-1).map(({ u, v }) => [u, v])[0],
      found: side.exact ? 'proved' : 'safe side',
      bounds: axes[side.bounds.axis === 'u' ? 0 : 1].name,
      rule: words.rules[index]?.rule,
    })),
    conflicts: conflict && {
      alone: conflict.alone.map(brokenJson),
      together: conflict.together.map(brokenJson),
    },
    tried: tried.map(({ limit, at, broken }) => ({
      ...limitJson(limit, broken[0]?.worst),
      at,
      broken: broken.map(({ u, v }) => ({ at: [u, v] })),
    })),
    cases: points.map(({ name, u, v }) => ({ name, at: [u, v] })),
    held: {
      limits: held.limits.length,
      practiceLeftOut: held.practice,
      otherCasesLeftOut: held.elsewhere,
      turnedOff: held.off,
      unstated: held.unstated,
    },
    text: [
      words.verdict,
      ...words.rules.map(({ rule, limit }) => `${rule}: ${limit}.`),
      ...words.conflicts,
      ...words.notes,
    ],
  };
}

function axisJson(chosen: Chosen): object {
  const { name, short, kind, least, most } = chosen;
  const head = { name, called: short, kind, least, most };
  if (kind === 'item') return { ...head, each: finite(chosen.item.mass) };
  return { ...head, capacity: finite(chosen.tank.capacity), content: finite(chosen.tank.content) };
}

function limitJson({ limited, code }: ReachLimit, worst: Worst | undefined): object {
  const { subject, quantity, sense, limitName, dimension } = limited;
  return {
    code,
    subject,
    quantity: quantity.replace(/,$/, ''),
    sense,
    limitName,
    unit: baseUnits(dimension),
    ...(worst === undefined
      ? {}
      : { value: finite(worst.value), limit: finite(worst.limit), worstIn: restState(worst) }),
  };
}

function brokenJson({ limit, u, v, worst }: Broken): object {
  return { ...limitJson(limit, worst), at: [u, v] };
}
