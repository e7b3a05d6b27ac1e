import { sideOf } from '../../diagnostics/weighing-wording.ts';
import { listed } from '../../diagnostics/wording.ts';
import { SIGNIFICANCE } from '../../mechanics/weighing/reconciliation.ts';
import { systemOf } from '../../semantics/display-system.ts';
import type { UnitModel } from '../../semantics/model.ts';
import type { WeighedTare } from '../../semantics/weighing/weighing-result.ts';
import { type WrittenChange, writtenLength, writtenMass } from './written.ts';

/**
 * A fitting for what slips find to be missing from the parts of a unit, at the end of its block. Undefined where the
 * parts weigh too much together, the readings do not tell the place, or that lies outside of the body: then there is
 * nothing that could be added.
 */
export function listUnlisted({ of, unlisted }: WeighedTare, slips: readonly string[]): WrittenChange | undefined {
  const { declaration } = of.location;
  const system = systemOf(declaration);
  const place = insertionPlace(declaration.text, declaration.statement?.block?.end);
  if (unlisted?.x === undefined || !(unlisted.mass.value > 0) || place === undefined) return undefined;
  const { mass, x, y, z } = unlisted;
  if (of.body !== undefined && (x.value > of.body.front || x.value < of.body.rear)) return undefined;
  const figure = writtenMass(mass.value / (1 + growthOf(of)), mass.standardError, system);
  const where = [
    `${writtenLength(Math.abs(x.value), x.standardError, system)} ${sideOf(x.value, 'x')}`,
    ...(y === undefined || Math.abs(y.value) < SIGNIFICANCE * y.standardError
      ? []
      : [`${writtenLength(Math.abs(y.value), y.standardError, system)} ${sideOf(y.value, 'y')}`]),
    ...(z === undefined || z.value < SIGNIFICANCE * z.standardError
      ? []
      : [`${writtenLength(z.value, z.standardError, system)} up`]),
  ].join(', ');
  const by = `${slips.length > 1 ? 'weighings' : 'weighing'} ${listed(slips)}`;
  const line = `fitting ${freeName(of)} ${figure} at ${where}`;
  const text = place.ownLine ? `  ${line}  # from ${by}\n` : `\n  ${line}  # from ${by}\n`;
  return {
    title: `Add to ${of.name} what its parts lack by ${by}: ${figure} at ${where}; find out what it is`,
    edits: [{ start: place.offset, end: place.offset, text }],
  };
}

/** Share that the allowance adds to every part. */
function growthOf({ parts }: UnitModel): number {
  const massOf = (isGrowth: boolean) =>
    parts.reduce((sum, { kind, body }) => ((kind === 'growth') === isGrowth ? sum + body.mass : sum), 0);
  const listed = massOf(false);
  return listed > 0 ? massOf(true) / listed : 0;
}

/** A name that no part of the unit has. */
function freeName({ parts }: UnitModel): string {
  const taken = new Set(parts.map(({ name }) => name));
  let name = 'unlisted';
  for (let count = 2; taken.has(name); count++) name = `unlisted_${count}`;
  return name;
}

/** Before the brace that closes a block: at the start of its line where it stands alone. */
function insertionPlace(
  text: string,
  end: number | undefined,
): { readonly offset: number; readonly ownLine: boolean } | undefined {
  if (end === undefined || text[end - 1] !== '}') return undefined;
  const lineStart = text.lastIndexOf('\n', end - 1) + 1;
  const ownLine = text.slice(lineStart, end - 1).trim() === '';
  return { offset: ownLine ? lineStart : end - 1, ownLine };
}
