import { describe, expect, it } from 'vitest';
import { longitudinalBalance } from '../../../language/mechanics/stability/train.ts';
import { trialTrain } from '../../../language/rules/stability/trial.ts';
import { hover } from '../../../language/services/index.ts';
import { fail, MAIN, read, trailer, vehicle } from './support.ts';

const EXTENT = 'body from 900 mm to 4300 mm back';
const OUTLINE = `${EXTENT}, width 2 m, from 400 mm to 2400 mm up`;
const FULL_TRAILER = `trailer Hauler {
  coupling drawbar 40 mm, 720 mm up
  axle front single at 2100 mm back, track 1850 mm, steered
  axle rear single at 5200 mm back, track 1850 mm
  tare 660 kg on front, 540 kg on rear, 640 mm up, gyration 1500 mm
  brakes air
  body from 1500 mm to 6300 mm back, frontal_area 5 m², drag_coefficient 0.9
}
`;

const dragOf = (line: string) => read(trailer(line)).unit('Hauler').body?.drag;

/** The first result of a rig that hauls the trailer at 100 km/h. */
function stabilityOf(hauled: string, towing = vehicle()) {
  const reading = read(
    `${towing}${hauled}rig Errand {\n  tow Truck\n  haul Hauler\n  travel 100 km/h\n  case out { }\n}\n`,
  );
  const entity = reading.analysis.entities(MAIN).find((placed) => placed.entity?.kind === 'rig')?.entity;
  const stability = entity?.kind === 'rig' ? entity.stability : undefined;
  const result = stability?.results[0] ?? fail(reading.messages.join());
  return { result, texts: (stability?.assumptions ?? []).map(({ text }) => text) };
}

describe('drag of a body as written', () => {
  it('area and coefficient in any order, in any unit of area', () => {
    expect(dragOf(`${EXTENT}, frontal_area 4.6 m², drag_coefficient 0.8`)).toEqual({
      frontalArea: 4.6,
      coefficient: 0.8,
      assumptions: [],
    });
    // 50 ft² at 0.3048² m² each.
    expect(dragOf(`body drag_coefficient 0.4 frontal_area 50 ft², from 900 mm to 4300 mm back`)).toMatchObject({
      frontalArea: expect.closeTo(4.645152, 9),
      coefficient: 0.4,
    });
    expect(dragOf(`${EXTENT}, frontal_area 2 m * 2.3 m, drag_coefficient 4/5`)).toMatchObject({
      frontalArea: expect.closeTo(4.6, 9),
      coefficient: 0.8,
    });
  });

  it('of a vehicle too', () => {
    const line = 'body from 0 mm to 4 m back, frontal_area 2.9 m², drag_coefficient 0.38';
    expect(read(vehicle(line)).unit('Truck').body?.drag).toMatchObject({ frontalArea: 2.9, coefficient: 0.38 });
  });

  it('nothing said is no drag', () => {
    expect(dragOf(OUTLINE)).toBeUndefined();
    expect(read(trailer(OUTLINE)).unit('Hauler').body).toBeDefined();
  });

  it('a coefficient alone goes with width times height, an area alone with that of a box; both are listed', () => {
    for (const line of [`${OUTLINE}, drag_coefficient 0.8`, `${EXTENT}, width 2 m, height 2 m, drag_coefficient 0.8`]) {
      const drag = dragOf(line) ?? fail('no drag');
      expect(drag.frontalArea).toBeCloseTo(4, 12);
      expect(drag.assumptions.map(({ text }) => text)).toEqual([
        'frontal area of the body of Hauler not stated: its width times its height taken, 4 m²',
      ]);
    }
    const drag = dragOf(`${EXTENT}, frontal_area 4.6 m²`) ?? fail('no drag');
    // Square-edged bodies alone in the stream: 0.85 to 1.05, F. M. White, Fluid Mechanics (from memory).
    expect(drag.coefficient).toBeGreaterThanOrEqual(0.85);
    expect(drag.coefficient).toBeLessThanOrEqual(1.05);
    expect(drag.assumptions.map(({ text }) => text)).toEqual([
      'drag coefficient of the body of Hauler not stated: 0.85 taken',
    ]);
    expect(drag.assumptions[0]?.basis).toContain('from memory');
  });

  it('a variant of another body has another drag', () => {
    const { unit } = read(
      `${trailer(`${EXTENT}, frontal_area 4.6 m², drag_coefficient 0.8`)}variant Low of Hauler {\n  ${EXTENT}, frontal_area 2 m², drag_coefficient 0.5\n}\n`,
    );
    expect(unit('Low').body?.drag).toMatchObject({ frontalArea: 2, coefficient: 0.5 });
    expect(unit('Hauler').body?.drag).toMatchObject({ frontalArea: 4.6, coefficient: 0.8 });
  });
});

