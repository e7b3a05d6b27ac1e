import type { Finding, RelatedFinding } from '../diagnostics/finding.ts';
import { firstFew } from '../diagnostics/wording.ts';
import type { Expression, Reference } from '../syntax/tree.ts';
import { dimensionName, sameDimension } from '../units/dimension.ts';
import { formatQuantity } from '../units/display.ts';
import type { Quantity } from '../units/quantity.ts';
import { evaluateExpression, loneReference, type NameLookup, referencesIn } from './expressions.ts';
import type { Requirement, RigModel } from './model.ts';
import { nameOf, namesOf } from './names.ts';
import { nearestName } from './nearest.ts';
import { detachedScope, type Line, locate, report, type Scope } from './scope.ts';
import type { StateResult } from './state.ts';

/** A `require` line with the `let` lines of the block it stands in. */
export interface RequirementLine {
  readonly line: Line;
  readonly lets: ReadonlyMap<string, Line>;
}

/**
 * Reads `require` lines; named quantities are looked up now, computed ones when a state is checked. `owner` is the unit
 * the lines belong to: inside it computed quantities go by their short names, and in a variant by those of its original.
 */
export function readRequirements(lines: readonly RequirementLine[], scope: Scope, owner?: string): Requirement[] {
  return lines.flatMap(({ line, lets }) => {
    const names = namesOf(scope, line, lets);
    const { statement } = line;
    const { expression, comparison } = statement;
    if (expression === undefined || comparison === undefined || statement.broken) return [];
    const text = statement.arguments.find((argument) => argument.kind === 'text');
    const cases = statement.arguments.find((argument) => argument.kind === 'references');
    const known = new Map<string, Quantity>();
    for (const part of [expression, comparison.least, comparison.most]) {
      for (const reference of referencesIn(part)) {
        const name = nameOf(reference);
        const isLet = lets.has(name) || scope.find(line.uri, name)?.declaration.statement?.head.text === 'let';
        const value = isLet ? names(reference) : undefined;
        if (value !== undefined) known.set(name, value);
      }
    }
    return [
      {
        expression,
        comparison,
        names: known,
        location: locate(line, { start: statement.start, end: statement.end }),
        ...(owner ? { owner: [owner, line.declaration.statement?.name?.text ?? owner] } : {}),
        ...(text?.kind === 'text' ? { message: text.text.value } : {}),
        ...(cases?.kind === 'references' ? { cases: cases.references.map(({ reference }) => nameOf(reference)) } : {}),
      },
    ];
  });
}

/**
 * What is required, as written; computed quantities go by their full names where a short one would not tell whose they are: in a
 * rig, and in a variant for what its original says of itself.
 */
export function textIn(requirement: Requirement, state: StateResult): string {
  const { expression, location, owner } = requirement;
  const written = location.declaration.text;
  let text = '';
  let end = expression.start;
  for (const reference of referencesIn(expression)) {
    const name = nameOf(reference);
    const full = fullName(reference, requirement, state) ?? name;
    if (full === name || (state.rig.standalone && full === `${owner?.[0]}.${name}`)) continue;
    text += written.slice(end, reference.start) + full;
    end = reference.end;
  }
  return (text + written.slice(end, expression.end)).trim();
}

/** How one state stands to a requirement: the value, and the limits it is held against. */
export interface RequirementCheck {
  readonly state: StateResult;
  readonly value: Quantity;
  readonly least?: Quantity;
  readonly most?: Quantity;
  /** SI, negative where the requirement is violated. */
  readonly margin: number;
}

/** Evaluates a requirement in one state; the clause says why it cannot be done. */
export function checkRequirement(
  requirement: Requirement,
  state: StateResult,
): RequirementCheck | { readonly problem: string } {
  const problems: Finding[] = [];
  let unknown: string | undefined;
  const names: NameLookup = (reference) => {
    const found = computedQuantity(reference, requirement, state);
    if (found === undefined) unknown ??= nameOf(reference);
    return found;
  };
  const evaluate = (expression: Expression | undefined) =>
    expression && evaluateQuietly(expression, requirement, names, problems);
  const value = evaluate(requirement.expression);
  const least = evaluate(requirement.comparison.least);
  const most = evaluate(requirement.comparison.most);
  if (unknown !== undefined) {
    const nearest = nearestName(unknown, namesOfQuantities(requirement, state));
    return { problem: `nothing computed is called '${unknown}'${nearest ? `; the nearest is '${nearest}'` : ''}` };
  }
  if (value === undefined || problems.length > 0)
    return { problem: problems[0]?.message.replace(/\.$/, '') ?? 'it has no value' };
  for (const limit of [least, most]) {
    if (limit !== undefined && !sameDimension(limit.dimension, value.dimension)) {
      return {
        problem: `${textIn(requirement, state)} is ${dimensionName(value.dimension)}, the limit ${dimensionName(limit.dimension)}`,
      };
    }
  }
  const margin = Math.min(
    least === undefined ? Number.POSITIVE_INFINITY : value.value - least.value,
    most === undefined ? Number.POSITIVE_INFINITY : most.value - value.value,
  );
  return { state, value, margin, ...(least ? { least } : {}), ...(most ? { most } : {}) };
}

