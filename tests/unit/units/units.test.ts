import { describe, expect, test } from 'vitest';
import {
  ACCELERATION,
  CORNERING_STIFFNESS,
  dimensionName,
  FORCE,
  INERTIA,
  LENGTH,
  MASS,
  MASS_PER_AREA,
  MASS_PER_LENGTH,
  MOMENT,
  PRESSURE,
  SPEED,
  SPRING_RATE,
  VOLUME,
} from '../../../language/units/dimension.ts';
import {
  fromSI,
  isUnitWord,
  nearestUnit,
  parseUnit,
  toSI,
  UNIT_PATTERN,
  UNITS,
  unitAt,
  unitsOf,
} from '../../../language/units/units.ts';

describe('the table', () => {
  test('no spelling stands twice', () => {
    const spellings = UNITS.flatMap((unit) => [unit.symbol, ...unit.synonyms]);
    const twice = spellings.filter((spelling, index) => spellings.indexOf(spelling) !== index);
    expect(twice).toEqual([]);
  });

  test('every spelling reads as its unit and prints as its symbol', () => {
    for (const unit of UNITS) {
      for (const spelling of [unit.symbol, ...unit.synonyms]) {
        expect(parseUnit(spelling), spelling).toEqual({
          factor: unit.factor,
          dimension: unit.dimension,
          text: unit.symbol,
        });
        expect(unitAt(`7 ${spelling} of`, 1)?.text, spelling).toBe(spelling);
      }
    }
  });

  test('a composed symbol is worth the composition of its parts', () => {
    for (const unit of UNITS.filter(({ symbol }) => /[·/²³]/.test(symbol))) {
      // Multiplying numerator and denominator by an angle keeps the value and takes the text past the table.
      const composed = parseUnit(`rad·${unit.symbol}/rad`);
      expect(composed?.factor, unit.symbol).toBeCloseTo(unit.factor, 12);
      expect((composed?.factor ?? 0) / unit.factor, unit.symbol).toBeCloseTo(1, 12);
      expect(composed?.dimension, unit.symbol).toEqual(unit.dimension);
    }
  });

  test('every dimension in the table has a name', () => {
    for (const unit of UNITS) expect(dimensionName(unit.dimension), unit.symbol).toMatch(/^an? /);
  });

  test('units of a dimension come in the order of the table', () => {
    expect(unitsOf(MASS).map(({ symbol }) => symbol)).toEqual(['kg', 'lb', 't', 'g', 'oz', 'ton', 'slug']);
    expect(unitsOf([7, 0, 0, 0])).toEqual([]);
  });
});

describe('parseUnit', () => {
  test.each([
    ['kg/m^2', 'kg/m²', MASS_PER_AREA],
    ['kg/m2', 'kg/m²', MASS_PER_AREA],
    ['kg·m⁻²', 'kg·m⁻²', MASS_PER_AREA],
    ['kg·m^-2', 'kg·m⁻²', MASS_PER_AREA],
    ['kg/sqm', 'kg/m²', MASS_PER_AREA],
    ['lbs/sqft', 'lb/ft²', MASS_PER_AREA],
    ['kg/metre', 'kg/m', MASS_PER_LENGTH],
    ['lb/ft', 'lb/ft', MASS_PER_LENGTH],
    ['lb/in', 'lbf/in', SPRING_RATE],
    ['lbs/inch', 'lbf/in', SPRING_RATE],
    ['N/mm', 'N/mm', SPRING_RATE],
    ['ft-lb', 'lbf·ft', MOMENT],
    ['ft-lbs', 'lbf·ft', MOMENT],
    ['lb·ft', 'lbf·ft', MOMENT],
    ['lbs*ft', 'lbf·ft', MOMENT],
    ['ft lb', 'lbf·ft', MOMENT],
    ['Nm', 'N·m', MOMENT],
    ['N.m', 'N·m', MOMENT],
    ['kN*m', 'kN·m', MOMENT],
    ['kg.m2', 'kg·m²', INERTIA],
    ['kg m²', 'kg·m²', INERTIA],
    ['lb*ft2', 'lb·ft²', INERTIA],
    ['kph', 'km/h', SPEED],
    ['m/s/s', 'm/s/s', ACCELERATION],
    ['m/s2', 'm/s²', ACCELERATION],
    ['gn', 'gn', ACCELERATION],
    ['N/degree', 'N/deg', CORNERING_STIFFNESS],
    ['lbf/in^2', 'psi', PRESSURE],
    [' mm ', 'mm', LENGTH],
  ])('%s is %s', (text, canonical, dimension) => {
    expect(parseUnit(text)?.text).toBe(canonical);
    expect(parseUnit(text)?.dimension).toEqual(dimension);
  });

  test.each([
    ...[
      '',
      ' ',
      '/',
      '·',
      'kg/',
      '/kg',
      'kg//m',
      'kg^',
      'kg^0',
      'kg^5',
      'kg2',
      'cc²',
      'kph/s',
      'kg-t',
      'kg m2',
      'lb ft',
    ],
    ...[
      'kg/m·s',
      '%/m',
      '%²',
      'Kilogram',
      'kgm',
      'm m',
      'K',
      'C',
      '°C',
      '°F',
      'degC',
      'degF',
      'celsius',
      'constructor',
    ],
    ...['m*m*m*m*m', 'm/s/s/s', '5 kg', 'kg\n'.repeat(2), '\0'],
  ])('%j is no unit', (text) => {
    expect(parseUnit(text)).toBeUndefined();
  });

  test('a text stays what it is when the cache has overflowed', () => {
    const before = parseUnit('slug·ft²/s');
    for (let i = 0; i < 5000; i++) expect(parseUnit(`nonsense_${i}`)).toBeUndefined();
    expect(parseUnit('slug·ft²/s')).toEqual(before);
  });

  test('mass, force and gravity are kept apart', () => {
    expect(parseUnit('lb')?.dimension).toEqual(MASS);
    expect(parseUnit('g')?.dimension).toEqual(MASS);
    expect(parseUnit('lbf')?.dimension).toEqual(FORCE);
    expect(parseUnit('gn')?.dimension).toEqual(ACCELERATION);
  });
});

