import { describe, expect, test } from 'vitest';
import { classesDiffer, parseCouplingClass } from '../../../language/catalogue/coupling-classes.ts';
import { fail, read, trailer } from './support.ts';

const hauler = (marks: string) => trailer().replace('430 mm up', `430 mm up, ${marks}`);
const couplingOf = (marks: string) => read(hauler(marks)).unit('Hauler').coupling ?? fail('no coupling');

describe('marks on a coupling', () => {
  test('are read as forces, masses and a class', () => {
    const { marks, rating } = couplingOf('class "B50-X", D 12.5 kN, Dc 11 kN, V 8 kN, S 100 kg');
    expect(marks?.class).toMatchObject({ text: 'UN R55', letter: 'B', diameter: 50, marking: 'B50-X' });
    const { D, Dc, V } = marks?.forces ?? {};
    expect([D?.value, Dc?.value, V?.value]).toEqual([12_500, 11_000, 8000]);
    expect(rating?.value).toBe(100);
  });

  test('U and S are other words for the rating, and are said once', () => {
    expect(couplingOf('U 10.5 t').rating?.value).toBe(10_500);
    const twice = read(hauler('rating 90 kg, S 100 kg'));
    expect(twice.keys).toEqual(['repeated-part']);
    expect(twice.marked('repeated-part')).toBe('100 kg');
    expect(twice.unit('Hauler').coupling?.rating?.value).toBe(90);
  });

  test.each([
    ['D 12 kg', 'dimension-mismatch'],
    ['D 12', 'missing-unit'],
    ['D -3 kN', 'out-of-range'],
    ['D 12 kN D 13 kN', 'repeated-part'],
    ['S 12 kN', 'dimension-mismatch'],
    ['class 50 mm', 'wrong-kind'],
    ['class "Q50-X"', 'coupling-class-unknown'],
    ['class ""', 'coupling-class-unknown'],
  ])('%s is refused', (marks, key) => {
    expect(read(hauler(marks)).keys).toEqual([key]);
  });

  test('an unknown class is shown where it stands', () => {
    expect(read(hauler('class "Q50-X"')).marked('coupling-class-unknown')).toBe('"Q50-X"');
  });

  test('test forces are of the trailer’s coupling only', () => {
    const { longitudinal, vertical } = couplingOf('longitudinal 20 kN, vertical 10 kN').marks?.forces ?? {};
    expect([longitudinal?.value, vertical?.value]).toEqual([20_000, 10_000]);
    const hitch = trailer().replace(
      'brakes',
      'hitch ball at 900 mm behind axles, 430 mm up, longitudinal 20 kN\n  brakes',
    );
    expect(read(hitch).keys).toEqual(['unexpected-part']);
  });
});

describe('air suspension', () => {
  test('is a word of the axles', () => {
    const text = trailer().replace('axles single', 'axles single air_suspension');
    expect(read(text).unit('Hauler').groups[0]?.airSuspension).toBe(true);
    expect(read(trailer()).unit('Hauler').groups[0]).not.toHaveProperty('airSuspension');
  });
});

describe('a class', () => {
  test('of SAE J684 may be a Roman or an Arabic number', () => {
    expect(parseCouplingClass('iii')).toEqual(parseCouplingClass('3'));
    expect(parseCouplingClass('5')).toBeUndefined();
    expect(parseCouplingClass('V')).toBeUndefined();
  });

  const differ = (ahead: string, behind: string) => {
    const [hitch, coupling] = [parseCouplingClass(ahead), parseCouplingClass(behind)];
    if (hitch?.text !== 'UN R55' || coupling?.text !== 'UN R55') return fail('no class of UN R55');
    return classesDiffer(hitch, coupling);
  };

  test.each([
    ['A50-X', 'B50-X'],
    ['C50-1', 'D50-A'],
    ['G50-X', 'H50-X'],
    ['A', 'B50-X'],
    ['F', 'D50-X'],
    ['T', 'B50-X'],
  ])('%s couples with %s, or does not say', (hitch, coupling) => {
    expect(differ(hitch, coupling)).toBeUndefined();
  });

  test.each([
    ['A50-X', 'D50-A', 'a coupling ball does not couple with a drawbar eye'],
    ['C40', 'D50-A', 'a drawbar coupling of 40 mm does not couple with a drawbar eye of 50 mm'],
    ['K', 'D50-A', 'a hook coupling does not couple with a drawbar eye'],
  ])('%s does not couple with %s', (hitch, coupling, problem) => {
    expect(differ(hitch, coupling)).toBe(problem);
  });
});
