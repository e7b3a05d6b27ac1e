import { define } from './define.ts';
import { yard } from './examples.ts';

/** A sentence part: `; the nearest is 'RW603'`, or nothing. */
const nearestPart = (nearest: string | undefined): string =>
  nearest === undefined ? '' : `; the nearest is '${nearest}'`;

const line = (rule: string) => yard({ rig: `  ${rule}\n` });

/** RW89x: how much a rule weighs, said in `rule` lines and in `rigwright.json`. */
export const LEVEL_LINES = {
  'unknown-code': define({
    code: 'RW890',
    severity: 'error',
    title: 'No rule has this code',
    message: ({ code, nearest }: { code: string; nearest?: string }) =>
      `No diagnostic has the code '${code}'${nearestPart(nearest)}.`,
    meaning: 'Levels are stated for the codes that diagnostics have. What is said of any other code changes nothing.',
    mend: 'Write the code as the diagnostic shows it.',
    example: line('rule RW63 off "nose-heavy by design"'),
    mended: line('rule RW603 off "nose-heavy by design"'),
  }),
  'fixed-level': define({
    code: 'RW891',
    severity: 'error',
    title: 'This diagnostic cannot be turned off',
    message: ({ code, title }: { code: string; title: string }) =>
      `${code} (${title}) is not what a rule finds: it cannot be turned off or re-levelled.`,
    meaning:
      'Rules look at loads, ratings, couplings, tyres, stability and the texts of markets. How a file is written and what its names and units are is not a matter of levels: nothing could be computed from it.',
    mend: 'Mend what the diagnostic is about.',
    example: line('rule RW201 off "names come later"'),
    mended: line('rule RW603 off "nose-heavy by design"'),
  }),
  'unknown-level': define({
    code: 'RW892',
    severity: 'error',
    title: 'This is no level',
    message: ({ level, levels }: { level: string; levels: string }) => `'${level}' is no level: write ${levels}.`,
    meaning: 'What a rule finds is reported as an error, a warning or information, or it is turned off.',
    mend: 'Write one of the levels.',
    example: line('rule RW603 silent "nose-heavy by design"'),
    mended: line('rule RW603 off "nose-heavy by design"'),
  }),
  'level-without-reason': define({
    code: 'RW893',
    severity: 'error',
    title: 'The reason is missing',
    message: ({ code, example }: { code: string; example: string }) =>
      `Why ${code} has another level is not said. Write, for example: ${example}`,
    meaning:
      'Who reads the file later has to see why a rule does not weigh what it usually does. Without a reason the level stays as it is.',
    mend: 'Write the reason between quotes: a drawing, a test, a house rule.',
    example: line('rule RW603 off'),
    mended: line('rule RW603 off "nose-heavy by design"'),
  }),
  'level-stated-twice': define({
    code: 'RW894',
    severity: 'error',
    title: 'The level of a rule is stated twice',
    message: ({ code }: { code: string }) => `The level of ${code} is stated here already; this line is not heeded.`,
    meaning: 'In one block, or at the top of one file, the first line counts.',
    mend: 'Keep one of the two.',
    example: line('rule RW603 off "nose-heavy by design"\n  rule RW603 warning "house rule"'),
    mended: line('rule RW603 off "nose-heavy by design"'),
  }),
  'unreadable-settings': define({
    code: 'RW895',
    severity: 'error',
    title: 'rigwright.json is not JSON',
    message: ({ found, expected }: { found: string; expected: string }) =>
      `${found === '' ? 'The file ends' : `'${found}' stands`} where ${expected} is expected. The levels that this file states are not heeded.`,
    meaning:
      'The workspace file is JSON (RFC 8259): names and text between double quotes, no comments, no comma at the end.',
    mend: 'Correct the file at the place shown.',
    example: '{ "levels": { "RW603": { "level": "off", "reason": "nose-heavy by design" }, } }\n',
    mended: '{ "levels": { "RW603": { "level": "off", "reason": "nose-heavy by design" } } }\n',
  }),
  'unexpected-setting': define({
    code: 'RW896',
    severity: 'error',
    title: 'rigwright.json says something that has no place there',
    message: ({ found, expected }: { found: string; expected: string }) => `${found}: ${expected}.`,
    meaning:
      'The workspace file holds one object with `levels`: an object with a level and a reason for each code of a rule.',
    mend: 'Take it away, or write what is expected.',
    example: '{ "levels": { "RW603": "off" } }\n',
    mended: '{ "levels": { "RW603": { "level": "off", "reason": "nose-heavy by design" } } }\n',
  }),
} as const;