describe('figures that are no drag of a body', () => {
  const said = (line: string) => {
    const { keys, messages, unit } = read(trailer(line));
    expect(unit('Hauler').body).toBeDefined();
    expect(unit('Hauler').body?.drag).toBeUndefined();
    return { keys, text: messages.join('\n') };
  };
  it.each([
    ['frontal_area 0 m²', 'out-of-range', 'more than zero; this is 0 m²'],
    ['frontal_area -4.6 m²', 'out-of-range', 'more than zero; this is -4.6 m²'],
    ['frontal_area 46 m²', 'out-of-range', 'at most 30 m²; this is 46 m²'],
    ['frontal_area 500 ft²', 'out-of-range', 'at most 323 ft²; this is 500 ft²'],
    ['frontal_area 1e99 m²', 'too-large', 'm²'],
    ['frontal_area 4.6', 'missing-unit', 'm², cm², ft²'],
    ['frontal_area 4.6 m', 'dimension-mismatch', 'is an area; this is a length (4.6 m)'],
    ['frontal_area 4 m² to 5 m²', 'unexpected-part', 'no range'],
    ['frontal_area 4.6 m² back', 'unexpected-part', 'no direction'],
    ['frontal_area 4.6 m², drag_coefficient 0', 'out-of-range', 'more than zero; this is 0'],
    ['frontal_area 4.6 m², drag_coefficient -0.8', 'out-of-range', 'more than zero; this is -0.8'],
    ['frontal_area 4.6 m², drag_coefficient 8', 'out-of-range', 'at most 2.5; this is 8'],
    [
      'frontal_area 4.6 m², drag_coefficient 0.8 kg',
      'dimension-mismatch',
      'is a plain number; this is a mass (0.8 kg)',
    ],
    [
      'width 20 m, height 20 m, drag_coefficient 0.8',
      'out-of-range',
      'its width times its height, must be at most 30 m²',
    ],
    ['drag_coefficient 0.8', 'missing-part', 'the body has no width and no height to take it from'],
    ['width 2 m, drag_coefficient 0.8', 'missing-part', 'the body has no height to take it from'],
    ['from 400 mm to 2400 mm up, drag_coefficient 0.8', 'missing-part', 'the body has no width to take it from'],
  ])('%s: %s', (words, key, part) => {
    const { keys, text } = said(`${EXTENT}, ${words}`);
    expect(keys).toEqual([key]);
    expect(text).toContain(part);
  });

  it('an error in the outline is told once, where it is', () => {
    expect(said(`${EXTENT}, width 2 kg, height 2 m, drag_coefficient 0.8`).keys).toEqual(['dimension-mismatch']);
    expect(said(`${EXTENT}, width 2 m, from 2400 mm to 400 mm up, drag_coefficient 0.8`).keys).toEqual([
      'range-reversed',
    ]);
  });

  it('of a figure that stands twice the first one counts', () => {
    const { keys, unit } = read(trailer(`${EXTENT}, drag_coefficient 0.8, frontal_area 4.6 m², frontal_area 5 m²`));
    expect(keys).toEqual(['repeated-part']);
    expect(unit('Hauler').body?.drag?.frontalArea).toBe(4.6);
  });

  it('both figures are looked at', () => {
    expect(said(`${EXTENT}, frontal_area 0 m², drag_coefficient 9`).keys).toEqual(['out-of-range', 'out-of-range']);
  });
});

