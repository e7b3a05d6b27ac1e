/*
 * Markdown for hovers: tables, lists and emphasis only, so that every editor shows it alike.
 */

export interface Column {
  readonly head: string;
  /** Figures stand right, words left. */
  readonly align: 'left' | 'right';
}

/** A table; the empty string without rows. */
export function table(columns: readonly Column[], rows: readonly (readonly string[])[]): string {
  if (rows.length === 0) return '';
  const line = (cells: readonly string[]): string => `| ${cells.map(escapeCell).join(' | ')} |`;
  return [
    line(columns.map(({ head }) => head)),
    `| ${columns.map(({ align }) => (align === 'right' ? '---:' : ':---')).join(' | ')} |`,
    ...rows.map(line),
  ].join('\n');
}

const escapeCell = (text: string): string => text.replaceAll('|', '\\|').replaceAll('\n', ' ');

/** Author's words in a line of Markdown: nothing in them is markup. */
export function plain(text: string): string {
  return text.replace(/[\\`*_{}[\]<>#|~]/g, (character) => `\\${character}`);
}

export const bold = (text: string): string => `**${plain(text)}**`;

/** Code of the language; its quotes and bars are safe there, a back quote is not and is left out. */
export const code = (text: string): string => `\`${text.replaceAll('`', '')}\``;

export function fence(text: string): string {
  return `\`\`\`rig\n${text}\n\`\`\``;
}

export function list(entries: readonly string[]): string {
  return entries.map((entry) => `- ${entry}`).join('\n');
}

/** Joins what there is, with an empty line between. */
export function paragraphs(...parts: readonly (string | undefined)[]): string {
  return parts.filter((part) => part !== undefined && part !== '').join('\n\n');
}

/** `a`, `a and b`, `a, b and 3 more`. */
export function enumerate(words: readonly string[], most = words.length): string {
  const shown = words.slice(0, most);
  if (words.length > most) return `${shown.join(', ')} and ${words.length - most} more`;
  const last = shown.pop();
  return shown.length === 0 ? (last ?? '') : `${shown.join(', ')} and ${last}`;
}
