import { GREATEST_SPEED } from '../../language/mechanics/stability/problems.ts';
import { SPEED, sameDimension } from '../../language/units/dimension.ts';
import { readNumber } from '../../language/units/number.ts';
import { parseUnit, toSI } from '../../language/units/parse-unit.ts';

/** A speed as `--speed` takes it (`100 km/h`, `62mph`) in m/s, or what is wrong with it. */
export function readSpeed(text: string): number | { readonly problem: string } {
  const [, amount = '', word = ''] = /^\s*([\d._/\s]*\d)\s*(\S.*)?$/.exec(text) ?? [];
  const value = readNumber(amount);
  const unit = parseUnit(word);
  if (typeof value !== 'number' || unit === undefined || !sameDimension(unit.dimension, SPEED)) {
    return { problem: 'a speed needs a number and a unit, such as 100km/h or 62mph' };
  }
  const speed = toSI(value, unit);
  return speed > 0 && speed <= GREATEST_SPEED ? speed : { problem: 'a speed has to be above 0 and at most 1000 km/h' };
}

/** Speeds that tables go by: round ones in the unit shown, m/s. */
export function speedsAround(intended: number, step: number): number[] {
  const below = Math.floor((intended - step / 2) / step + 1e-9);
  const above = Math.ceil((intended + step / 2) / step - 1e-9);
  const around = [(below - 1) * step, below * step, intended, above * step];
  return around.filter((speed) => speed > 1e-9 && speed <= GREATEST_SPEED);
}
