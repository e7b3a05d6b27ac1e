import { marketNamed } from '../catalogue/markets.ts';
import { CATALOGUE, type CatalogueKey } from '../diagnostics/catalogue.ts';
import type { Authority, DiagnosticDefinition } from '../diagnostics/define.ts';
import type { Severity } from '../diagnostics/finding.ts';
import { isRuleKey } from '../levels/rule-codes.ts';
import { MARKET_RULES } from '../rules/markets/index.ts';
import { MOST_DIAGNOSTICS } from '../semantics/analysis.ts';
import { code, paragraphs, table } from '../services/markdown.ts';
import { LONGEST_DOCUMENT } from '../syntax/document.ts';
import { formatNumber } from '../units/display.ts';
import { exampleDiagnostics, exampleText, isWorkspaceFile } from './example-workspace.ts';
import { fenceIn } from './text.ts';

const GENERATED = '<!-- Made from the catalogue of diagnostics by `npm run docs`. Changes here are lost. -->';

const SEVERITIES: Readonly<Record<Severity, string>> = {
  error: 'Error',
  warning: 'Warning',
  information: 'Information',
};

/** What each range of codes is about, by the first two digits, the more special ones first. */
const RANGES: readonly (readonly [prefix: string, heading: string])[] = [
  ['RW1', 'How a file is written'],
  ['RW2', 'Names and files'],
  ['RW3', 'Numbers and units'],
  ['RW48', 'Things that do not fit where they are'],
  ['RW4', 'Places, and how things go together'],
  ['RW58', 'Limits of your own'],
  ['RW5', 'Loads, ratings and balance'],
  ['RW6', 'Couplings and tyres'],
  ['RW7', 'Lateral stability'],
  ['RW89', 'Levels of rules'],
  ['RW8', 'Limits of the markets'],
];

/** What an example needs around it, where the file alone does not bring the diagnostic out. */
const SETTINGS: Readonly<Partial<Record<CatalogueKey, string>>> = {
  'file-missing': 'There is no file `no-such-file.rig` beside this one.',
  'file-outside': 'The path leads out of the folder that is open.',
  'file-unreadable': 'The file `unreadable.rig` is there, but it is not UTF-8 text.',
  'use-cycle': 'This file is called `example.rig`.',
  'unreadable-settings': 'This file is the `rigwright.json` of the folder.',
  'unexpected-setting': 'This file is the `rigwright.json` of the folder.',
};

/** What stands for an example that is too long to print. */
const LONG_EXAMPLES: Readonly<Partial<Record<CatalogueKey, string>>> = {
  'file-too-long': `A file of more than ${formatNumber(LONGEST_DOCUMENT)} characters.`,
  'more-diagnostics': `A file with more than ${MOST_DIAGNOSTICS} errors, such as one line \`item item_1\` without a mass after another.`,
};

type Entry = readonly [key: CatalogueKey, definition: DiagnosticDefinition<never>];

/** Every entry of the catalogue in the order of the codes. */
export function catalogueEntries(): readonly Entry[] {
  const entries = Object.entries(CATALOGUE).flatMap(([key, definition]): Entry[] =>
    isCatalogueKey(key) ? [[key, definition]] : [],
  );
  return entries.sort(([, a], [, b]) => a.code.localeCompare(b.code));
}

function isCatalogueKey(key: string): key is CatalogueKey {
  return key in CATALOGUE;
}

/** A page of Markdown for each code. */
export function diagnosticPages(): ReadonlyMap<string, string> {
  return new Map(catalogueEntries().map(([key, definition]) => [definition.code, page(key, definition)]));
}

/** The page of one code; undefined where there is no such code. */
export function diagnosticPage(code: string): string | undefined {
  const entry = catalogueEntries().find(([, definition]) => definition.code === code);
  return entry && page(...entry);
}

function page(key: CatalogueKey, definition: DiagnosticDefinition<never>): string {
  const { code: number, severity, title, meaning, mend, mended } = definition;
  const parts = paragraphs(
    `# ${number}: ${title}`,
    GENERATED,
    `**${SEVERITIES[severity]}** · ${code(key)} · [All diagnostics](index.md) · [Language reference](../language.md)`,
    meaning,
    '## Example',
    example(key, definition),
    '## How to mend it',
    mend,
    'The example, mended:',
    exampleFence(key, mended),
    sourceSection(key, definition),
    isRuleKey(key) ? levelSection(number) : undefined,
    cautionSection(definition),
  );
  return `${parts}\n`;
}

