import { checkRig } from '../rules/index.ts';
import type { Declaration, Reference, Statement } from '../syntax/tree.ts';
import type { Entity } from './analysis.ts';
import { readStatement } from './arguments.ts';
import { assumeAboutCases } from './case-assumptions.ts';
import { evaluateRig } from './evaluate.ts';
import { evaluateExpression, referencesIn } from './expressions.ts';
import { type ReadingContext, readMeasured } from './measured.ts';
import type { RigModel } from './model.ts';
import { adviceFor } from './moves.ts';
import { nameOf, namesOf } from './names.ts';
import { reportRequirements, requirementsOf } from './requirements.ts';
import { resultOf, stabilityOf } from './results.ts';
import { readRig } from './rig.ts';
import { readRuleLine } from './rule-lines.ts';
import { type Line, locate, report, type Scope } from './scope.ts';
import { specOf } from './specs.ts';
import { asksForStability } from './stability/stability-quantities.ts';
import { standaloneRig } from './standalone-rig.ts';
import type { RigResult } from './state.ts';
import { readSizeOf, readToleranceOf } from './unit/parts.ts';
import { describeStaticsProblem } from './unit/statics-text.ts';
import { readMarking, readPressures } from './unit/tyres.ts';
import { readUnit } from './unit/unit.ts';

type Reader = (line: Line, scope: Scope) => Entity | undefined;

const READERS: ReadonlyMap<string, Reader> = new Map([
  ['let', readLet],
  ['item', readItem],
  ['fluid', readFluid],
  ['material', readMaterial],
  ['tyre', readTyre],
  ['vehicle', readUnitEntity],
  ['trailer', readUnitEntity],
  ['variant', readUnitEntity],
  ['rig', readRigEntity],
  ['rule', readRuleEntity],
]);

/** What a declaration says; its findings go to the scope. `use` is handled where files are joined. */
export function readDeclaration(statement: Statement, scope: Scope): Entity | undefined {
  if (statement.subject !== undefined) return undefined;
  const line: Line = { statement, declaration: scope.declaration, uri: scope.uri };
  return READERS.get(statement.head.text)?.(line, scope);
}

function readRuleEntity(line: Line, scope: Scope): Entity {
  return { kind: 'rule', levels: readRuleLine(line, 'file', scope) };
}

function contextFor(line: Line, scope: Scope): ReadingContext {
  return { scope, line, names: namesOf(scope, line) };
}

function missing(line: Line, scope: Scope, part: string, example: string): undefined {
  const { statement } = line;
  if (!statement.broken) {
    const what =
      `${statement.head.text.charAt(0).toUpperCase()}${statement.head.text.slice(1)} ${statement.name?.text ?? ''}`.trim();
    report(scope, 'missing-part', { what, part, example }, locate(line, statement.name ?? statement.head));
  }
  return undefined;
}

function readLet(line: Line, scope: Scope): Entity | undefined {
  const { expression, name } = line.statement;
  if (expression === undefined || name === undefined) return undefined;
  const circle = circleOf(line, scope);
  if (circle === 'too long') {
    report(scope, 'chain-too-long', { name: name.text, most: LONGEST_CHAIN }, locate(line, name));
    return undefined;
  }
  if (circle !== undefined) {
    report(scope, 'name-cycle', { cycle: circle.names.join(' → ') }, locate(line, circle.reference));
    return undefined;
  }
  const quantity = evaluateExpression(expression, contextFor(line, scope));
  return quantity && { kind: 'let', name: name.text, quantity };
}

/**
 * The circle of `let` declarations that a `let` is part of, and the name by which it enters it. Found by following
 * names, not by evaluating, so that every member reports the circle whichever is asked first.
 */
function circleOf(
  line: Line,
  scope: Scope,
): { names: readonly string[]; reference: Reference } | 'too long' | undefined {
  const own = line.statement.name?.text ?? '';
  const passed = new Set<Declaration>();
  for (const reference of referencesIn(line.statement.expression)) {
    const names = namesBack(reference, line.uri, scope, passed, 1);
    if (names === 'too long') return names;
    if (names !== undefined) return { names: [own, ...names], reference };
  }
  return undefined;
}

/** Quantities that are computed from each other over more steps than this are not computed. */
const LONGEST_CHAIN = 200;

/** The names from a reference back to the declaration of the scope. What `passed` holds is known not to lead there. */
function namesBack(
  reference: Reference,
  uri: string,
  scope: Scope,
  passed: Set<Declaration>,
  steps: number,
): readonly string[] | 'too long' | undefined {
  const name = nameOf(reference);
  const found = scope.find(uri, name);
  if (found?.declaration === scope.declaration) return [name];
  const statement = found?.declaration.statement;
  if (found === undefined || statement?.head.text !== 'let' || passed.has(found.declaration)) return undefined;
  if (steps >= LONGEST_CHAIN) return 'too long';
  passed.add(found.declaration);
  for (const next of referencesIn(statement.expression)) {
    const names = namesBack(next, found.uri, scope, passed, steps + 1);
    if (names === 'too long') return names;
    if (names !== undefined) return [name, ...names];
  }
  return undefined;
}

