import { type Node, parseTree, printParseErrorCode, visit } from 'jsonc-parser';

/** Half-open range of UTF-16 offsets. */
export interface JsonPlace {
  readonly start: number;
  readonly end: number;
}

/** A text of JSON, without its quotes and escapes. */
export interface JsonText extends JsonPlace {
  readonly value: string;
}

/** What stands in the way of reading a text as JSON; `found` is empty at its end. */
export interface JsonProblem extends JsonPlace {
  readonly found: string;
  readonly expected: string;
}

const OPTIONS = { disallowComments: true, allowTrailingComma: false, allowEmptyContent: false };
/** The library follows nesting by recursion; deeper texts are refused before it runs out of stack. */
const DEEPEST = 64;
const LONGEST_FOUND = 40;

/** Reads a whole text as strict JSON (RFC 8259); a byte order mark before it is passed over. Never throws. */
export function readJson(text: string): Node | { readonly problem: JsonProblem } {
  const json = text.replace(/^\ufeff/, ' ');
  const problem = firstProblem(json);
  if (problem !== undefined) return { problem };
  const root = parseTree(json, [], OPTIONS);
  return root ?? { problem: { start: text.length, end: text.length, found: '', expected: 'a value' } };
}

export const placeOf = ({ offset, length }: Node): JsonPlace => ({ start: offset, end: offset + length });

/** The text that a node is, if it is one. */
export const textOf = (node: Node): JsonText | undefined =>
  node.type === 'string' ? { ...placeOf(node), value: String(node.value) } : undefined;

/** Names and values of an object in the order of the text, each as often as it is written; of other nodes none. */
export function membersOf(node: Node): { readonly name: JsonText; readonly value: Node }[] {
  return (node.type === 'object' ? (node.children ?? []) : []).flatMap(({ children = [] }) => {
    const [key, value] = children;
    const name = key && textOf(key);
    return name && value ? [{ name, value }] : [];
  });
}

/** What is wrong with a sign whatever stands before it, by the library's names of errors. */
const FAULTS: ReadonlyMap<string, string> = new Map([
  ['InvalidCommentToken', 'JSON without comments'],
  ['UnexpectedEndOfString', 'text with a double quote at its end'],
  ['InvalidEscapeCharacter', 'text with no other escapes than \\" \\\\ \\/ \\b \\f \\n \\r \\t and \\u'],
  ['InvalidUnicode', 'text with four hexadecimal digits behind each \\u'],
  ['InvalidCharacter', 'text without control characters'],
  ['UnexpectedEndOfNumber', 'a number with digits behind its point or exponent'],
  ['CloseBraceExpected', "'}'"],
  ['CloseBracketExpected', "']'"],
]);

/** The first place where a text leaves JSON. What may stand there follows from what was read before it. */
function firstProblem(text: string): JsonProblem | undefined {
  let problem: JsonProblem | undefined;
  let expected = 'a value';
  const open: ('}' | ']')[] = [];
  const stop = (start: number, length: number, instead: string): never => {
    const end = Math.min(start + length, text.length); // The library counts one sign too many of an unclosed comment.
    problem = { start, end, found: shown(text.slice(start, end)), expected: instead };
    throw problem;
  };
  const begin = (close: '}' | ']', inside: string) => (offset: number, length: number) => {
    if (open.length >= DEEPEST) stop(offset, length, `no deeper nesting than ${DEEPEST}`);
    open.push(close);
    expected = inside;
  };
  const afterValue = (): void => {
    const close = open.at(-1);
    expected = close === undefined ? 'the end of the file' : `',' or '${close}'`;
  };
  const end = (): void => {
    open.pop();
    afterValue();
  };
  const name = 'a name between double quotes';
  const visitor = {
    onObjectBegin: begin('}', name),
    onObjectProperty: () => {
      expected = "':'";
    },
    onObjectEnd: end,
    onArrayBegin: begin(']', 'a value'),
    onArrayEnd: end,
    onLiteralValue: afterValue,
    onSeparator: (sign: string) => {
      expected = sign === ',' && open.at(-1) === '}' ? name : 'a value';
    },
    onError: (code: number, offset: number, length: number) =>
      stop(offset, length, FAULTS.get(printParseErrorCode(code)) ?? expected),
  };
  try {
    visit(text, visitor, OPTIONS);
  } catch (thrown) {
    if (thrown !== problem) throw thrown;
  }
  return problem;
}

/** As much of a piece of the file as a message can hold, in one line. */
function shown(piece: string): string {
  const signs = [...piece.replaceAll(/\s+/g, ' ')];
  return signs.length > LONGEST_FOUND ? `${signs.slice(0, LONGEST_FOUND).join('')}…` : signs.join('');
}
