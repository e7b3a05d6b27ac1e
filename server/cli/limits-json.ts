import type { LimitRow } from '../../language/rules/limits/table.ts';
import { tallyLimits } from '../../language/rules/limits/tally.ts';
import { baseUnits } from '../../language/units/dimension.ts';
import { finite } from './finite.ts';
import { type FoundLimits, turnedOffRules } from './limits.ts';

/** The limits of a rig as the schema describes them, without the rig's name and place. */
export function limitsJson(limits: FoundLimits): object {
  const { rows, levels } = limits;
  return {
    limits: rows.map((row) => ({ ...rowJson(row), turnedOff: levels.get(row.code)?.level === 'off' || undefined })),
    tally: tallyLimits(rows),
    turnedOff: turnedOffRules(limits).map(({ code, reason, origin }) => ({ code, reason, statedIn: origin })),
  };
}

function rowJson({ code, text, authority, markets, subject, quantity, outcome }: LimitRow): object {
  const head = {
    code,
    text,
    authority,
    markets: markets === 'everywhere' ? undefined : markets,
    subject,
    quantity: quantity.replace(/,$/, ''),
    verdict: outcome.verdict,
  };
  if (outcome.verdict === 'open') return { ...head, missing: outcome.missing };
  const { value, limit, margin, sense, limitName, dimension, state } = outcome;
  return {
    ...head,
    value: finite(value),
    limit: finite(limit),
    margin: finite(margin),
    sense,
    unit: baseUnits(dimension),
    limitName,
    ...(state === '' ? {} : { worstIn: state }),
  };
}
