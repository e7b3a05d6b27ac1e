import { kindWords } from '../services/hover/words.ts';
import { code, list, paragraphs } from '../services/markdown.ts';
import { namesAfter } from '../services/statements.ts';
import {
  ARGUMENTS,
  type ArgumentKeyword,
  type Context,
  FLAGS,
  STATEMENTS,
  type StatementSpec,
  type ThingKind,
} from '../syntax/vocabulary.ts';
import { CONTEXT_NAMES, capital, fenceIn, joined, linkTo } from './text.ts';

/** A chapter on the statements of one kind of block. */
interface Chapter {
  readonly heading: string;
  readonly contexts: readonly Context[];
  readonly introduction: string;
}

const CHAPTERS: readonly Chapter[] = [
  {
    heading: 'Declarations of a file',
    contexts: ['file'],
    introduction: 'A declaration stands on a line of its own. The order of declarations is free.',
  },
  {
    heading: 'Lines of a vehicle or a trailer',
    contexts: ['vehicle', 'trailer'],
    introduction: `Distances are counted from the datum of the unit: see ${linkTo('Places')}.`,
  },
  {
    heading: 'Lines of a group of parts',
    contexts: ['group'],
    introduction:
      'A part of a group is named with the name of the group from outside: `kitchen.sink`. Inside the group its own name is enough.',
  },
  {
    heading: 'Lines of axles',
    contexts: ['axles'],
    introduction:
      'The same words may stand on the line of `axles` itself: `axles single at 2600 mm back, rating 900 kg`.',
  },
  {
    heading: 'Lines of limits',
    contexts: ['limits'],
    introduction:
      'A vehicle has GVM, GCM, towing, towing_unbraked, coupling and payload; a trailer has ATM, GTM, towing, towing_unbraked, coupling and payload. Write what stands on the plate. A limit that is not written is not checked.',
  },
  {
    heading: 'Lines of a variant',
    contexts: ['variant'],
    introduction:
      'A variant holds the lines of the unit it varies, and the statement below. `limits`, `require` and `rule` lines are added to those of the original: a limit or a level of the variant goes before the same one of the original.',
  },
  {
    heading: 'Lines of a rig',
    contexts: ['rig'],
    introduction:
      'A rig without `haul` is a vehicle that travels alone. A rig without `tow` is a trailer looked at alone, standing level on its coupling. Loads are computed in every case, or with full tanks where there is no case.',
  },
  {
    heading: 'Lines of a case',
    contexts: ['case'],
    introduction:
      'A line that starts with the name of a tank states its level. The name of the unit may be left out where only one unit has such a tank. A tank that neither the case nor its own line gives a level is taken as full, and that is listed as an assumption.',
  },
  {
    heading: 'Lines of reachable states',
    contexts: ['reachable'],
    introduction:
      'A line that starts with the name of a tank states the range of its levels. A tank without such a line can be anywhere in the range of its own line, or else from empty to full.',
  },
  {
    heading: 'Lines of a weighing',
    contexts: ['weighing', 'pass'],
    introduction:
      'A line that starts with the name of something that stood on the scale is a reading: an axle group (`YardTruck.front`), an axle of several (`Hauler.axles.axle1`), the wheels of one side (`Hauler.axles.left`), the coupling (`Hauler.coupling`), all wheels of a unit (`Hauler`), or `total` for everything. The name of the unit may be left out where only one unit has such a thing. Lines of the block itself are of the rig as it stands, coupled up; those in the block of `coupled` of the same in another case, those in the block of `solo` or `raised` of one unit uncoupled, where the unit itself and `total` include what stands on the coupling. A reading may have a tolerance of its own (`Hauler.axles 1380 kg ± 20 kg`). Write only what the scale read: a total that is printed as the sum of axles is no reading. The readings are reconciled with the file by weighted least squares: hovers, diagnostics and `rigwright weigh` show each beside its prediction, what the readings say of mass and centre of every tare, and which readings are missing for the rest. Where there are several slips, all of the rig and of its units by themselves are joined in one estimate of each tare: the tares are the same on all of them, readings are off independently. Slips that disagree are not joined: something changed in between, and what changed is named.',
  },
];

/** What the blocks of a rig hold beside statements: shown with the introduction of the chapter. */
const FURTHER_EXAMPLES: Readonly<Partial<Record<Context, string>>> = {
  case: 'Hauler.fresh 0 % to 40 %\nwaste 60 %',
  reachable: 'Hauler.waste 0 % to 55 %',
  weighing: 'YardTruck.front 1180 kg\nHauler.axles 1380 kg\nHauler.axles.left 700 kg',
};

/** Where the example of a statement is shown, if not in a trailer or in the first block that may hold it. */
const SHOWN_IN: Readonly<Record<string, Context>> = { hitch: 'vehicle' };

const THING_NAMES: Readonly<Record<ThingKind, string>> = {
  unit: 'a vehicle or a trailer',
  vehicle: 'a vehicle',
  trailer: 'trailers',
  item: 'items, each with a count and `x` before it if there are several',
  fluid: 'a fluid',
  material: 'a material',
  tyre: 'a tyre',
  seat: 'seats',
  aboard: 'seats and items',
  stowage: 'a locker, a unit',
  case: 'cases',
  market: 'markets',
  tag: 'words of your own',
  code: 'codes of diagnostics',
};

