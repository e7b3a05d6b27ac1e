import { readFileSync } from 'node:fs';
import { globSync } from 'tinyglobby';
import { describe, expect, test } from 'vitest';
import { MARKETS } from '../../../../language/catalogue/markets.ts';
import { analyse, openDocument, type WorkspaceDocument } from '../../../../language/index.ts';
import { limitsOf } from '../../../../language/rules/index.ts';
import { MARKET_RULES } from '../../../../language/rules/markets/index.ts';
import type { RigResult } from '../../../../language/semantics/state.ts';

const FILES = globSync('samples/*.rig');

/** The head of a rig with the markets it names, if it names any. */
const RIG_HEAD = /^(rig \w+(?: "[^"]*")?)(?: in [A-Z, ]+)? \{/gm;

/** All rigs of the samples, put into a market; rigs without loads are left out. */
function rigsIn(market: string): RigResult[] {
  const documents = new Map<string, WorkspaceDocument>();
  for (const file of FILES) {
    const text = readFileSync(file, 'utf8').replace(RIG_HEAD, `$1 in ${market} {`);
    documents.set(`file:///${file}`, { kind: 'text', syntax: openDocument(text) });
  }
  const analysis = analyse({ documents });
  return [...documents.keys()].flatMap((uri) =>
    analysis.entities(uri).flatMap(({ entity }) => (entity?.kind === 'rig' ? [entity.result] : [])),
  );
}

describe.each(MARKETS)('every sample in $name', ({ name, within }) => {
  const rigs = rigsIn(name);

  test('is there, and names the market alone', () => {
    expect(rigs.length).toBeGreaterThanOrEqual(10);
    expect(rigs.map(({ rig }) => rig.markets)).toEqual(rigs.map(() => [name]));
    expect(rigs.filter(({ states }) => states.length === 0).map(({ rig }) => rig.name)).toEqual([]);
  });

  test('has figures in every row that is checked, and says what is missing in every other', () => {
    for (const result of rigs) {
      for (const { code, subject, quantity, outcome } of limitsOf(result)) {
        const row = `${result.rig.name}: ${code} ${subject}, ${quantity}`;
        expect(subject, row).not.toBe('');
        if (outcome.verdict === 'open') expect(outcome.missing.trim(), row).not.toBe('');
        else
          for (const figure of [outcome.value, outcome.limit, outcome.margin])
            expect(figure, row).toSatisfy(Number.isFinite);
      }
    }
  });

  test('is assessed by the rules of the market and of those it lies within, by no other', () => {
    const own: readonly string[] = [name, ...within];
    const binding = MARKET_RULES.filter(
      ({ markets }) => markets === 'everywhere' || markets.some((market) => own.includes(market)),
    );
    expect(binding.length).toBeGreaterThan(0);
    const codes = new Set(binding.map(({ definition }) => definition.code));
    const found = rigs.flatMap((result) => limitsOf(result).filter(({ code }) => code.startsWith('RW8')));
    expect(found.filter(({ code }) => !codes.has(code))).toEqual([]);
  });
});
