import { describe, expect, it } from 'vitest';
import { read, trailer } from './support.ts';

/** Each figure to 1e-12. */
function expectClose(found: readonly unknown[] | undefined, figures: readonly number[]): void {
  expect(found).toEqual(figures.map((figure) => expect.closeTo(figure, 12)));
}

/** Statics by hand in the comments: moments about the coupling, kg and m. */

describe('axles', () => {
  const axlesOf = (axles: string) => read(trailer().replace(/axles single .*/, axles));
  it('tandem and tri groups lie about their middle', () => {
    const places = (axles: string) =>
      axlesOf(axles)
        .unit('Hauler')
        .groups[0]?.axles.map(({ x }) => -x);
    const tandem = places('axles tandem at 3 m back, spacing 800 mm, track 1800 mm, equalised');
    expectClose(tandem, [2.6, 3.4]);
    const tri = places('axles tri at 3 m back, spacing 1 m, track 1800 mm, equalised');
    expectClose(tri, [2, 3, 4]);
  });

  it('equalised axles share, with the load at their middle', () => {
    const { value } = axlesOf('axles tandem at 3 m back, spacing 800 mm, track 1800 mm, equalised');
    // 240 · 2.45 / 3 = 196
    expect(value('Hauler', 'Hauler.axles.load')).toBeCloseTo(196, 9);
    expect(value('Hauler', 'Hauler.axles.axle1.load')).toBeCloseTo(98, 9);
    expect(value('Hauler', 'Hauler.axles.axle2.load')).toBeCloseTo(98, 9);
  });

  it('independent axles on equal springs share by their distance from the coupling', () => {
    const { value, assumptions } = axlesOf('axles tandem at 3 m back, spacing 800 mm, track 1800 mm, independent');
    // F ∝ L about the fixed coupling: F_i = M · L_i / ΣL²; M = 240 · 2.45, L = 2.6, 3.4; ΣL² = 18.32.
    expect(value('Hauler', 'Hauler.axles.axle1.load')).toBeCloseTo((588 * 2.6) / 18.32, 6);
    expect(value('Hauler', 'Hauler.axles.axle2.load')).toBeCloseTo((588 * 3.4) / 18.32, 6);
    expect(assumptions('Hauler').join()).toContain('equal rates taken');
  });

  it('left and right by the place across', () => {
    const { value } = read(trailer('fitting box 30 kg at 2600 mm back, 300 mm left, 1 m up'));
    // The coupling does not resist roll: 30 · 0.3 = 9 kg m over a track of 1.5 m moves 6 kg from the mean.
    const left = value('Hauler', 'Hauler.axles.left');
    const right = value('Hauler', 'Hauler.axles.right');
    expect(left - right).toBeCloseTo((2 * 30 * 0.3) / 1.5, 9);
    expect(left + right).toBeCloseTo(value('Hauler', 'Hauler.axles.load'), 9);
    // |left − right| / load: 12 / (226.1538 + 30)
    expect(value('Hauler', 'Hauler.axles.imbalance')).toBeCloseTo(12 / (588 / 2.6 + 30), 9);
  });

  it('rating and tyres inline or in the block are the same; twice is told', () => {
    const inline = axlesOf(
      'axles single at 2600 mm back, track 1500 mm, rating 1 t, tyres 2 x "195R14C 106/104Q" at 450 kPa',
    );
    const block = axlesOf(
      'axles single at 2600 mm back, track 1500 mm { rating 1 t  tyres 2 x "195R14C 106/104Q" at 450 kPa }',
    );
    for (const { unit, keys } of [inline, block]) {
      expect(keys).toEqual([]);
      const group = unit('Hauler').groups[0];
      expect(group?.rating?.value).toBe(1000);
      // Load index 106: 950 kg (ISO 4000-1 / ETRTO table); speed symbol Q: 160 km/h.
      expect(group?.tyres).toMatchObject({ count: 2, capacity: 950, speed: 160, pressure: 450_000, dual: false });
    }
    expect(axlesOf('axles single at 2600 mm back, track 1500 mm, rating 1 t {\n rating 2 t }').keys).toEqual([
      'repeated-part',
    ]);
    expect(axlesOf('axles single at 2600 mm back, track 1500 mm {\n rating 2 t\n rating 3 t }').keys).toEqual([
      'repeated-part',
    ]);
    expect(
      axlesOf('axles single at 2600 mm back, track 1500 mm, rating 1 t, tyres "195R14C 106/104Q" {\n foo 3 }').keys,
    ).toEqual(['unknown-statement']);
    // Two tyres at each end: load index 104, 900 kg, four on the axle.
    const dual = axlesOf('axles single dual at 2600 mm back, track 1500 mm, tyres "195R14C 106/104Q"').unit('Hauler');
    expect(dual.groups[0]?.tyres).toMatchObject({ count: 4, capacity: 900, dual: true });
  });

  it('the pressure of tyres on axles that stand at a named thing', () => {
    const { unit, keys } = read(
      trailer('fitting mark 1 g at 2600 mm back, 400 mm up').replace(
        'at 2600 mm back, track',
        'at mark, track 1500 mm, tyres 2 x "195R14C 106/104Q" at 450 kPa #',
      ),
    );
    expect(keys).toEqual([]);
    expect(unit('Hauler').groups[0]?.tyres?.pressure).toBe(450_000);
  });

  it('what is missing is told', () => {
    expect(axlesOf('axles single, track 1500 mm').keys).toEqual(['missing-place']);
    expect(axlesOf('axles tandem at 3 m back, track 1500 mm').messages[0]).toContain('the spacing of its axles');
    expect(axlesOf('').keys).toEqual(['no-axles']);
    expect(axlesOf('axles single at 2600 mm back').assumptions('Hauler')).toContain(
      'track of axles not stated: 1\u202f500 mm taken',
    );
    expect(axlesOf('axles tandem at 2600 mm back, spacing 800 mm, track 2 m').assumptions('Hauler')).toContain(
      'suspension of axles not stated: equalised taken',
    );
    expect(axlesOf('axles single at 2600 mm back, track 1500 mm, tyres 2 x "banana"').keys).toEqual([
      'unreadable-marking',
    ]);
    expect(axlesOf('axles single at 2600 mm back, track 1500 mm, tyres 1.5 x "195R14C 106/104Q"').keys).toEqual([
      'not-whole',
    ]);
  });

  describe('two tyres at each end of an axle', () => {
    const capacityOf = (line: string, file = '') => {
      const { rig } =
        read(`${file}trailer Hauler {
  coupling ball 50 mm, 430 mm up
  tare 240 kg at 2450 mm back, 520 mm up
  ${line}
}
`).result('Hauler') ?? {};
      const [group] = rig?.units[0]?.groups ?? [];
      return {
        tyres: group?.tyres,
        assumed: rig?.units[0]?.assumptions.filter(({ text }) => text.includes('twin')) ?? [],
      };
    };
    const axle = (more: string) => `axles single at 2600 mm back, track 1500 mm, ${more}`;

    // Load indices 102 and 100 are 850 kg and 800 kg: UN R54 Annex IV.
    it.each([
      ['dual, tyres 4 x "185R14C 102/100Q"', 4, 800],
      ['dual, tyres "185R14C 102/100Q"', 4, 800],
      ['tyres 4 x "185R14C 102/100Q"', 4, 800],
      ['tyres 2 x "185R14C 102/100Q"', 2, 850],
      ['tyres "185R14C 102/100Q"', 2, 850],
    ])('%s: %d of %d kg', (line, count, capacity) => {
      const { tyres, assumed } = capacityOf(axle(line));
      expect([tyres?.count, tyres?.capacity]).toEqual([count, capacity]);
      expect(tyres?.dual).toBe(count === 4);
      expect(assumed).toEqual([]);
    });

    it.each([
      [
        'single at 3 m back',
        3,
        [2, 4],
        '3 tyres do not stand evenly at both ends of one axle: 2 do, or 4 as twin tyres.',
      ],
      ['single at 3 m back', 1, [2, 4], 'of one axle: 2 do, or 4 as twin tyres.'],
      ['single at 3 m back, dual', 2, [4], 'of one axle: 4 do, two at each end.'],
      ['tandem at 3 m back, spacing 800 mm', 2, [4, 8], 'of 2 axles: 4 do, or 8 as twin tyres.'],
      ['tandem at 3 m back, spacing 800 mm', 6, [4, 8], 'of 2 axles: 4 do, or 8 as twin tyres.'],
    ])('on %s not with %d tyres, but with %j', (place, count, even, message) => {
      const fitted = (number: number) =>
        axlesOf(`axles ${place}, track 1500 mm, equalised, tyres ${number} x "185R14C 102/100Q"`);
      const uneven = (number: number) => fitted(number).keys.filter((key) => key === 'tyres-uneven').length;
      expect(fitted(count).messages.join()).toContain(message);
      expect([1, 2, 3, 4, 6, 8, 10].filter((number) => uneven(number) === 0)).toEqual(even);
    });

    it('a marking that has one load index counts with that, as an assumption at its place', () => {
      for (const [line, file] of [
        ['dual, tyres 4 x "185R14C 102Q"', ''],
        ['dual, tyres 4 x worn', 'tyre worn "185R14C 102Q"\n'],
      ] as const) {
        const { tyres, assumed } = capacityOf(axle(line), file);
        expect(tyres?.capacity).toBe(850);
        expect(assumed).toEqual([
          expect.objectContaining({
            text: 'capacity of 185R14C 102Q in twin fitting not stated: that of a single tyre, 850 kg, taken',
          }),
        ]);
      }
      expect(capacityOf(axle('tyres 2 x "185R14C 102Q"')).assumed).toEqual([]);
    });

    it('the lower of a stated capacity and the dual load index counts', () => {
      const worn = (capacity: number, marking: string) => `tyre worn "${marking}" capacity ${capacity} kg\n`;
      for (const [capacity, marking, expected] of [
        [700, '185R14C 102/100Q', 700],
        [820, '185R14C 102/100Q', 800],
        [780, '185R14C 102Q', 780],
      ] as const) {
        const { tyres, assumed } = capacityOf(axle('dual, tyres 4 x worn'), worn(capacity, marking));
        expect(tyres?.capacity).toBe(expected);
        expect(assumed).toEqual([]);
      }
    });
  });

  it('a vehicle with a group of rear axles', () => {
    const { value, keys } = read(`vehicle Lorry {
  axle front at 0 m back, track 2 m
  axles rear tandem at 5 m back, spacing 1300 mm, track 2 m, equalised
  kerb 4000 kg at 2 m back, 1 m up, inertia 20000 kg·m²
}
`);
    expect(keys).toEqual([]);
    // 4000 · 2 / 5
    expect(value('Lorry', 'Lorry.rear.load')).toBeCloseTo(1600, 9);
    expect(value('Lorry', 'Lorry.rear.axle1.load')).toBeCloseTo(800, 9);
    expect(value('Lorry', 'Lorry.front.load')).toBeCloseTo(2400, 9);
  });
});