describe('drag in the lateral stability', () => {
  const DRAGGED = trailer(`${EXTENT}, frontal_area 4.6 m², drag_coefficient 0.8`);

  it('acts at the middle of the body, along it, and stretches the coupling', () => {
    const { train } = stabilityOf(DRAGGED).result.built;
    expect(train.forces).toEqual([
      {
        unit: 1,
        x: expect.closeTo(-2.6, 12),
        force: 0,
        perSpeedSquared: expect.closeTo(-2.254, 12),
        direction: 'unit',
      },
    ]);
    // By hand: ½ · 1.225 kg/m³ · 0.8 · 4.6 m² · (27.78 m/s)² = 1739.2 N.
    expect(longitudinalBalance(train, 100 / 3.6).tension[1]).toBeCloseTo(1739.2, 1);
  });

  it('acts on the body of a full trailer, not on its steered frame', () => {
    const { built } = stabilityOf(FULL_TRAILER).result;
    expect(built.train.units).toHaveLength(3);
    expect(built.train.forces).toMatchObject([{ unit: 2, x: expect.closeTo(-3.9, 12) }]);
    // Both couplings are stretched: ½ · 1.225 · 0.9 · 5 · 27.78² = 2126.7 N.
    const { tension } = longitudinalBalance(built.train, 100 / 3.6);
    expect(tension[1]).toBeCloseTo(2126.7, 1);
    expect(tension[2]).toBeCloseTo(2126.7, 1);
  });

  it('raises the zero-damping speed', () => {
    // Stretching the drawbar does: common practice, no source.
    const speedOf = (drag: string) => {
      const tail = 'fitting winch 90 kg at 6 m back, 600 mm up\n  fitting stand 40 kg at 300 mm back, 600 mm up';
      const { zeroDamping, built } = stabilityOf(trailer(`${EXTENT}${drag}\n  ${tail}`)).result;
      return { speed: zeroDamping.kind === 'at' ? zeroDamping.speed : fail(zeroDamping.kind), built };
    };
    const [without, slight] = [speedOf(''), speedOf(', frontal_area 0.5 m², drag_coefficient 0.2')];
    expect(slight.speed).toBeGreaterThan(without.speed);
    expect(without.built.train.forces).toEqual([]);
  });

  it('counts at the intended speed in the understeer of the rig, and not in that of the vehicle alone', () => {
    const [without, drag] = [stabilityOf(trailer(EXTENT)).result, stabilityOf(DRAGGED).result];
    expect(drag.handling?.understeer).toBeLessThan(without.handling?.understeer ?? 0);
    expect(drag.alone?.understeer).toBe(without.alone?.understeer);
  });

  it('of the vehicle in front asks for traction only', () => {
    const towing = vehicle('body from 0 mm to 4 m back, frontal_area 2.9 m², drag_coefficient 0.38');
    const [without, drag] = [stabilityOf(DRAGGED).result, stabilityOf(DRAGGED, towing).result];
    expect(drag.built.train.forces).toHaveLength(2);
    expect(drag.built.train.forces?.[0]?.unit).toBe(0);
    expect(drag.damping).toBeCloseTo(without.damping, 12);
    expect(drag.handling?.understeer).toBeCloseTo(without.handling?.understeer ?? 0, 12);
    const traction = (train: typeof drag.built.train) => longitudinalBalance(train, 100 / 3.6).traction;
    // By hand: ½ · 1.225 · 0.38 · 2.9 · 27.78² = 520.8 N.
    expect(traction(drag.built.train) - traction(without.built.train)).toBeCloseTo(520.8, 1);
  });

  it('stays on where a mass is moved on trial', () => {
    const { built, state } = stabilityOf(DRAGGED).result;
    const tare = state.sources.find(({ id }) => id.name === 'Hauler.tare') ?? fail('no tare');
    expect(trialTrain(built, tare, 0.1).forces).toEqual(built.train.forces);
  });

  it('leaves the loads as they are', () => {
    const [bare, dragged] = [read(trailer(EXTENT)), read(DRAGGED)];
    for (const name of ['Hauler.axles.load', 'Hauler.coupling.load']) {
      expect(dragged.value('Hauler', name)).toBe(bare.value('Hauler', name));
    }
  });

  it('is listed with what was taken for it, and so is its absence', () => {
    expect(stabilityOf(trailer(EXTENT)).texts).toContain(
      'no drag of the air on Hauler counted: it would stretch the coupling, raise the zero-damping speed and lessen the understeer',
    );
    const { texts } = stabilityOf(trailer(`${EXTENT}, frontal_area 4.6 m²`));
    expect(texts).toContain('drag coefficient of the body of Hauler not stated: 0.85 taken');
    expect(texts.join()).toContain('air at rest of 1.225 kg/m³');
    expect(texts.join()).not.toContain('no drag');
    expect(texts.join()).not.toContain('Truck counted');
  });
});

describe('the hover of the body', () => {
  const text = `${vehicle()}${trailer(`${OUTLINE}, frontal_area 4.6 m²`)}rig Errand {\n  tow Truck\n  haul Hauler\n  travel 90 km/h\n}\n`;
  const hoverOn = (source: string, word: string) =>
    hover(read(source).analysis, MAIN, source.indexOf(word) + 1)?.markdown ?? fail('no hover');

  it('tells the force at the speeds of the rigs, and what was taken', () => {
    const shown = hoverOn(text, 'body from');
    // ½ · 1.225 · 0.85 · 4.6 · V²: 1847.9 N at 100 km/h, 1496.8 N at 90 km/h.
    expect(shown).toContain('1\u202f848 N at 100 km/h');
    expect(shown).toContain('rig Errand: 1\u202f497 N at 90 km/h');
    expect(shown).toContain('0.85 taken');
  });

  it('of a body without drag explains the word, and the words of drag explain themselves', () => {
    expect(hoverOn(trailer(OUTLINE), 'body from')).toContain('frontal_area');
    expect(hoverOn(text, 'frontal_area')).toContain('Takes an area');
  });
});
