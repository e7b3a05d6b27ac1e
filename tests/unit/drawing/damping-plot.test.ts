import { describe, expect, test } from 'vitest';
import { dampingPlot } from '../../../language/drawing/damping-plot.ts';
import { svgOf } from '../../../language/drawing/svg.ts';
import { leastDampedResult, motionAt } from '../../../language/semantics/stability/motion-at.ts';
import { defined, SWAY, stabilityOf } from './rigs.ts';
import { curvesOf, marksOf, rulers, shapesOf, wordsOf } from './shapes.ts';
import { elementsOf } from './xml.ts';

const stability = stabilityOf(SWAY);
const drawing = defined(dampingPlot(stability));
const level = stability.results.filter(({ scenario }) => scenario.kind === 'level');
const worst = defined(leastDampedResult(stability));

function frameOf(picture = drawing) {
  const zero = shapesOf(picture).find(({ role }) => role === 'zero');
  const road = shapesOf(picture).find(({ role }) => role === 'intended');
  if (zero?.shape !== 'line' || road?.shape !== 'line') throw new Error('no ground to read against');
  return { zero, road, frame: { left: zero.from.x, right: zero.to.x, top: road.from.y, bottom: road.to.y } };
}

describe('damping over speed', () => {
  test('has a curve a case on the level, and thinner the other roads of the least-damped case', () => {
    expect(level).toHaveLength(2);
    expect(curvesOf(drawing, 'curve')).toHaveLength(2);
    const others = stability.results.filter(
      ({ scenario, state }) => scenario.kind !== 'level' && state.case === worst.state.case,
    );
    expect(others).toHaveLength(5);
    expect(curvesOf(drawing, 'thin-curve')).toHaveLength(5);
    expect(wordsOf(drawing)).toEqual(expect.arrayContaining(['rear_heavy', 'centred', 'up the 6 % grade']));
  });

  test('read with a ruler gives the damping ratio of the model', () => {
    const { frame } = frameOf();
    const { x, y } = rulers(drawing, frame);
    for (const [index, curve] of curvesOf(drawing, 'curve').entries()) {
      const result = defined(level[index]);
      const { speeds, damping } = result.sweep;
      let read = 0;
      for (const [i, speed] of speeds.entries()) {
        const point = curve.points.find((each) => Math.abs(x(each.x) - speed * 3.6) < 1e-6);
        if (point === undefined || !Number.isFinite(point.y)) continue;
        expect(y(point.y)).toBeCloseTo(defined(damping[i]), 9);
        expect(defined(motionAt(result, speed)?.mode).damping).toBeCloseTo(defined(damping[i]), 9);
        read += 1;
      }
      expect(read).toBeGreaterThan(20);
      for (const point of curve.points.filter((each) => Number.isFinite(each.y))) {
        expect(point.y).toBeGreaterThanOrEqual(frame.top - 1e-9);
        expect(point.y).toBeLessThanOrEqual(frame.bottom + 1e-9);
      }
    }
  });

  test('marks the zero line, the intended speed and every zero-damping speed', () => {
    const { zero, road, frame } = frameOf();
    const { x, y } = rulers(drawing, frame);
    expect(y(zero.from.y)).toBeCloseTo(0, 9);
    expect(x(road.from.x)).toBeCloseTo(70, 9);
    const expected = [
      ...level,
      ...stability.results.filter(({ state, scenario }) => state === worst.state && scenario.kind !== 'level'),
    ]
      .flatMap(({ zeroDamping }) => (zeroDamping.kind === 'at' ? [zeroDamping.speed * 3.6] : []))
      .sort((a, b) => a - b);
    expect(expected.length).toBeGreaterThan(1);
    const marked = marksOf(drawing, 'dot');
    expect(marked.map(({ at }) => x(at.x)).sort((a, b) => a - b)).toEqual(
      expected.map((speed) => expect.closeTo(speed, 6)),
    );
    for (const { at } of marked) expect(y(at.y)).toBeCloseTo(0, 9);
  });

  test('ends a curve where the rig folds, and says so', () => {
    // Without lead at the tail it does not sway at speed, so that nothing grows before it folds.
    const centred = stabilityOf(SWAY.replace('3 x lead in Box.tail', '3 x lead in Box.middle'));
    const folding = centred.results.find(
      ({ divergence, state }) => divergence.kind === 'at' && state === defined(leastDampedResult(centred)).state,
    );
    const { divergence } = defined(folding);
    if (divergence.kind !== 'at') throw new Error('it does not fold');
    const picture = defined(dampingPlot(centred));
    const { x } = rulers(picture, frameOf(picture).frame);
    expect(marksOf(picture, 'cross').map(({ at }) => x(at.x))).toContainEqual(
      expect.closeTo(divergence.speed * 3.6, 6),
    );
    expect(wordsOf(picture).join(' ')).toMatch(/folds from \d+/);
    expect(wordsOf(picture).join(' ')).toContain('Cross: from here on');
  });

  test('has labels that do not overlap', () => {
    const labels = shapesOf(drawing).filter((shape) => shape.shape === 'text' && shape.at.x > 640);
    const heights = labels.flatMap(({ role, ...shape }) =>
      shape.shape === 'text' && role !== 'caption' ? [shape.at.y] : [],
    );
    const sorted = [...heights].sort((a, b) => a - b);
    for (const [i, height] of sorted.slice(1).entries()) expect(height - defined(sorted[i])).toBeGreaterThanOrEqual(13);
  });

  test('names the tyres it assumes and what it must not be used for', () => {
    const words = wordsOf(drawing).join(' ');
    expect(words).toContain('Linear model, small angles');
    expect(words).toContain('Van.front, Van.rear, Box.axles');
    expect(words).toContain('Compare layouts with it, never take a speed from it as safe.');
    const tyre = 'tyre wide "195/70R14C 104/102N" at 450 kPa, cornering 1200 N/deg';
    const stated = `${tyre}\n${SWAY.replace('rating 1600 kg', 'rating 1600 kg, tyres 2 x wide')}`;
    expect(wordsOf(defined(dampingPlot(stabilityOf(stated)))).join(' ')).not.toContain('Box.axles');
  });

  test('is a well-formed SVG that says for those who do not see it what it shows', () => {
    const elements = elementsOf(svgOf(drawing));
    expect(elements[1]).toMatchObject({ name: 'title', text: 'Sway: damping ratio over speed' });
    expect(elements[2]?.text).toMatch(
      /Intended speed: 70 km\/h\..*case rear_heavy, on the level: .*never take a speed/,
    );
    expect(elements.some(({ text }) => text.includes('Badly & <loaded>'))).toBe(true);
  });

  test('shows miles per hour where they are asked for', () => {
    const american = defined(dampingPlot(stability, 'US'));
    const { road, frame } = frameOf(american);
    // 1 mile is 1609.344 m exactly (NIST SP 811).
    expect(rulers(american, frame).x(road.from.x)).toBeCloseTo(70 / 1.609344, 6);
    expect(wordsOf(american)).toContain('speed, mph');
  });

  test('is none where nothing was computed', () => {
    expect(dampingPlot({ ...stability, results: [] })).toBeUndefined();
  });

  test('of many cases draws the least damped and tells how many it leaves out', () => {
    const many = Array.from(
      { length: 30 },
      (_, i) => `  case extra_${i} { absent ${i % 2 === 0 ? 'lead' : 'tin'} }`,
    ).join('\n');
    const crowded = defined(dampingPlot(stabilityOf(SWAY.replace('  case centred', `${many}\n  case centred`))));
    expect(curvesOf(crowded, 'curve')).toHaveLength(20);
    expect(wordsOf(crowded).join(' ')).toContain('12 better-damped cases');
  });
});
