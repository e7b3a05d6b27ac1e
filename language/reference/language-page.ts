import { MOST_DIAGNOSTICS } from '../semantics/analysis.ts';
import { code, list, paragraphs } from '../services/markdown.ts';
import { MARKET_NAMES } from '../services/markets.ts';
import { LONGEST_DOCUMENT } from '../syntax/document.ts';
import { DEEPEST_NESTING } from '../syntax/parser.ts';
import { formatNumber } from '../units/display.ts';
import { computedNameTable, fluidTable, loadIndexTable, speedSymbolTable, termTable } from './catalogues.ts';
import { ebnfText } from './ebnf.ts';
import {
  COMMENT_FILE,
  FIRST_FILE,
  LEVEL_LINES_EXAMPLE,
  PARTS_FILE,
  PLACE_LINES,
  QUANTITY_FILE,
  REQUIREMENT_LINES,
} from './prose.ts';
import { kindTable, numberTable, spellingTable, unitTables } from './quantities.ts';
import { statementChapters } from './statements.ts';
import { fenceIn, joined, linkTo } from './text.ts';
import { argumentTable, directionTable, flagTables, grammarWordTable } from './words.ts';

/** The language reference: one page of Markdown, made from the tables that the language itself reads. */
export function languageReference(): string {
  const body = paragraphs(
    reading(),
    quantities(),
    places(),
    statementChapters(),
    words(),
    requirements(),
    catalogues(),
    levels(),
    files(),
    damaged(),
    grammar(),
    units(),
  );
  const headings = [...body.replace(/^```.*?^```$/gms, '').matchAll(/^## (.+)$/gm)].map(([, heading = '']) => heading);
  const head = paragraphs(
    '# Language reference',
    '<!-- Made from the language by `npm run docs`. Changes here are lost. -->',
    'A `.rig` file describes tow vehicles, trailers and what is stowed in them. From it the language computes axle loads, coupling loads and the margins to ratings, in every load case. This page says what a file may hold. The [diagnostics](diagnostics/index.md) have a page each.',
    cautions(),
    '## Contents',
    list(headings.map((heading) => linkTo(heading))),
  );
  return `${paragraphs(head, body)}\n`;
}

function cautions(): string {
  return paragraphs(
    '## Cautions',
    list([
      'The results are as good as the figures in the file. Verify them on a weighbridge before the unit goes on the road, and again after every change.',
      "The plates on the units, the makers' ratings and the law of the place prevail over anything shown here.",
      'A file without diagnostics is not a certificate. It says that the limits written in the file hold in the cases written in the file, for the states that are computed.',
      'Loads are computed for units at rest, on a steady grade or in steady braking. Sway, crosswind, kerbs and evasive manoeuvres are not.',
      'Where certification or modification of a vehicle is concerned, ask a licensed engineer.',
    ]),
  );
}

function reading(): string {
  return paragraphs(
    '## How a file reads',
    'A file is a list of declarations. A declaration starts with a keyword and a name; the lines that describe it stand in braces. Indentation is for the reader only.',
    fenceIn(FIRST_FILE),
    list([
      '**Plain words.** A line starts with a keyword. What follows it stands in any order. A comma between the parts of a line is read and means nothing; a list of names needs it.',
      'Every physical number has a unit, and the unit has to fit: a mass cannot stand where a length is needed.',
      'Directions are words (`back`, `left`, `up`), never signs.',
      `What the file does not say is never made up in silence. A value that the computation has to take is reported with its reason: see [RW531](diagnostics/RW531.md).`,
      'Order does not count. A name may be used before it is declared.',
      'Upper and lower case differ in names and keywords.',
      'A keyword may also be a name: `seat left`, `tank level`. Better choose another one: a line that starts with such a name may be read as part of the line before it.',
    ]),
    '### Lines',
    list([
      'A statement goes on until the next one starts, so a long one may be broken at any blank. Several short ones may share a line: `limits { GVM 3200 kg  GCM 6000 kg }`.',
      'A name behind `axles`, and a name used as a value directly behind a keyword, stand on the line of the keyword.',
      '`rating` and `tyres` start a statement at the beginning of a line. Elsewhere they belong to the statement before them.',
      'A unit stands on the line of its number.',
      'A declaration starts on its own line. One that starts in the first column ends an unclosed block before it.',
    ]),
  );
}

function quantities(): string {
  return paragraphs(
    '## Quantities',
    '### Numbers',
    'A point stands before decimals. Between groups of digits there may be an underscore, or the narrow space that reports print. A fraction has no blanks around its bar.',
    numberTable(),
    'A minus may stand before any quantity where a negative value makes sense.',
    '### Units in a line',
    `A unit stands behind its number, with or without a blank. It may be composed of the units of the ${linkTo('Units', 'table')}: \`kg/m²\`, \`kg/m^2\` and \`kg/m2\` are the same, \`N·m\` has a dot or a star between. In \`5 kg/m\` the bar belongs to the unit; write blanks around the bar of a division. Temperatures do not exist here.`,
    kindTable(),
    'A plain number can stand where a share in % can: `0.05` is `5 %`.',
    'These spellings have one reading:',
    spellingTable(),
    '### Compound measures, sizes, ranges, tolerances, counts',
    list([
      'A smaller unit of the same kind behind a measure adds up: `11 ft 3 in`, `2 kg 350 g`.',
      '`x` joins the sides of a size. One unit at the end serves all: `900 x 450 x 240 mm`.',
      '`to` joins the ends of a range. One unit at the end serves both: `from 1900 to 2700 mm back`, `0 % to 40 %`.',
      '`±` or `+/-` states a tolerance of a mass or a place: `8 kg ± 0.5 kg`. `tolerance` does the same for the mass of the whole line.',
      'A count and `x` stand before what is counted: `2 x gas_bottle`, `4 x 1.2 kg`. Counts are whole numbers from 1 to 10 000.',
    ]),
    '### Expressions',
    'Wherever a quantity may stand, it may be computed: `+`, `-`, `*`, `/` and parentheses, with names of `let` lines. Dimensions are checked: only like adds to like, and a product has the product of the dimensions.',
    fenceIn(QUANTITY_FILE),
    'A `let` of a file is known in the file and in the files that use it. A `let` of a block is known in that block and goes before one of the file.',
  );
}

function places(): string {
  return paragraphs(
    '## Places',
    "A place is given by up to three distances: along the unit, across it, and up. Each is counted from the unit's datum:",
    list([
      'of a trailer: the coupling centre, on the middle line, at road level;',
      'of a vehicle: the front axle, on the middle line, at road level.',
    ]),
    'Left and right are those of the direction of travel. Across, nothing said means on the middle line. Along, nothing said is an error. A height that is not said is taken and listed as an assumption; the loads on level ground do not depend on the height of a mass.',
    directionTable(),
    fenceIn(PLACE_LINES, 'trailer'),
    list([
      '`of` behind a direction counts from a named thing: `150 mm left of rack` is the same as counting from the place of `rack`. `behind`, `above` and `below` need that thing.',
      'Only the distance along its own direction is taken from the thing. `150 mm behind rack` says nothing about left, right and up.',
      '`at rack` takes over the place of the thing. A distance given beside it is still counted from the datum and replaces that one direction.',
      'Named things are the parts, tanks, lockers, seats and axle groups of the unit, `coupling` of a trailer, and `front` and `rear` of a vehicle with a `wheelbase`.',
      'The place of a part, a tank, a locker or a seat is its middle. The place of `axles` is the middle of the group. `floor` is the height that things in a locker stand on.',
      '`from … to …` gives an extent. Its middle is the place in that direction. An extent on both sides of the datum names both directions: `from 900 mm ahead to 4450 mm back`. Extents are counted from the datum of the unit, also in a group.',
      'An item stowed in a locker lies in the middle of its floor unless the `stow` line gives its place. That place is counted from the datum of the unit, not from the locker, and means the middle of the item.',
    ]),
    'The tare line may give readings of scales in place of a place: `1260 kg on axles, 125 kg on coupling`. There is one reading for each axle group, and for a trailer one on `coupling`.',
  );
}

function words(): string {
  return paragraphs(
    '## Keywords inside a statement',
    argumentTable(),
    '## Flags',
    'A flag stands alone. Of each group a statement takes one.',
    flagTables(),
    '## Other words',
    grammarWordTable(),
  );
}

function requirements(): string {
  return paragraphs(
    '## Computed quantities',
    'A `require` line holds a computed quantity against a limit of your own, in every case or in the cases it names. It is checked on level ground. The quantity may be part of an expression. Inside a unit its own name may be left out: `coupling.share`.',
    fenceIn(REQUIREMENT_LINES, 'rig'),
    'In these names `U` stands for the name of a unit, `G` for that of an axle group (`axles`, `front`, `rear` or a name of your own) and `A` for `axle1`, `axle2` and so on of a group of several axles. Loads are given as masses: the mass whose weight is that load.',
    computedNameTable(),
    '### A tare that is the sum of its parts',
    'While a unit is on the drawing board, its parts may stand in place of the tare line. The tare is then their sum.',
    fenceIn(PARTS_FILE),
  );
}

function catalogues(): string {
  return paragraphs(
    '## Built-in fluids',
    'These names are known without a declaration; letter case does not count. A data sheet of the fluid in hand goes before the figures here: declare a `fluid` of your own. A tank stated by volume is checked against the fill limit; one stated by mass is taken as already filled to it.',
    fluidTable(),
    '## Tyre markings',
    'A marking is written as it stands on the sidewall: `195R14C 106/104Q`, `205/60R15 91V`, `LT235/85R16 120/116R`, `7.00R16LT 8PR 117/116L`. Ply ratings and remarks such as XL or M+S are read over. Load index and speed symbol have to be there: without them the load the tyre may carry is not known. Of two load indexes the second is for twin fitting and counts with `dual`.',
    '### Load indexes',
    'Load of one tyre in kg. Source: UN Regulation No. 54, Annex IV, and No. 30, Annex 4. The index is the sum of the row and the column.',
    loadIndexTable(),
    '### Speed symbols',
    'The highest speed at which a tyre carries the load of its index.',
    speedSymbolTable(),
    '## Markets',
    `\`rig Delivery in AU\` names the markets whose rules apply: ${joined([...MARKET_NAMES].map(([market, name]) => `${code(market)} (${name})`))}. The plates in the file are checked in every market.`,
    'Hovers and the tables of `rigwright loads` say the words of the market where a rig names one market, or markets that agree; a dash stands where a market has no word of its own, so that the language’s is said. The file keeps one name for each; `limits` also reads those words that [its lines](#lines-of-limits) list.',
    termTable(),
  );
}

function levels(): string {
  return paragraphs(
    '## Levels of rules',
    'Rules look at what is computed: loads, ratings, couplings, tyres, stability, the texts of markets. What one reports has a code, and a level: error, warning or information. Any of them can be given another level, or be turned off, with a reason that the next reader sees:',
    fenceIn(LEVEL_LINES_EXAMPLE, 'rig'),
    list([
      'A `rule` line in a block holds for what is reported in that declaration: one in a trailer for the trailer looked at alone, one in a rig for the rig. What is reported of a rig is not touched by the lines of its vehicle and trailers: say it in the rig, or at the top of its file. A variant has the lines of its original.',
      'A `rule` line at the top of a file holds for the whole file.',
      'The file `rigwright.json` in the folder that is open holds for all files below it: `{ "levels": { "RW603": { "level": "off", "reason": "nose-heavy by design" } } }`. On the command line it is the one in the current folder or, for a file from elsewhere, the one beside that file. In an editor that has it open it holds as it stands there, saved or not.',
      'In VS Code the setting `rigwright.levels` holds for what no file states.',
      'A block goes before its file, the file before `rigwright.json`, that before the setting.',
      'What is turned off is counted: the command line lists it with its reasons, and so does the hover of a rig. What is reported of states that no case names (RW901 to RW904, RW906) is turned off with the rule that reports it of named cases, and weighs no more than that unless its own code has a level. How a file is written, its names and its units are no matter of levels.',
    ]),
  );
}

function files(): string {
  return paragraphs(
    '## Files',
    '`use "items.rig"` makes the names of another file known, and those of the files that it uses. Paths are relative to the file and use `/`. Only files inside the workspace are read. A name stands for one thing in a file and all the files it uses.',
    '## Comments and documentation',
    'A comment runs from `#` to the end of the line. Lines of `##` directly above a declaration, or above a line of it, are its documentation: they are shown with it, as Markdown.',
    fenceIn(COMMENT_FILE),
  );
}

function damaged(): string {
  return paragraphs(
    '## Damaged files and limits',
    list([
      'An error costs the statement it is in. The other statements and declarations are computed.',
      'Between merge-conflict markers the first side is computed. Every marker is reported: see [RW105](diagnostics/RW105.md).',
      `A file of more than ${formatNumber(LONGEST_DOCUMENT)} characters is not analysed.`,
      `Braces and parentheses may be nested ${DEEPEST_NESTING} deep.`,
      `At most ${MOST_DIAGNOSTICS} diagnostics are shown for a file; a last one counts the others.`,
    ]),
  );
}

function grammar(): string {
  return paragraphs(
    '## Grammar',
    'Made from the parser. `?` marks what may be left out, `*` what may be repeated, `|` separates alternatives; text between single quotes stands as written. All statements but four share the form `rest`; which parts fit which keyword is said with the statements above. Blanks, line ends and comments may stand between any two words or signs, apart from the rules under [Lines](#lines).',
    `\`\`\`ebnf\n${ebnfText()}\n\`\`\``,
  );
}

function units(): string {
  return paragraphs(
    '## Units',
    'The factor is exact by definition, or the nearest number to an exact ratio. `US` holds the customary units, with what the imperial system shares with them; `imperial` is imperial only. `any` belongs to no system.',
    unitTables(),
  );
}
