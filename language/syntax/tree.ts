/**
 * The syntax tree of one declaration. Every span is relative to the start of the declaration's own text, so a tree stays
 * valid, and is kept, while text before the declaration grows or shrinks.
 */

/** Half-open range of UTF-16 offsets, relative to the declaration's text. */
export interface Span {
  readonly start: number;
  readonly end: number;
}

/** A word or name as written. */
export interface Word extends Span {
  readonly text: string;
}

/** Text between double quotes; `value` is without the quotes. */
export interface Text extends Span {
  readonly value: string;
}

/** A dotted name such as `TourerB.coupling.load`; at least one word. */
export interface Reference extends Span {
  readonly path: readonly Word[];
}

/** One number with its unit, both as written. */
export interface Measure extends Span {
  readonly number: Word;
  readonly unit?: Word;
}

export type Expression =
  /** One measure, or several that add up: `11 ft 3 in`. */
  | (Span & { readonly kind: 'quantity'; readonly measures: readonly Measure[] })
  | (Span & { readonly kind: 'reference'; readonly reference: Reference })
  | (Span & { readonly kind: 'text'; readonly text: Text })
  | (Span & { readonly kind: 'sum'; readonly terms: readonly Term[] })
  | (Span & { readonly kind: 'product'; readonly factors: readonly Factor[] });

export interface Term {
  readonly negative: boolean;
  readonly operand: Expression;
}

export interface Factor {
  readonly divide: boolean;
  readonly operand: Expression;
}

/** `back`, `left of fridge`, `behind axles`, `on coupling`: which way a value points, and from what. */
export interface Direction extends Span {
  readonly word: Word;
  readonly datum?: Reference;
}

/** `900 x 450 x 240 mm`, `0 % to 40 %`, `3420 mm back`, `2 x "195R14C 106/104Q"`. */
export interface Value extends Span {
  /** One expression, or several joined by `x`. */
  readonly factors: readonly Expression[];
  /** Of the first end of an extent, where it is not that of the last: `900 mm ahead to 4450 mm back`. */
  readonly startDirection?: Word;
  readonly upTo?: Expression;
  /** After `±`. */
  readonly tolerance?: Expression;
  readonly direction?: Direction;
}

/** `2 x gas_bottle`, `awning`. */
export interface CountedReference extends Span {
  readonly count?: Measure;
  readonly reference: Reference;
}

/** What follows the head of a statement, in the order written. */
export type Argument =
  | (Span & { readonly kind: 'value'; readonly keyword?: Word; readonly value: Value })
  | (Span & { readonly kind: 'references'; readonly keyword: Word; readonly references: readonly CountedReference[] })
  | (Span & { readonly kind: 'flag'; readonly word: Word })
  | (Span & { readonly kind: 'text'; readonly text: Text });

/** How a requirement compares: `between a and b`, `at least a`, `at most b`. */
export interface Comparison extends Span {
  readonly least?: Expression;
  readonly most?: Expression;
}

export interface Block extends Span {
  readonly statements: readonly Statement[];
}

/**
 * A declaration or a line of one: `tank fresh 95 L of water at 2600 mm back`.
 * `head` is a keyword, or the first word of `subject` where the statement speaks of a named thing (`fresh 100 %`).
 */
export interface Statement extends Span {
  readonly head: Word;
  /** The name that the statement declares. */
  readonly name?: Word;
  /** What the statement speaks of, where its head is a reference: `YardTruck.fuel 100 %`. */
  readonly subject?: Reference;
  /** The things a statement such as `stow` or `haul` lists directly behind its head. */
  readonly objects: readonly CountedReference[];
  readonly arguments: readonly Argument[];
  /** `let` and `require`: the expression. */
  readonly expression?: Expression;
  readonly comparison?: Comparison;
  readonly block?: Block;
  /** Text of the `##` comment lines directly above. */
  readonly documentation?: string;
  /** True when a syntax error ended the statement early: what is missing from it must not be reported again. */
  readonly broken: boolean;
}

/** A syntax error, or a merge conflict, at a place of the declaration's text. */
export interface SyntaxProblem extends Span {
  readonly kind: 'syntax' | 'no-declaration' | 'character' | 'unterminated-text' | 'unclosed' | 'conflict' | 'nesting';
  readonly found: string;
  readonly expected: string;
}

/**
 * One top-level declaration with everything that its text alone can tell. Identity matters: the same object is kept
 * from snapshot to snapshot while the text is unchanged, so results may be cached by it.
 */
export interface Declaration {
  readonly text: string;
  /** Undefined when the text holds no declaration (only stray text). */
  readonly statement?: Statement;
  readonly problems: readonly SyntaxProblem[];
}
