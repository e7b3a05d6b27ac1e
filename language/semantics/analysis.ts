/** What the analysis of a workspace offers: results by document and by declaration. Implemented in `analyse.ts`. */

import type { Location, Severity } from '../diagnostics/finding.ts';
import type { FolderLevels, Levels, StatedLevel } from '../levels/level.ts';
import type { DocumentSyntax } from '../syntax/document.ts';
import type { Declaration } from '../syntax/tree.ts';
import type { Quantity } from '../units/quantity.ts';
import type { Item, RigModel, Tyres, UnitModel } from './model.ts';
import type { LineLevel } from './rule-lines.ts';
import type { RigStability } from './stability/evaluate-stability.ts';
import type { RigResult } from './state.ts';

/** A document as the workspace holds it; one that `use` names but that cannot be had says why. */
export type WorkspaceDocument =
  | { readonly kind: 'text'; readonly syntax: DocumentSyntax }
  | { readonly kind: 'missing' | 'outside' | 'unreadable' };

/** An immutable set of documents by URI: those asked about, and all that they use. */
export interface Workspace {
  readonly documents: ReadonlyMap<string, WorkspaceDocument>;
  /** Levels of rules stated outside the documents; of two for one folder the first goes before the second. */
  readonly levels?: readonly FolderLevels[];
}

/** What one declaration says. */
export type Entity =
  | { readonly kind: 'unit'; readonly unit: UnitModel; readonly result: RigResult }
  | {
      readonly kind: 'rig';
      readonly rig: RigModel;
      readonly result: RigResult;
      /** Lateral stability; undefined for a rig that tows nothing or has no loads. */
      readonly stability: RigStability | undefined;
    }
  | { readonly kind: 'item'; readonly item: Item }
  | { readonly kind: 'fluid'; readonly name: string; readonly density: number }
  | { readonly kind: 'material'; readonly name: string; readonly massPerArea?: number; readonly massPerLength?: number }
  | { readonly kind: 'tyre'; readonly name: string; readonly tyre: Tyres }
  | { readonly kind: 'let'; readonly name: string; readonly quantity: Quantity }
  | { readonly kind: 'use'; readonly uri: string }
  /** A `rule` line for a whole file. */
  | { readonly kind: 'rule'; readonly levels: readonly LineLevel[] };

/** A diagnostic with absolute offsets in its document. */
export interface Diagnostic {
  /** Name in the catalogue. */
  readonly key: string;
  readonly code: string;
  readonly severity: Severity;
  readonly message: string;
  readonly start: number;
  readonly end: number;
  readonly related: readonly {
    readonly uri: string;
    readonly start: number;
    readonly end: number;
    readonly message: string;
  }[];
  /** What would mend it written in its place. */
  readonly replacement?: string;
  /** Where its severity is not the catalogue's: who says so, and why. */
  readonly level?: StatedLevel;
}

/** What is not among the diagnostics because its rule is turned off. */
export interface TurnedOff {
  /** As it would be reported; its severity is the catalogue's. */
  readonly diagnostic: Diagnostic;
  readonly level: StatedLevel;
  /** The declaration it was found in. */
  readonly declaration: Declaration;
}

/** A location with absolute offsets. */
export interface AbsoluteLocation {
  readonly uri: string;
  readonly start: number;
  readonly end: number;
}

/** One declaration of a document, where it stands, and what it says (undefined when it has errors that leave nothing). */
export interface PlacedEntity {
  readonly declaration: Declaration;
  readonly start: number;
  readonly entity?: Entity;
}

/** Immutable; lazily computed, each declaration at most once, and kept for the next version where nothing it reads has changed. */
export interface Analysis {
  readonly workspace: Workspace;
  /**
   * Diagnostics of a document in text order, at most MOST_DIAGNOSTICS; the last then says how many more there are. Those
   * that take longer are among them as far as they are known: see `settleNext`.
   */
  diagnostics(uri: string): readonly Diagnostic[];
  /** What the rules found in a document that are turned off, in text order; none is left out. */
  turnedOff(uri: string): readonly TurnedOff[];
  /** The levels that bind a declaration of a document, by code: of several for one rule the one that counts. */
  levels(uri: string, declaration: Declaration): Levels;
  /**
   * Looks for what takes longer in the declarations of the document (lateral stability, states that no case names), at each
   * call a part of one, whose diagnostics are among those of `diagnostics` after its last part; false when nothing is left.
   * Costs milliseconds, so it follows the others.
   */
  settleNext(uri: string): boolean;
  /** Declarations of the document in text order. */
  entities(uri: string): readonly PlacedEntity[];
  entityAt(uri: string, offset: number): PlacedEntity | undefined;
  /** The declarations that a name stands for, seen from a document (own, then used ones). More than one: duplicates. */
  lookup(uri: string, name: string): readonly PlacedName[];
  /**
   * The named declarations of the workspace that may use a name, in text order: those that asked for it when they were
   * evaluated, and of a document that has not been evaluated all.
   */
  users(name: string): readonly PlacedName[];
  /** All names visible in a document, its own first. */
  names(uri: string): readonly PlacedName[];
  absolute(location: Location): AbsoluteLocation | undefined;
}

export interface PlacedName {
  readonly name: string;
  readonly uri: string;
  readonly declaration: Declaration;
  readonly start: number;
}

/** More diagnostics than this are not published for one document: one last diagnostic counts the rest. */
export const MOST_DIAGNOSTICS = 200;