describe('toSI and fromSI', () => {
  test('decimal submultiples give the nearest number, not a product of rounded ones', () => {
    const mm = { factor: 0.001 };
    expect(toSI(4110, mm)).toBe(4.11);
    expect(toSI(8.3, { factor: 0.01 })).toBe(0.083);
    expect(fromSI(4.11, mm)).toBe(4110);
  });
});

describe('UNIT_PATTERN', () => {
  test.each([
    ['95 L of water', 'L'],
    ['900 x 450 x 240 mm', undefined],
    ['240 mm', 'mm'],
    ['240mm', 'mm'],
    ['3 in back', 'in'],
    ['11 ft 3 in', 'ft'],
    ['5 kg/m^2', 'kg/m^2'],
    ['5 kg·m⁻², rest', 'kg·m⁻²'],
    ['16 ft-lb', 'ft-lb'],
    ['16 ft lbs', 'ft lbs'],
    ['16 ft lbsx', 'ft'],
    ['20 kg m²', 'kg m²'],
    ['20 kg m2', 'kg'],
    ['20 lb ft 30 lb', 'lb'],
    ['40 %', '%'],
    ['40%', '%'],
    ['8 %/s', '%'],
    ['100 km/h', 'km/h'],
    ['100 km / h', 'km'],
    ['100 km/hour.', 'km/hour'],
    ['5 kg/box', 'kg'],
    ['5 kg*2', 'kg'],
    ['5 m-3 m', 'm'],
    ['10 kg-t', 'kg'],
    ['2 x gas_bottle', undefined],
    ['2 gas_bottle', undefined],
    ['3 m2_box', undefined],
    ['3 m²', 'm²'],
    ['1900 to 2700 mm', undefined],
    ['5 mä', undefined],
    ['20 °C', undefined],
    ['20 degC', undefined],
    ['20 ° left', '°'],
    ['4\nkg', undefined],
    ['4\u00a0kg', 'kg'],
    ['4\u202f\tkg', 'kg'],
    ['4', undefined],
  ])('%j reads %j', (source, unit) => {
    const end = /^\d+/.exec(source)?.[0].length ?? 0;
    expect(unitAt(source, end)?.text).toBe(unit);
  });

  test('offsets are those of the unit without the blanks', () => {
    expect(unitAt('a 12  kg/m² b', 4)).toEqual({ text: 'kg/m²', start: 6, end: 11 });
  });

  test('it is sticky: it matches at the offset or not at all', () => {
    UNIT_PATTERN.lastIndex = 0;
    expect(UNIT_PATTERN.exec('of kg')).toBeNull();
  });

  test('a long run of unit-like text is read in linear time', () => {
    const long = `kg${'/m·'.repeat(100_000)}`;
    const start = performance.now();
    expect(unitAt(long, 0)?.text).toBe('kg/m');
    expect(performance.now() - start).toBeLessThan(1000);
  });
});

describe('isUnitWord', () => {
  test('single words only', () => {
    expect(['kg', 'inches', 'mph', 'in', '°'].every(isUnitWord)).toBe(true);
    expect(['ft-lb', 'km/h', 'm2', 'x', 'of', '', 'toString'].some(isUnitWord)).toBe(false);
  });
});

describe('nearestUnit', () => {
  test.each([
    ['kgg', undefined, 'kg'],
    ['KiloGram', undefined, 'kg'],
    ['milimeter', undefined, 'mm'],
    ['litter', undefined, 'L'],
    ['M', undefined, 'm'],
    ['kg m2', undefined, 'kg·m²'],
    ['lb ft', undefined, 'lbf·ft'],
    ['kg / m2', undefined, 'kg/m²'],
    ['kpz', PRESSURE, 'kPa'],
    ['kpz', SPEED, 'km/h'],
    ['lb', FORCE, 'lbf'],
    ['kg', FORCE, 'kgf'],
    ['g', ACCELERATION, 'gn'],
    ['lb/in^2', PRESSURE, 'psi'],
    ['kg', LENGTH, undefined],
    ['q', undefined, undefined],
    ['furlong', undefined, undefined],
    ['', undefined, undefined],
  ])('%j (wanted %j) suggests %j', (text, wanted, suggestion) => {
    expect(nearestUnit(text, wanted)).toBe(suggestion);
  });

  test('a temperature is near nothing', () => {
    for (const text of ['°C', '°F', 'C', 'F', 'K', 'degC', 'deg C', 'celsius', 'Fahrenheit', 'kelvin']) {
      expect(parseUnit(text), text).toBeUndefined();
      expect(nearestUnit(text), text).toBeUndefined();
    }
  });

  test('where units of two dimensions are near, the wanted one is suggested', () => {
    expect(nearestUnit('mitre')).toBe('m');
    expect(nearestUnit('mitre', VOLUME)).toBe('L');
    expect(nearestUnit('mitre', MASS)).toBe('m');
  });
});
