import {
  type Analysis,
  analyse,
  type Diagnostic,
  openDocument,
  type StateResult,
  type Workspace,
  type WorkspaceDocument,
} from '../../../language/index.ts';
import type { Item, RigModel, UnitModel } from '../../../language/semantics/model.ts';
import type { RigResult } from '../../../language/semantics/state.ts';

/** URI of a file of the workspace that the tests write. */
export const uriOf = (name: string): string => `file:///yard/${name}`;
export const MAIN = uriOf('main.rig');

/** Texts by file name; a file that cannot be had says why. */
export type Files = Readonly<Record<string, string | 'missing' | 'outside' | 'unreadable'>>;

export function workspaceOf(files: Files): Workspace {
  const documents = new Map<string, WorkspaceDocument>();
  for (const [name, text] of Object.entries(files)) {
    const absent = text === 'missing' || text === 'outside' || text === 'unreadable';
    documents.set(uriOf(name), absent ? { kind: text } : { kind: 'text', syntax: openDocument(text) });
  }
  return { documents };
}

/** One analysed text with the files beside it, and short ways to what it says. */
export interface Reading {
  readonly analysis: Analysis;
  readonly diagnostics: readonly Diagnostic[];
  /** Names of the errors and warnings in text order: `unknown-name`. */
  readonly keys: readonly string[];
  readonly messages: readonly string[];
  readonly unit: (name: string) => UnitModel;
  readonly rig: (name: string) => RigModel;
  readonly item: (name: string) => Item;
  readonly result: (name: string) => RigResult;
  /** The level state of a case; the first case where none is named. */
  readonly state: (rig: string, name?: string) => StateResult;
  /** A computed quantity (SI; loads in kg) in the level state of a case. */
  readonly value: (rig: string, quantity: string, name?: string) => number;
  /** The text that a diagnostic of this name marks. */
  readonly marked: (key: string) => string;
  /** Texts of the assumptions listed with a rig or a unit alone. */
  readonly assumptions: (name: string) => readonly string[];
}

export function read(text: string, files: Files = {}): Reading {
  const analysis = analyse(workspaceOf({ 'main.rig': text, ...files }));
  const diagnostics = analysis.diagnostics(MAIN);
  const shown = diagnostics.filter(({ key }) => key !== 'assumption');
  const entity = (name: string) => {
    const placed = analysis.lookup(MAIN, name)[0] ?? fail(`nothing is called ${name}`);
    const found = analysis.entities(placed.uri).find(({ declaration }) => declaration === placed.declaration);
    return found?.entity ?? fail(`${name} says nothing: ${diagnostics.map(({ message }) => message).join(' ')}`);
  };
  const result = (name: string): RigResult => {
    const found = entity(name);
    return 'result' in found ? found.result : fail(`${name} has no loads`);
  };
  const state = (name: string, wanted?: string): StateResult =>
    result(name).states.find(
      (one) => one.motion.kind === 'level' && (wanted === undefined || one.case.name === wanted),
    ) ?? fail(`${name} has no such state: ${diagnostics.map(({ message }) => message).join(' ')}`);
  return {
    analysis,
    diagnostics,
    keys: shown.map(({ key }) => key),
    messages: shown.map(({ message }) => message),
    unit: (name) => {
      const found = entity(name);
      return found.kind === 'unit' ? found.unit : fail(`${name} is no unit`);
    },
    rig: (name) => {
      const found = entity(name);
      return found.kind === 'rig' ? found.rig : fail(`${name} is no rig`);
    },
    item: (name) => {
      const found = entity(name);
      return found.kind === 'item' ? found.item : fail(`${name} is no item`);
    },
    result,
    state,
    value: (rig, quantity, name) =>
      state(rig, name).quantities.get(quantity)?.value ??
      fail(`${quantity} is not computed; there are ${[...state(rig, name).quantities.keys()].join(', ')}`),
    marked: (key) => {
      const found = diagnostics.find((diagnostic) => diagnostic.key === key) ?? fail(`no ${key}`);
      return text.slice(found.start, found.end);
    },
    assumptions: (name) => result(name).assumptions.map((assumption) => assumption.text),
  };
}

export function fail(problem: string): never {
  throw new Error(problem);
}

/** A trailer whose every assumption is stated; more lines go into its block. */
export const trailer = (lines = '', name = 'Hauler'): string => `trailer ${name} {
  coupling ball 50 mm, 430 mm up
  axles single at 2600 mm back, track 1500 mm
  tare 240 kg at 2450 mm back, 520 mm up, inertia 210 kg·m²
  brakes overrun
  ${lines}
}
`;

/** A vehicle with a hitch, every assumption stated. */
export const vehicle = (lines = '', name = 'Truck'): string => `vehicle ${name} {
  wheelbase 3200 mm, track 1680 mm
  kerb 1180 kg on front, 940 kg on rear, 680 mm up, inertia 4200 kg·m²
  hitch ball at 1150 mm behind rear, 430 mm up
  ${lines}
}
`;
