import type { Fix } from '../../../language/services/index.ts';
import { fixes } from '../../../language/services/index.ts';
import { analyseMarked, URI } from './markers.ts';

/** What is offered at the place where `text` stands in a source, with the source. */
export interface Offered {
  readonly source: string;
  readonly fixes: readonly Fix[];
}

export function offeredAt(source: string, text: string): Offered {
  const start = source.indexOf(text);
  if (start < 0) throw new Error(`No '${text}' in the source.`);
  const { analysis } = analyseMarked(source);
  return { source, fixes: fixes(analysis, URI, { start, end: start }) };
}

/** What is offered for the diagnostics of a key. */
export function offeredFor(source: string, key: string): Offered {
  const { analysis } = analyseMarked(source);
  const of = analysis.diagnostics(URI).filter((diagnostic) => diagnostic.key === key);
  if (of.length === 0) throw new Error(`No ${key} in the source.`);
  return {
    source,
    fixes: of.flatMap(({ start }) =>
      fixes(analysis, URI, { start, end: start }).filter(({ diagnostic }) => diagnostic?.key === key),
    ),
  };
}

/** The only fix among those offered whose title has a text in it. */
export function fixTitled({ fixes: all }: Offered, title: string): Fix {
  const [fix, ...others] = all.filter((each) => each.title.includes(title));
  if (fix === undefined || others.length > 0) {
    throw new Error(`Not one fix '${title}' among: ${all.map((each) => each.title).join(' | ') || 'none'}`);
  }
  return fix;
}

/** The source with the edits of a fix made, the last first. */
export function applied(source: string, { edits }: Fix): string {
  return [...edits]
    .sort((a, b) => b.start - a.start)
    .reduce((text, edit) => text.slice(0, edit.start) + edit.text + text.slice(edit.end), source);
}

/** Messages of the diagnostics of a key. */
export function messages(source: string, key?: string): readonly string[] {
  const { analysis } = analyseMarked(source);
  return analysis
    .diagnostics(URI)
    .filter((diagnostic) => key === undefined || diagnostic.key === key)
    .map(({ message }) => message);
}

/** Codes of the errors. */
export function errors(source: string): readonly string[] {
  const { analysis } = analyseMarked(source);
  return analysis
    .diagnostics(URI)
    .filter(({ severity }) => severity === 'error')
    .map(({ code, message }) => `${code} ${message}`);
}
