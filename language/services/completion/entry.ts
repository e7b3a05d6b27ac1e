/** What a completion stands for, so that an editor can pick its icon. */
export type CompletionKind =
  | 'keyword'
  | 'flag'
  | 'direction'
  | 'measure-unit'
  | 'vehicle'
  | 'trailer'
  | 'item'
  | 'fluid'
  | 'material'
  | 'tyre'
  | 'axles'
  | 'coupling'
  | 'seat'
  | 'tank'
  | 'locker'
  | 'part'
  | 'case'
  | 'market'
  | 'tag'
  | 'let'
  | 'quantity'
  | 'file'
  | 'code';

/** Something that fits at the caret; entries stand in the order they should be shown. */
export interface CompletionEntry {
  readonly label: string;
  readonly kind: CompletionKind;
  /** One line beside the label. */
  readonly detail: string;
  /** Markdown. */
  readonly documentation?: string;
  /** Text to insert where it is not the label. */
  readonly insertText?: string;
  /** Absolute range that is replaced: the word at the caret. */
  readonly start: number;
  readonly end: number;
}

/** An entry before it knows where it goes. */
export type Proposal = Omit<CompletionEntry, 'start' | 'end'>;
