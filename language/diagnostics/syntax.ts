import { define } from './define.ts';

const HAULER = `trailer Hauler {
  coupling ball 50 mm, 430 mm up
  axles single at 2600 mm back, track 1500 mm
  tare 240 kg at 2450 mm back, 520 mm up, inertia 210 kg·m²
}
`;

/** RW1xx: how a file is written. */
export const SYNTAX = {
  'syntax-error': define({
    code: 'RW101',
    severity: 'error',
    title: 'Something else is expected here',
    message: ({ found, expected }: { found: string; expected: string }) =>
      found === '' ? `Expected ${expected} here.` : `Expected ${expected}, found '${found}'.`,
    meaning:
      'The statement does not read on. It is left out of the computation; the other statements are not affected.',
    mend: 'Write what the message expects, or complete the line.',
    example: 'item awning 38 kg size\n',
    mended: 'item awning 38 kg size 2600 x 160 x 160 mm\n',
  }),
  'stray-character': define({
    code: 'RW102',
    severity: 'error',
    title: 'A character that means nothing here',
    message: ({ character, code }: { character: string; code: string }) =>
      `The character ${character} (${code}) means nothing in this language: remove it.`,
    meaning:
      'The language uses letters, digits and a few signs. A control character usually comes from a damaged file.',
    mend: 'Remove the character.',
    example: 'item awning 38 kg ?\n',
    mended: 'item awning 38 kg\n',
  }),
  'unclosed-text': define({
    code: 'RW103',
    severity: 'error',
    title: 'A closing quote is missing',
    message: (_: Record<never, never>) => 'The closing quote is missing: text ends on the line it starts.',
    meaning: 'Text stands between two double quotes on one line.',
    mend: 'Close the text with a double quote.',
    example: 'item awning 38 kg "Roll-out awning\n',
    mended: 'item awning 38 kg "Roll-out awning"\n',
  }),
  'unclosed-block': define({
    code: 'RW104',
    severity: 'error',
    title: 'A closing brace is missing',
    message: ({ head }: { head: string }) => `The block of ${head} is not closed: a '}' is missing.`,
    meaning:
      'Every `{` needs its `}`. The next declaration that starts in the first column ends the block all the same.',
    mend: 'Close the block with `}`.',
    example: HAULER.slice(0, -2),
    mended: HAULER,
  }),
  'merge-conflict': define({
    code: 'RW105',
    severity: 'error',
    title: 'A merge conflict is not resolved',
    message: ({ marker }: { marker: string }) =>
      `Merge conflict (${marker}): choose one side and remove the markers. Until then the first side is computed.`,
    meaning: 'Version control left both sides of a conflict in the file.',
    mend: 'Keep the lines that hold and remove the marker lines.',
    example: '<<<<<<< ours\nitem awning 38 kg\n=======\nitem awning 41 kg\n>>>>>>> theirs\n',
    mended: 'item awning 41 kg\n',
  }),
  'nested-too-deep': define({
    code: 'RW106',
    severity: 'error',
    title: 'Braces or parentheses are nested too deep',
    message: ({ most }: { most: number }) =>
      `More than ${most} braces or parentheses inside each other: this declaration is not read.`,
    meaning: 'No real file nests so deep; the limit keeps damaged files from exhausting the machine.',
    mend: 'Remove the surplus braces or parentheses.',
    example: `let depth = ${'('.repeat(70)}1 mm${')'.repeat(70)}\n`,
    mended: 'let depth = 1 mm\n',
  }),
  'file-too-long': define({
    code: 'RW107',
    severity: 'error',
    title: 'The file is too long to be analysed',
    message: ({ length, most }: { length: string; most: string }) =>
      `This file has ${length} characters; up to ${most} are analysed. Split it and join the parts with 'use'.`,
    meaning: 'Nothing in the file is computed.',
    mend: 'Split the file into several and name them with `use`.',
    example: '',
    mended: 'item awning 38 kg\n',
  }),
  'no-declaration': define({
    code: 'RW108',
    severity: 'error',
    title: 'A declaration is expected here',
    message: ({ found, nearest }: { found: string; nearest?: string }) =>
      `'${found}' starts no declaration${nearest ? `; the nearest is '${nearest}'` : ''}. A file holds: use, let, item, fluid, material, tyre, vehicle, trailer, variant, rig, rule.`,
    replacement: ({ nearest }) => nearest,
    meaning: 'Outside blocks there are only declarations.',
    mend: 'Start the line with one of the declaration keywords, or move it into the block it belongs to.',
    example: 'itme awning 38 kg\n',
    mended: 'item awning 38 kg\n',
  }),
  'unknown-statement': define({
    code: 'RW109',
    severity: 'error',
    title: 'This block holds no such statement',
    message: ({ found, block, accepted }: { found: string; block: string; accepted: string; nearest?: string }) =>
      `'${found}' is no statement of ${block}${accepted}.`,
    replacement: ({ nearest }) => nearest,
    meaning: 'Every block has its own statements; the language reference lists them.',
    mend: 'Correct the word, or move the line into the block it belongs to.',
    example: HAULER.replace('}\n', '  lokcer bed from 300 mm to 2300 mm back, floor 500 mm up\n}\n'),
    mended: HAULER.replace('}\n', '  locker bed from 300 mm to 2300 mm back, floor 500 mm up\n}\n'),
  }),
  'unexpected-part': define({
    code: 'RW110',
    severity: 'error',
    title: 'The statement takes no such part',
    message: ({ part, head, accepted }: { part: string; head: string; accepted: string; nearest?: string }) =>
      `'${head}' takes no ${part}. It takes: ${accepted}.`,
    replacement: ({ nearest }) => nearest,
    meaning: 'Each statement accepts certain values, keywords and flags.',
    mend: 'Remove the part, or use one that the message lists.',
    example: 'item awning 38 kg spacing 300 mm\n',
    mended: 'item awning 38 kg size 2600 x 160 x 160 mm\n',
  }),
  'repeated-part': define({
    code: 'RW111',
    severity: 'error',
    title: 'Said twice',
    message: ({ part, head }: { part: string; head: string }) => `'${head}' says ${part} twice: keep one.`,
    meaning: 'A statement says each of its parts once; a block has some statements only once.',
    mend: 'Remove one of the two.',
    example: 'item awning 38 kg tolerance 1 kg tolerance 2 kg\n',
    mended: 'item awning 38 kg tolerance 1 kg\n',
  }),
  'missing-part': define({
    code: 'RW112',
    severity: 'error',
    title: 'Something the computation needs is missing',
    message: ({ what, part, example }: { what: string; part: string; example: string }) =>
      `${what} lacks ${part}. For example: ${example}`,
    meaning: 'Without it the thing has no mass, no place or no meaning, and what depends on it is not computed.',
    mend: 'Add what the message names.',
    example: 'item awning\n',
    mended: 'item awning 38 kg\n',
  }),
  'more-diagnostics': define({
    code: 'RW199',
    severity: 'information',
    title: 'There are more diagnostics than are shown',
    message: ({ count, most }: { count: number; most: number }) =>
      `${count} more diagnostics in this file; the ${most} most severe are shown. Mend some to see the others.`,
    meaning: 'The list is capped so that a damaged file does not drown the editor.',
    mend: 'Mend the diagnostics shown.',
    example: Array.from({ length: 230 }, (_, index) => `item item_${index}\n`).join(''),
    mended: 'item awning 38 kg\n',
  }),
} as const;
