import { OFF_THE_LEVEL } from '../../language/diagnostics/stability-wording.ts';
import { LABEL_CAUTION, LABEL_HEADING } from '../../language/label/label.ts';
import type { StatedLevel } from '../../language/levels/level.ts';
import { onTheLevel } from '../../language/rules/stability/results.ts';
import type { Assumption } from '../../language/semantics/model.ts';
import type { StateResult } from '../../language/semantics/state.ts';
import { PRESSURE, sameDimension } from '../../language/units/dimension.ts';
import { ENVELOPE_NOTE, TOLERANCE_NOTE } from './envelope.ts';
import { envelopeJson } from './envelope-json.ts';
import type { FoundEnvelope } from './envelope-results.ts';
import { type FoundDiagnostic, type FoundTurnedOff, findTurnedOff, tally } from './findings.ts';
import { finite } from './finite.ts';
import type { Problem } from './inputs.ts';
import type { FoundLabel } from './labels.ts';
import { type FoundLimits, LIMITS_NOTE } from './limits.ts';
import { limitsJson } from './limits-json.ts';
import { loadRows, marginOf } from './load-rows.ts';
import { CAUTION, casesOf } from './loads.ts';
import schema from './output.schema.json' with { type: 'json' };
import type { FoundRig } from './rigs.ts';
import { STABILITY_NOTE } from './stability.ts';
import { stabilityJson } from './stability-json.ts';
import type { FoundStability } from './stability-results.ts';
import { type FoundWeighings, WEIGH_NOTE } from './weigh.ts';
import { weighingsJson } from './weigh-json.ts';
import type { FoundWindow } from './window-command.ts';
import { windowJson } from './window-json.ts';
import type { CheckedDocument, CheckedWorkspace } from './workspace.ts';

/** What `--format json` prints, as `output.schema.json` describes it. */
export interface JsonInput {
  readonly workspace: CheckedWorkspace;
  readonly diagnostics: readonly FoundDiagnostic[];
  /** `loads` only. */
  readonly rigs?: readonly FoundRig[];
  /** Cases shown; all when empty. */
  readonly cases?: readonly string[];
  /** `stability` only. */
  readonly stability?: readonly FoundStability[];
  /** Files of the plots that `stability` and `window` wrote. */
  readonly plots?: readonly string[];
  /** `window` only. */
  readonly window?: FoundWindow;
  /** `label` only. */
  readonly labels?: readonly FoundLabel[];
  /** `limits` only. */
  readonly limits?: readonly FoundLimits[];
  /** `weigh` only. */
  readonly weighings?: readonly FoundWeighings[];
  /** `envelope` only. */
  readonly envelopes?: readonly FoundEnvelope[];
}

const VERSION = 1;

/** The schema of the output, as text. */
export const SCHEMA_TEXT = `${JSON.stringify(schema, undefined, 2)}\n`;

/** The whole output as one JSON text with a newline at its end; numbers that are not finite are left out. */
export function renderJson(input: JsonInput): string {
  const {
    workspace,
    diagnostics,
    rigs,
    cases = [],
    stability,
    plots = [],
    limits,
    labels,
    weighings,
    envelopes,
    window,
  } = input;
  const documents = [...workspace.documents.values()];
  const output = {
    $schema: schema.$id,
    version: VERSION,
    files: documents.map(({ name }) => name),
    problems: workspace.problems.map(({ input, message }: Problem) => ({ input, message })),
    diagnostics: diagnostics.map((found) => diagnosticJson(found, workspace)),
    turnedOff: findTurnedOff(workspace).map((found) => turnedOffJson(found, workspace)),
    rigs: rigs?.map((rig) => rigJson(rig, cases, workspace)),
    stability: stability?.map((rig) => ({
      ...headJson(rig.found),
      ...stabilityJson(rig),
      assumptions: [...rig.found.result.assumptions, ...(rig.stability?.assumptions ?? [])].map((assumption) =>
        assumptionJson(assumption, workspace),
      ),
    })),
    limits: limits?.map((each) => ({ ...headJson(each.found), ...limitsJson(each) })),
    weighings: weighings?.map((each) => ({ ...headJson(each.found), ...weighingsJson(each) })),
    envelopes: envelopes?.map((each) => ({ ...headJson(each.found), ...envelopeJson(each) })),
    window: window && { ...headJson(window.found), ...windowJson(window) },
    plots: plots.length > 0 ? plots : undefined,
    labels: labels?.map(labelJson),
    summary: summaryJson(diagnostics, documents.length, findTurnedOff(workspace).length),
    caution: cautionOf(input),
  };
  return `${JSON.stringify(output, undefined, 2)}\n`;
}

