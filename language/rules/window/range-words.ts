import type { DisplaySystem } from '../../units/display.ts';
import { excessOf, formatLimited } from '../limits/check-limits.ts';
import { amountInFull, amountText, nearestAmount, printed, stateWords } from './amount.ts';
import type { Chosen } from './choose.ts';
import type { Broken } from './conflict.ts';
import type { AmountRange } from './window.ts';
import { isRestricted, limitWords } from './words.ts';

/**
 * `waste can be at 0 % to 55 % (38.5 L, 38.5 kg): every limit holds, whatever else is on board.`, that it can be at any level,
 * or which limit fails at all of them.
 */
export function rangeWords(chosen: Chosen, { holds, conflict }: AmountRange, system: DisplaySystem): string {
  const { short, least, most } = chosen;
  if (holds === undefined) {
    const broken = [...(conflict?.alone ?? []), ...(conflict?.together ?? []).slice(-1)];
    const why = broken.slice(0, 1).map((each) => brokenWords(chosen, each, system));
    return `At no ${chosen.kind === 'tank' ? 'level' : 'count'} of ${short} does every limit hold, whatever else is on board${why.map((each) => `: ${each}`).join('')}.`;
  }
  const span = printed(chosen, holds, { least, most });
  const isAny = span.least <= least && span.most >= most;
  const level =
    span.least === span.most
      ? amountInFull(chosen, span.most, system, 'down')
      : `${amountText(chosen, span.least)} to ${amountInFull(chosen, span.most, system, 'down')}`;
  return `${short} can be at ${isAny ? `any${isRestricted(chosen) ? ' reachable' : ''} level, ${level}` : level}: every limit holds, whatever else is on board.`;
}

function brokenWords(chosen: Chosen, { limit, u, worst }: Broken, system: DisplaySystem): string {
  const what = limitWords(limit, worst, system);
  if (worst === undefined) return what;
  const { limited } = limit;
  const by = formatLimited(limited, excessOf(limited, worst), system);
  const over = limited.sense === 'at most' ? 'over' : 'under';
  return `${what}; even when ${stateWords(chosen, nearestAmount(chosen, u))} it can be ${by} ${over}`;
}