/** The value of an expression of a requirement; what is wrong with it goes to `problems`. */
export function evaluateQuietly(
  expression: Expression,
  { location: { declaration } }: Requirement,
  names: NameLookup,
  problems: Finding[] = [],
): Quantity | undefined {
  const scope = detachedScope(declaration, problems);
  return evaluateExpression(expression, { scope, line: { declaration, uri: '' }, names });
}

/** What computed quantities are called at a requirement: by their full names, and inside a unit by the short ones. */
function namesOfQuantities({ owner }: Requirement, { quantities }: StateResult): string[] {
  const own = `${owner?.[0] ?? ''}.`;
  return [...quantities.keys()].flatMap((name) => (name.startsWith(own) ? [name, name.slice(own.length)] : [name]));
}

/** A computed quantity by its full name, by the name inside its own unit, or a named quantity of the file. */
function computedQuantity(reference: Reference, requirement: Requirement, state: StateResult): Quantity | undefined {
  const found = state.quantities.get(fullName(reference, requirement, state) ?? '');
  if (found !== undefined) return { value: found.value, dimension: found.dimension };
  return requirement.names.get(nameOf(reference));
}

/** The full name of the computed quantity that a name at a requirement stands for. */
export function fullName(
  reference: Reference,
  { owner }: Requirement,
  { quantities }: StateResult,
): string | undefined {
  const name = nameOf(reference);
  const [own, original] = owner ?? [];
  const candidates = [name];
  if (own !== undefined) candidates.push(`${own}.${name}`);
  if (own !== undefined && original !== undefined && name.startsWith(`${original}.`))
    candidates.unshift(own + name.slice(original.length));
  return candidates.find((candidate) => quantities.has(candidate));
}

/** The name of the computed quantity that a requirement is about, if it is about one alone. */
export function requiredQuantity(requirement: Requirement, state: StateResult): string | undefined {
  const reference = loneReference(requirement.expression);
  return reference && fullName(reference, requirement, state);
}

/** Requirements of a rig: its own and those of its units. */
export function requirementsOf(rig: RigModel): readonly Requirement[] {
  return [...rig.units.flatMap(({ requirements }) => requirements), ...(rig.standalone ? [] : rig.requirements)];
}

/** Says in one sentence, with a leading space, what brings a quantity to a limit (SI); empty where nothing does. */
export type Advice = (state: StateResult, quantity: string, limit: number, direction: 'less' | 'more') => string;

/** Reports the requirements that do not hold, each once with its worst state, and those that cannot be checked. */
export function reportRequirements(
  rig: RigModel,
  requirements: readonly Requirement[],
  allStates: readonly StateResult[],
  scope: Scope,
  adviceFor: Advice,
): void {
  for (const requirement of requirements) {
    const { cases } = requirement;
    const states = cases === undefined ? allStates : allStates.filter((state) => cases.includes(state.case.name));
    const own = requirement.location.declaration === scope.declaration;
    const location = own ? requirement.location : rig.location;
    const related: RelatedFinding[] = own ? [] : [{ location: requirement.location, message: 'Required here.' }];
    const known = new Set(rig.cases.map(({ name }) => name));
    const missing = (cases ?? []).filter((name) => !known.has(name));
    if (own && missing.length > 0 && (known.size > 0 || !rig.standalone)) {
      report(scope, 'requirement-open', { problem: `there is no case ${missing.join(' or ')} here` }, location);
      continue;
    }
    let worst: RequirementCheck | undefined;
    const others: string[] = [];
    for (const state of states) {
      const check = checkRequirement(requirement, state);
      if ('problem' in check) {
        report(scope, 'requirement-open', { problem: check.problem }, location, related);
        worst = undefined;
        break;
      }
      if (check.margin >= 0) continue;
      if (worst !== undefined) others.push((check.margin < worst.margin ? worst : check).state.label);
      if (worst === undefined || check.margin < worst.margin) worst = check;
    }
    if (worst !== undefined) reportViolation(requirement, worst, others, location, related, scope, adviceFor);
  }
}

function reportViolation(
  requirement: Requirement,
  check: RequirementCheck,
  others: readonly string[],
  location: Finding['location'],
  related: readonly RelatedFinding[],
  scope: Scope,
  adviceFor: Advice,
): void {
  const { value, least, most, state } = check;
  const tooLow = least !== undefined && value.value < least.value;
  const limit = tooLow ? least : most;
  if (limit === undefined) return;
  const show = (q: Quantity) => formatQuantity(q, limit.unit, { maximumDecimals: 3 });
  const difference = show({ value: Math.abs(value.value - limit.value), dimension: value.dimension });
  // 12.2 % is not 0.2 % over 12 %.
  const by = difference.replace(/ %$/, ' percentage points');
  const quantity = requiredQuantity(requirement, state);
  const moves = quantity === undefined ? '' : adviceFor(state, quantity, limit.value, tooLow ? 'more' : 'less');
  report(
    scope,
    'requirement-violated',
    {
      what: textIn(requirement, state),
      value: show(value),
      by: `${by} ${tooLow ? 'under the least' : 'over the most'}`,
      limit: `allowed here, ${show(limit)},`,
      state: state.label,
      note:
        (others.length > 0 ? ` (also in ${firstFew(others)})` : '') +
        (requirement.message ? `: ${requirement.message}` : ''),
      moves,
    },
    location,
    related,
  );
}