function cautionOf({ rigs, stability, limits, labels, weighings, envelopes, window }: JsonInput): string | undefined {
  if (labels !== undefined) return `${LABEL_HEADING}. ${LABEL_CAUTION}`;
  if (stability !== undefined) {
    const level = stability.every(({ stability: each }) => each === undefined || each.results.every(onTheLevel));
    return `${STABILITY_NOTE} ${level ? '' : `${OFF_THE_LEVEL} `}${CAUTION}`;
  }
  if (weighings !== undefined) return `${WEIGH_NOTE} ${CAUTION}`;
  if (limits !== undefined) return `${LIMITS_NOTE} ${CAUTION}`;
  if (envelopes !== undefined) return `${ENVELOPE_NOTE} ${TOLERANCE_NOTE} ${CAUTION}`;
  return rigs === undefined && window === undefined ? undefined : CAUTION;
}

function labelJson({ unit, market, incomplete, rows }: FoundLabel): object {
  return {
    unit: unit.name,
    title: unit.title,
    kind: unit.kind,
    market,
    incomplete,
    rows: rows.map(({ term, value, text, dimension, source, authority, missing }) => ({
      term,
      value: finite(value),
      quantity: value === undefined ? undefined : sameDimension(dimension, PRESSURE) ? 'pressure' : 'mass',
      text,
      source,
      authority,
      missing,
    })),
  };
}

function summaryJson(diagnostics: readonly FoundDiagnostic[], files: number, turnedOff: number): object {
  const { error, warning, information } = tally(diagnostics);
  return { files, errors: error, warnings: warning, information, turnedOff };
}

function placeJson(document: CheckedDocument, start: number, end: number): object {
  return { file: document.name, start: document.place(start), end: document.place(end) };
}

function diagnosticJson({ document, diagnostic }: FoundDiagnostic, { documents }: CheckedWorkspace): object {
  const { severity, code, key, message, start, end, related, level } = diagnostic;
  return {
    ...placeJson(document, start, end),
    severity,
    code,
    name: key,
    message,
    level: level && levelJson(level),
    related: related.flatMap((each) => {
      const where = documents.get(each.uri);
      return where === undefined ? [] : [{ ...placeJson(where, each.start, each.end), message: each.message }];
    }),
  };
}

function turnedOffJson(found: FoundTurnedOff, workspace: CheckedWorkspace): object {
  return { ...diagnosticJson(found, workspace), level: levelJson(found.level) };
}

function levelJson({ reason, origin }: StatedLevel): object {
  return { reason, statedIn: origin };
}

/** What a rig is called, and where. */
function headJson({ kind, result, document, start }: FoundRig): object {
  const { name, title } = result.rig;
  return { name, title, kind, ...placeJson(document, start, start + name.length) };
}

function rigJson(found: FoundRig, cases: readonly string[], workspace: CheckedWorkspace): object {
  const { result } = found;
  return {
    ...headJson(found),
    cases: casesOf(result, cases).flat().map(stateJson),
    assumptions: result.assumptions.map((assumption) => assumptionJson(assumption, workspace)),
  };
}

function stateJson(state: StateResult): object {
  const { kind, text, field } = state.motion;
  return {
    name: state.case.name,
    title: state.case.title,
    motion: { kind, text, grade: field.grade, deceleration: field.deceleration },
    loads: loadRows(state).map((row) => ({
      name: row.name,
      unit: row.unit,
      label: row.label.trim(),
      kg: finite(row.load),
      limit: row.rating?.name,
      rating: finite(row.rating?.value),
      margin: finite(marginOf(row)),
    })),
    quantities: Object.fromEntries(
      [...state.quantities].flatMap(([name, { value }]) => (Number.isFinite(value) ? [[name, value]] : [])),
    ),
  };
}

function assumptionJson({ text, basis, location }: Assumption, { analysis, documents }: CheckedWorkspace): object {
  const absolute = analysis.absolute(location);
  const document = absolute && documents.get(absolute.uri);
  return { text, basis, ...(document ? placeJson(document, absolute.start, absolute.end) : {}) };
}