function readItem(line: Line, scope: Scope): Entity | undefined {
  const spec = specOf('file', 'item');
  const { name, documentation } = line.statement;
  if (spec === undefined || name === undefined) return undefined;
  const read = readStatement(line, spec, scope);
  const context = contextFor(line, scope);
  const size = readSizeOf(read, context);
  const [value] = read.values;
  if (value === undefined) return missing(line, scope, 'its mass', `item ${name.text} 38 kg`);
  const mass = readMeasured(
    value,
    { what: `the mass of item ${name.text}`, kinds: ['mass'], sign: 'not negative', tolerance: true },
    context,
  );
  if (mass === undefined) return undefined;
  const tolerance = readToleranceOf(read, mass.value, context) ?? mass.tolerance;
  const tags = (read.names.get('tags') ?? []).map(({ reference }) => reference.path.map(({ text }) => text).join('.'));
  return {
    kind: 'item',
    item: {
      name: name.text,
      mass: mass.value,
      tags,
      location: locate(line, name),
      ...(read.text ? { title: read.text.value } : {}),
      ...(documentation ? { documentation } : {}),
      ...(size ? { size } : {}),
      ...(tolerance !== undefined ? { tolerance } : {}),
    },
  };
}

function readFluid(line: Line, scope: Scope): Entity | undefined {
  const spec = specOf('file', 'fluid');
  const { name } = line.statement;
  if (spec === undefined || name === undefined) return undefined;
  const [value] = readStatement(line, spec, scope).values;
  if (value === undefined) return missing(line, scope, 'its density', `fluid ${name.text} 1.02 kg/L`);
  const density = readMeasured(
    value,
    { what: `the density of ${name.text}`, kinds: ['density'], sign: 'positive' },
    contextFor(line, scope),
  );
  return density && { kind: 'fluid', name: name.text, density: density.value };
}

function readMaterial(line: Line, scope: Scope): Entity | undefined {
  const spec = specOf('file', 'material');
  const { name } = line.statement;
  if (spec === undefined || name === undefined) return undefined;
  const read = readStatement(line, spec, scope);
  const [value] = read.values;
  if (value === undefined)
    return missing(line, scope, 'its mass per area or length', `material ${name.text} 6.4 kg/m²`);
  const wanted = {
    what: `what ${name.text} weighs`,
    kinds: ['mass per area', 'mass per length'],
    sign: 'positive',
  } as const;
  const measured = readMeasured(value, wanted, contextFor(line, scope));
  if (measured === undefined) return undefined;
  const property =
    measured.kind === 'mass per area' ? { massPerArea: measured.value } : { massPerLength: measured.value };
  return { kind: 'material', name: name.text, ...property };
}

function readTyre(line: Line, scope: Scope): Entity | undefined {
  const spec = specOf('file', 'tyre');
  const { name } = line.statement;
  if (spec === undefined || name === undefined) return undefined;
  const read = readStatement(line, spec, scope);
  const context = contextFor(line, scope);
  if (read.text === undefined) return missing(line, scope, 'its marking', `tyre ${name.text} "195R14C 106/104Q"`);
  const marking = readMarking(read.text, false, context);
  const pressures = readPressures(
    { inflation: read.at[0], reference: read.keywords.get('reference_pressure')?.[0] },
    context,
  );
  const corneringValue = read.keywords.get('cornering')?.[0];
  const cornering =
    corneringValue &&
    readMeasured(
      corneringValue,
      { what: 'the cornering stiffness', kinds: ['cornering stiffness'], sign: 'positive' },
      context,
    );
  const relaxationValue = read.keywords.get('relaxation')?.[0];
  const relaxation =
    relaxationValue &&
    readMeasured(relaxationValue, { what: 'the relaxation length', kinds: ['length'], sign: 'positive' }, context);
  const stated = read.keywords.get('capacity')?.[0];
  const capacity =
    stated && readMeasured(stated, { what: 'the capacity of the tyre', kinds: ['mass'], sign: 'positive' }, context);
  if (marking === undefined) return undefined;
  return {
    kind: 'tyre',
    name: name.text,
    tyre: {
      ...marking,
      count: 1,
      dual: false,
      location: locate(line, name),
      ...(capacity ? { capacity: capacity.value } : {}),
      ...pressures,
      ...(cornering ? { cornering: cornering.value } : {}),
      ...(relaxation ? { relaxation: relaxation.value } : {}),
    },
  };
}

function readUnitEntity(line: Line, scope: Scope): Entity | undefined {
  const unit = readUnit(line, scope);
  if (unit === undefined) return undefined;
  const known = scope.assumptions.length;
  if (unit.cases.length > 0) assumeAboutCases(scope, line, [unit], [], unit.cases);
  const result = evaluate(standaloneRig(unit, scope.assumptions.slice(known)), unit.computable, scope);
  return {
    kind: 'unit',
    unit,
    get result() {
      return result();
    },
  };
}

function readRigEntity(line: Line, scope: Scope): Entity | undefined {
  const read = readRig(line, scope);
  if (read === undefined) return undefined;
  const result = evaluate(read.rig, read.computable, scope);
  return {
    kind: 'rig',
    rig: read.rig,
    get result() {
      return result();
    },
    get stability() {
      return stabilityOf(read.rig);
    },
  };
}

/** Checks all states of a rig by the rules and the author's own limits; gives the way to have the states again. */
function evaluate(rig: RigModel, computable: boolean, scope: Scope): () => RigResult {
  const none = (): RigResult => ({
    rig,
    states: [],
    motions: [],
    assumptions: [...rig.units.flatMap(({ assumptions }) => assumptions), ...rig.assumptions],
  });
  if (!computable) return none;
  const result = evaluateRig(rig);
  if ('problem' in result) {
    report(scope, 'no-loads', { unit: rig.name, problem: describeStaticsProblem(result, rig.units) }, rig.location);
    return none;
  }
  for (const finding of checkRig(result)) {
    if (finding.location.declaration === scope.declaration) scope.findings.push(finding);
  }
  const level = result.states.filter(({ motion }) => motion.kind === 'level');
  const now = requirementsOf(rig).filter((requirement) => !asksForStability(requirement));
  reportRequirements(rig, now, level, scope, adviceFor);
  return () => {
    const again = resultOf(rig);
    return 'problem' in again ? none() : again;
  };
}
