import { define } from '../define.ts';
import { yard } from '../examples.ts';
import { limitBreach } from '../limit-wording.ts';

const tyred = (mass: number, tyres: string) => yard({ sand: mass, axle: `, tyres 2 x ${tyres}` });

/** Practice on tyres, in all markets. */
export const TYRES = {
  'tyre-pressure-low': define({
    code: 'RW845',
    severity: 'information',
    title: 'The tyres may be filled too little for their load',
    message: limitBreach,
    meaning:
      'A tyre carries the load of its marking at its reference pressure. Below that the load is estimated as capacity x (pressure / reference pressure)^0.8; exponents from 0.5 to 0.8 are in use, and 0.8 leaves least.',
    mend: 'Look the pressure up in the tables of the maker of the tyre and fill the tyres to it, cold.',
    example: tyred(600, '"165R13C 90/88R" at 200 kPa, reference_pressure 375 kPa'),
    mended: tyred(600, '"165R13C 90/88R" at 350 kPa, reference_pressure 375 kPa'),
    source: 'common practice, no source; the exponents from memory',
    authority: 'common practice',
    caution:
      'An estimate: the tables of the maker of the tyre, the placard and the highest pressure on rim and valve govern.',
  }),
  'passenger-tyres-on-trailer': define({
    code: 'RW846',
    severity: 'information',
    title: 'Passenger tyres carry a trailer with little to spare',
    message: limitBreach,
    meaning:
      'Trailers load their tyres more steadily and higher, and scrub them in turns. In the United States and Canada the capacity of a passenger tyre is divided by 1.10 on a trailer; elsewhere that is a measure of what to keep in hand.',
    mend: 'Fit tyres that are made for trailers or with a higher load index, or leave mass behind.',
    example: tyred(620, '"155R13 78S"'),
    mended: tyred(620, '"165R13C 90/88R"'),
    source: 'common practice, no source; the divisor of 49 CFR 571.110 S4.2.2.2',
    authority: 'common practice',
    caution: 'The load index is what the tyre may carry at most; the maker of the trailer says which tyres fit it.',
  }),
} as const;