function example(key: CatalogueKey, { example: file, code: number }: DiagnosticDefinition<never>): string {
  const text = exampleText(key, file);
  const found = exampleDiagnostics(key, text).find((diagnostic) => diagnostic.code === number);
  const long = LONG_EXAMPLES[key];
  return paragraphs(
    long ?? paragraphs(SETTINGS[key] ?? 'A file that brings it out:', exampleFence(key, file)),
    found && (long === undefined ? `Reported in line ${lineOf(text, found.start)}:` : 'Reported:'),
    found && `> ${found.message}`,
  );
}

function exampleFence(key: CatalogueKey, text: string): string {
  return isWorkspaceFile(key) ? `\`\`\`json\n${text.trimEnd()}\n\`\`\`` : fenceIn(text);
}

/** What gives a limit its force, as the page says it. */
const AUTHORITIES: Readonly<Record<Authority, string>> = {
  plate: 'a plate or a rating of a maker, as stated in the file',
  regulation: 'a regulation',
  recommendation: 'a published recommendation',
  'common practice': 'common practice',
};

function sourceSection(key: CatalogueKey, { source, authority }: DiagnosticDefinition<never>): string | undefined {
  if (source === undefined && authority === undefined) return undefined;
  const markets = MARKET_RULES.find((rule) => rule.key === key)?.markets;
  return paragraphs(
    '## Source',
    source && sentence(source),
    authority && `Authority: ${AUTHORITIES[authority]}.`,
    markets === undefined || markets === 'everywhere'
      ? undefined
      : `Markets: ${markets.map((name) => `${name} (${marketNamed(name)?.title ?? name})`).join(', ')}.`,
  );
}

function levelSection(number: string): string {
  return paragraphs(
    '## Another level',
    `\`rule ${number} off "…"\`, with your reason between the quotes, turns it off: see [Levels of rules](../language.md#levels-of-rules). What is turned off is counted and never out of sight.`,
  );
}

/** Loads, couplings, tyres, stability and the texts on them: what can hurt someone. */
function isSafetyMatter(number: string): boolean {
  return /^RW(?:[567]|8[0-8])/.test(number);
}

function cautionSection({ code: number, caution }: DiagnosticDefinition<never>): string | undefined {
  if (caution === undefined && !isSafetyMatter(number)) return undefined;
  return paragraphs(
    '## Caution',
    caution,
    isSafetyMatter(number)
      ? "Verify the loads on a weighbridge. The plates on the units, the makers' ratings and the law of the place prevail. That this diagnostic does not appear is not a certificate."
      : undefined,
  );
}

/** Number of the line, from 1, in which an offset lies. */
function lineOf(text: string, offset: number): number {
  return text.slice(0, offset).split('\n').length;
}

function sentence(text: string): string {
  const start = text.charAt(0).toUpperCase() + text.slice(1);
  return /[.!?]$/.test(start) ? start : `${start}.`;
}

/** The page that lists all codes by range. */
export function diagnosticIndex(): string {
  const entries = catalogueEntries();
  const rangeOf = (number: string) => RANGES.find(([prefix]) => number.startsWith(prefix))?.[0];
  const sections = [...RANGES]
    .sort(([a], [b]) => a.localeCompare(b))
    .map(([prefix, heading]) => {
      const own = entries.filter(([, definition]) => rangeOf(definition.code) === prefix);
      return own.length === 0 ? undefined : paragraphs(`## ${heading}`, indexTable(own));
    });
  return `${paragraphs(
    '# Diagnostics',
    GENERATED,
    'Every diagnostic has a stable code. An error stands for something that cannot be computed or a limit that is broken; a warning for a published or common recommendation that is not met; information for what you may want to know. See also the [language reference](../language.md).',
    ...sections,
  )}\n`;
}

function indexTable(entries: readonly Entry[]): string {
  return table(
    [
      { head: 'Code', align: 'left' },
      { head: 'Severity', align: 'left' },
      { head: 'What is wrong', align: 'left' },
    ],
    entries.map(([, { code: number, severity, title }]) => [
      `[${number}](${number}.md)`,
      SEVERITIES[severity].toLowerCase(),
      title,
    ]),
  );
}
