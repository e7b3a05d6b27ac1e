import { describe, expect, test } from 'vitest';
import { CONCEPTS, type Concept, MARKETS, type MarketName, marketTerm } from '../../../language/catalogue/markets.ts';
import { hover } from '../../../language/services/index.ts';
import { analyseMarked, URI } from './markers.ts';
import { caretAt, YARD } from './yard.ts';

function hoverOn(source: string): string {
  const { analysis, offset } = analyseMarked(source);
  return (hover(analysis, URI, offset)?.markdown ?? '').replaceAll('\u202f', ' ');
}

/** The yard with its rig in other markets, or in none. */
const yardIn = (...markets: readonly MarketName[]) =>
  YARD.replace(' in AU {', markets.length === 0 ? ' {' : ` in ${markets.join(', ')} {`);

const labels = (markdown: string) =>
  markdown.split('\n').flatMap((line) => (line.startsWith('| ') ? (line.split('|')[1] ?? '').trim() : []));

describe('the words of markets', () => {
  // 49 CFR 571.3(b) and 567.4; the Australian Design Rules; (EU) 1230/2012 (from memory); the rest is the trade's.
  test.each<[MarketName, Concept, string]>([
    ['US', 'GVM', 'GVWR'],
    ['CA', 'GCM', 'GCWR'],
    ['US', 'ATM', 'GVWR'],
    ['US', 'axle rating', 'GAWR'],
    ['CA', 'coupling load', 'tongue load'],
    ['US', 'kingpin load', 'pin load'],
    ['AU', 'ATM', 'ATM'],
    ['NZ', 'GTM', 'GTM'],
    ['NZ', 'coupling load', 'ball load'],
    ['EU', 'coupling load', 'coupling load'],
    ['DE', 'GVM', 'maximum laden mass'],
    ['DE', 'payload', 'user payload'],
    ['UK', 'GVM', 'MAM'],
    ['UK', 'GCM', 'gross train weight'],
    ['UK', 'ATM', 'MTPLM'],
    ['UK', 'coupling load', 'nose load'],
  ])('%s: %s is %s', (market, concept, word) => {
    expect(marketTerm([market], concept)?.short).toBe(word);
  });

  test('of several markets only where they agree', () => {
    expect(marketTerm(['US', 'CA'], 'coupling load')?.short).toBe('tongue load');
    expect(marketTerm(['EU', 'DE'], 'GVM')?.short).toBe('maximum laden mass');
    expect(marketTerm(['UK', 'AU'], 'coupling load')).toBeUndefined();
    expect(marketTerm(['AU', 'UK'], 'GTM')).toBeUndefined();
    expect(marketTerm([], 'GVM')).toBeUndefined();
  });

  test('every concept has a word in some market', () => {
    const unnamed = CONCEPTS.filter((concept) =>
      MARKETS.every(({ name }) => marketTerm([name], concept) === undefined),
    );
    expect(unnamed).toEqual([]);
  });
});

describe('hovers', () => {
  const rigIn = (...markets: readonly MarketName[]) => hoverOn(caretAt(yardIn(...markets), 'Delivery'));

  test.each<[readonly MarketName[], string, string, string]>([
    [['US'], 'Cart tongue load', 'GVWR', 'GAWR'],
    [['UK'], 'Cart nose load', 'MTPLM', 'rating'],
    [['EU', 'DE'], 'Cart coupling load', 'maximum laden mass', 'rating'],
    [['UK', 'US'], 'Cart coupling', 'ATM', 'rating'],
    [[], 'Cart coupling', 'ATM', 'rating'],
  ])('of a rig in %j', (markets, coupling, ATM, rating) => {
    const text = rigIn(...markets);
    expect(labels(text).filter((label) => label === coupling)).toHaveLength(2);
    const tail = (label: string) => text.split('\n').find((line) => line.startsWith(`| ${label} |`)) ?? '';
    expect(tail('Cart mass')).toMatch(new RegExp(`(kg|lb) ${ATM} \\|`));
    expect(tail('Cart axle')).toMatch(new RegExp(`(kg|lb) ${rating} \\|`));
  });

  test('of a unit in a rig; one alone keeps the words of the language', () => {
    expect(labels(hoverOn(caretAt(yardIn('UK'), 'Cart\n  stow')))).toContain('nose load');
    expect(labels(hoverOn(caretAt(yardIn('UK'), 'Cart "Flat cart"')))).toContain('coupling');
  });

  test('of a unit name the empty unit by a word only where that comes to the same', () => {
    const truckIn = (market: MarketName) => labels(hoverOn(caretAt(yardIn(market), 'Truck with')));
    // The truck has a tank of fuel, which the unloaded weight of 49 CFR 571.3 counts; the cart has none.
    expect(truckIn('US')).toContain('tare');
    expect(labels(hoverOn(caretAt(yardIn('US'), 'Cart\n  stow')))).toContain('unloaded vehicle weight');
    expect(truckIn('EU')).toEqual(expect.arrayContaining(['tare', 'mass in running order']));
    expect(truckIn('AU')).not.toContain('mass in running order');
  });

  test('of a limit say what it is called where the unit is used', () => {
    expect(hoverOn(caretAt(yardIn('US'), 'GVM 2400'))).toContain('held against the GVWR, in case');
    expect(hoverOn(caretAt(yardIn('AU'), 'GVM 2400'))).not.toContain('held against');
  });

  test('of a market list its words', () => {
    const text = hoverOn(caretAt(yardIn('UK'), 'UK'));
    expect(text).toContain('GVM: MAM, maximum authorised mass');
    expect(text).toContain('coupling load: nose load');
  });
});
