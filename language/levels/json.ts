/** A JSON text (RFC 8259) with the place of every value, for settings whose errors are to be shown where they are. */

export type JsonValue =
  | (JsonPlace & { readonly kind: 'object'; readonly members: readonly JsonMember[] })
  | (JsonPlace & { readonly kind: 'array'; readonly items: readonly JsonValue[] })
  | (JsonPlace & { readonly kind: 'string'; readonly value: string })
  | (JsonPlace & { readonly kind: 'number' | 'boolean' | 'null' });

/** Half-open range of UTF-16 offsets. */
export interface JsonPlace {
  readonly start: number;
  readonly end: number;
}

export interface JsonMember {
  readonly name: JsonPlace & { readonly value: string };
  readonly value: JsonValue;
}

/** What stands in the way of reading a text as JSON; `found` is empty at its end. */
export interface JsonProblem extends JsonPlace {
  readonly found: string;
  readonly expected: string;
}

class JsonFault extends Error {
  readonly at: number;
  readonly expected: string;
  constructor(at: number, expected: string) {
    super(expected);
    this.at = at;
    this.expected = expected;
  }
}

const DEEPEST = 64;
const SPACE = /[ \t\n\r]*/y;
// biome-ignore lint/suspicious/noControlCharactersInRegex: JSON does not allow them in text.
const STRING = /"(?:[^"\\\u0000-\u001f]|\\(?:["\\/bfnrt]|u[0-9a-fA-F]{4}))*"/y;
const NUMBER = /-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][+-]?\d+)?/y;
const WORD = /[A-Za-z_$][\w$]*/y;
const VALUE = 'a value';

/** Reads a whole text; a byte order mark before it is passed over. Never throws. */
export function readJson(text: string): JsonValue | { readonly problem: JsonProblem } {
  try {
    const at = skip(text, text.startsWith('\ufeff') ? 1 : 0);
    const value = readValue(text, at, 0);
    const end = skip(text, value.end);
    if (end < text.length) throw new JsonFault(end, 'the end of the file');
    return value;
  } catch (fault) {
    if (!(fault instanceof JsonFault)) throw fault;
    const found = match(WORD, text, fault.at) ?? [...text.slice(fault.at, fault.at + 2)][0] ?? '';
    return { problem: { start: fault.at, end: fault.at + found.length, found, expected: fault.expected } };
  }
}

function match(pattern: RegExp, text: string, at: number): string | undefined {
  pattern.lastIndex = at;
  return pattern.exec(text)?.[0];
}

const skip = (text: string, at: number): number => at + (match(SPACE, text, at) ?? '').length;

function readValue(text: string, start: number, depth: number): JsonValue {
  const first = text[start];
  if (first === '{' || first === '[') {
    if (depth >= DEEPEST) throw new JsonFault(start, `no deeper nesting than ${DEEPEST}`);
    return first === '{' ? readObject(text, start, depth + 1) : readArray(text, start, depth + 1);
  }
  if (first === '"') return { kind: 'string', ...readString(text, start, 'text between double quotes') };
  const number = match(NUMBER, text, start);
  if (number !== undefined) return { kind: 'number', start, end: start + number.length };
  const word = match(WORD, text, start);
  const end = start + (word ?? '').length;
  if (word === 'true' || word === 'false') return { kind: 'boolean', start, end };
  if (word === 'null') return { kind: 'null', start, end };
  throw new JsonFault(start, VALUE);
}

function readString(text: string, start: number, expected: string): JsonPlace & { readonly value: string } {
  const image = match(STRING, text, start);
  if (image === undefined) throw new JsonFault(start, expected);
  const value: unknown = JSON.parse(image);
  return { value: String(value), start, end: start + image.length };
}

function readObject(text: string, start: number, depth: number): JsonValue {
  const members: JsonMember[] = [];
  const end = readList(text, start, '}', 'a name between double quotes', (at) => {
    const name = readString(text, at, 'a name between double quotes');
    const colon = skip(text, name.end);
    if (text[colon] !== ':') throw new JsonFault(colon, "':'");
    const value = readValue(text, skip(text, colon + 1), depth);
    members.push({ name, value });
    return value.end;
  });
  return { kind: 'object', members, start, end };
}

function readArray(text: string, start: number, depth: number): JsonValue {
  const items: JsonValue[] = [];
  const end = readList(text, start, ']', VALUE, (at) => {
    const value = readValue(text, at, depth);
    items.push(value);
    return value.end;
  });
  return { kind: 'array', items, start, end };
}

/** Entries with commas between them up to a closing sign; gives the offset behind it. */
function readList(text: string, start: number, close: string, entry: string, read: (at: number) => number): number {
  let at = skip(text, start + 1);
  if (text[at] === close) return at + 1;
  for (;;) {
    if (text[at] === close) throw new JsonFault(at, entry);
    at = skip(text, read(at));
    if (text[at] === close) return at + 1;
    if (text[at] !== ',') throw new JsonFault(at, `',' or '${close}'`);
    at = skip(text, at + 1);
  }
}