/** What the vocabulary's table does not say of a statement, by its heading. */
const NOTES: Readonly<Record<string, string>> = {
  use: 'Form: `use "path"`. The path is relative to the file and uses `/`.',
  let: 'Form: `let name = expression`.',
  require:
    'Form: `require expression comparison "message" in cases`. The message and the cases may be left out. `>=` and `<=` are read as `at least` and `at most`.',
  rule: 'Form: `rule codes level "reason"`, with commas between several codes. The reason has to be given. See [Levels of rules](#levels-of-rules).',
  tyre: 'The text is the marking on the sidewall: see [Tyre markings](#tyre-markings).',
  tyres: 'Value: the number of tyres, `x` and a marking between quotes or the name of a `tyre`.',
  without: 'Lists: the names or the heads of the lines to take away.',
  tow: 'Lists: one vehicle.',
  growth: 'It counts where there is no tare line.',
  absent: 'Lists: items.',
  'coupling in trailer': 'The bare length is the size of the ball or pin. No load depends on it.',
  hitch: 'The bare length is the size of the ball or pin. No load depends on it.',
  locker: 'Direction alone: `left` or `right` is that half of the width.',
  rig: 'Markets: see [Markets](#markets).',
};

/** Chapters on all statements, each with what may follow it and an example. */
export function statementChapters(): string {
  return paragraphs(...CHAPTERS.map(chapter));
}

function chapter({ heading, contexts, introduction }: Chapter): string {
  const all = STATEMENTS.filter((spec) => spec.contexts.some((context) => contexts.includes(context)));
  const own = all.filter((spec) => isHome(spec, contexts));
  const links = all.map((spec) => linkTo(statementHeading(spec), code(spec.keyword)));
  const context = contexts[0];
  const further = context && FURTHER_EXAMPLES[context];
  return paragraphs(
    `## ${heading}`,
    introduction,
    further && fenceIn(further, context),
    links.length > 0 ? `Statements: ${links.join(', ')}.` : undefined,
    ...own.map(section),
  );
}

/** A statement is described in the chapter of the first block that may hold it. */
function isHome({ contexts }: StatementSpec, chapterContexts: readonly Context[]): boolean {
  const [first] = contexts;
  return first !== undefined && chapterContexts.includes(first);
}

/** Two statements of one keyword are told apart by where they stand. */
function statementHeading({ keyword, contexts }: StatementSpec): string {
  const alike = STATEMENTS.filter((spec) => spec.keyword === keyword);
  return alike.length === 1 ? keyword : `${keyword} in ${joined(contexts, 'or')}`;
}

/** The block that the example of a statement is lines of. */
export function exampleContext({ keyword, contexts }: StatementSpec): Context {
  const shown = SHOWN_IN[keyword];
  if (shown !== undefined) return shown;
  return contexts.includes('trailer') && !contexts.includes('file') ? 'trailer' : (contexts[0] ?? 'file');
}

function section(spec: StatementSpec): string {
  const { synonyms = [], contexts, documentation, example } = spec;
  const facts = [
    `Stands in: ${joined(
      contexts.map((context) => CONTEXT_NAMES[context]),
      'or',
    )}.`,
    synonyms.length > 0 ? `Also read: ${joined(synonyms.map(code))}.` : undefined,
    headFact(spec),
    ...valueFacts(spec),
    argumentFact(spec),
    flagFact(spec),
    spec.block === undefined ? undefined : `Block: ${linkTo(blockHeading(spec.block))}.`,
    NOTES[statementHeading(spec)],
  ];
  return paragraphs(
    `### ${statementHeading(spec)}`,
    documentation,
    list(facts.filter((fact) => fact !== undefined)),
    fenceIn(unindented(example), exampleContext(spec)),
  );
}

function headFact({ keyword, head, lists }: StatementSpec): string | undefined {
  if (head === 'declares') return 'Name: behind the keyword.';
  if (head === 'may declare')
    return `Name: behind the keyword, on the same line; without one it is called ${code(keyword)}.`;
  if (head === 'lists' && lists !== undefined && NOTES[keyword] === undefined) {
    return `Lists: ${THING_NAMES[lists]}, with commas between them.`;
  }
  return undefined;
}

function valueFacts({ keyword, head, value, valueParts, title, place }: StatementSpec): (string | undefined)[] {
  const kinds = joined((value ?? []).map(kindWords), 'or');
  return [
    title && head !== 'own form' && keyword !== 'tyre' ? 'Text: a title between quotes.' : undefined,
    value === undefined ? undefined : `Value: ${valueParts?.includes(2) ? 'two lengths joined by `x`' : kinds}.`,
    place ? `Place: distances with a direction, or ${code('at')} and the name of a thing.` : undefined,
  ];
}

function argumentFact({ keyword: head, arguments: keywords = [] }: StatementSpec): string | undefined {
  if (keywords.length === 0) return undefined;
  return `Keywords: ${joined(keywords.map((keyword) => code(keyword) + argumentNote(keyword, head)))}.`;
}

/** What `of`, `in` and `with` name depends on the statement. */
function argumentNote(keyword: ArgumentKeyword, head: string): string {
  if (!('names' in ARGUMENTS[keyword])) return '';
  const kind = namesAfter(keyword, head);
  return kind === undefined ? '' : ` (${THING_NAMES[kind]})`;
}

function flagFact({ flags = [], unfit = [] }: StatementSpec): string | undefined {
  if (flags.length === 0) return undefined;
  const groups = flags.map((group) => {
    const words = Object.keys(FLAGS[group]).filter((word) => !unfit.includes(word));
    return joined(words.map(code), 'or');
  });
  return `Flags: ${groups.join('; ')}.`;
}

function blockHeading(block: Context): string {
  const found = CHAPTERS.find(({ contexts }) => contexts.includes(block));
  return found?.heading ?? capital(block);
}

/** Examples of the vocabulary stand two spaces in from their second line where they are lines of a block. */
function unindented(text: string): string {
  const lines = text.split('\n');
  const margin = lines.at(-1)?.startsWith('  }') ? '  ' : '';
  return lines.map((line) => (line.startsWith(margin) ? line.slice(margin.length) : line)).join('\n');
}
