import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { folderWith, rigwright } from './support.ts';

const POUNDS = readFileSync('samples/us-customary.rig', 'utf8');
const KILOGRAMS = POUNDS.replaceAll(/^rig (\w+)(.*) in US\b/gm, 'rig $1$2 in AU');

/** The unit that a command prints most masses in: texts and authors may have their own. */
async function unitOf(text: string, ...args: string[]): Promise<string> {
  const { out } = await rigwright(await folderWith({ 'a.rig': text }), args);
  const count = (unit: string) => out.match(new RegExp(`\\d[\\u202f\\s]${unit}\\b`, 'g'))?.length ?? 0;
  expect(count('lb') + count('kg')).toBeGreaterThan(5);
  return count('lb') > count('kg') ? 'lb' : 'kg';
}

test.each([['loads'], ['limits'], ['weigh'], ['envelope'], ['window', '--of', 'fresh,gray']])(
  '%s prints each rig in the units of its market, unless told otherwise',
  async (command, ...args) => {
    const asked = [command, '--rig', 'LakeWeekend', ...args];
    expect(KILOGRAMS).not.toBe(POUNDS);
    expect(await unitOf(POUNDS, ...asked)).toBe('lb');
    expect(await unitOf(KILOGRAMS, ...asked)).toBe('kg');
    expect(await unitOf(KILOGRAMS, ...asked, '--units', 'US')).toBe('lb');
    expect(await unitOf(POUNDS, ...asked, '--units', 'metric')).toBe('kg');
  },
);
