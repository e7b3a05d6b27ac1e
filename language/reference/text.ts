import type { Context } from '../syntax/vocabulary.ts';

/** How the reference speaks of the places where a statement may stand. */
export const CONTEXT_NAMES: Readonly<Record<Context, string>> = {
  file: 'a file',
  vehicle: 'a `vehicle`',
  trailer: 'a `trailer`',
  axles: '`axles`',
  limits: '`limits`',
  group: 'a `group`',
  rig: 'a `rig`',
  case: 'a `case`',
  reachable: '`reachable` states',
  weighing: 'a `weighing`',
  pass: '`coupled`, `solo` and `raised`',
  variant: 'a `variant`',
};

/**
 * A block of code of the language. With a context it holds lines of that kind of block, without one a whole file; the
 * tests read the context from the info string and try every block in its place.
 */
export function fenceIn(text: string, context: Context = 'file'): string {
  return `\`\`\`rig${context === 'file' ? '' : ` ${context}`}\n${text.trimEnd()}\n\`\`\``;
}

/** `a`, `a and b`, `a, b and c`, or with another last word. */
export function joined(words: readonly string[], last: 'and' | 'or' = 'and'): string {
  const end = words.at(-1) ?? '';
  return words.length < 2 ? end : `${words.slice(0, -1).join(', ')} ${last} ${end}`;
}

export function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/** The fragment under which a heading is reached, as the common Markdown renderers make it. */
export function fragment(heading: string): string {
  return heading
    .toLowerCase()
    .replace(/[^\p{L}\p{N}_ -]/gu, '')
    .replaceAll(' ', '-');
}

/** A link to a heading of the same page. */
export function linkTo(heading: string, text = heading): string {
  return `[${text}](#${fragment(heading)})`;
}
