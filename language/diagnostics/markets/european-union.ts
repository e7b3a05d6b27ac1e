import { define } from '../define.ts';
import { HITCH, hauler, truck } from '../examples.ts';
import { limitBreach } from '../limit-wording.ts';
import { haulage, heavyHaulage } from './examples.ts';

const CAUTION =
  'The papers of the vehicle say what its approval came to; they go before this figure. Read the text that is in force where you drive.';

/** The truck as a motor caravan with two seats and 6 m of body. */
const camper = (gvm: string) => `${truck(
  `  body from 900 mm ahead to 5100 mm back, width 2000 mm
  berths 2
  seat driver 80 kg at 1350 mm back, 380 mm left, 700 mm up
  seat mate 70 kg at 1350 mm back, 380 mm right, 700 mm up
  limits { GVM ${gvm} }
`,
)}rig Errand in EU {
  tow Truck with driver
  case out { }
}
`;

/** The hauler as a caravan with two berths and 4 m of body. */
const caravan = (atm: string) => `${truck(HITCH)}${hauler(
  `  body from 600 mm to 4600 mm back, width 1900 mm
  berths 2
  limits { ATM ${atm} }
`,
)}rig Weekend in EU {
  tow Truck
  haul Hauler
  case empty { }
}
`;

/** Texts of the European Union and of the standards that go with them. */
export const EUROPEAN_UNION = {
  'motor-caravan-payload': define({
    code: 'RW803',
    severity: 'error',
    title: 'A motor caravan leaves too little payload',
    message: limitBreach,
    meaning:
      'A motor caravan has to leave a payload of at least 10 kg for each occupant, the driver among them, and for each metre of its length. The tool takes the GVM less the mass in running order (tare, driver of 75 kg, fuel tanks 90 % full) and less 75 kg for every other seat. A vehicle with berths counts as a motor caravan; its seats are counted, and its length is that of its body.',
    mend: 'Make the empty vehicle lighter, give it fewer seats, or have it plated for more where its maker permits it.',
    example: camper('2330 kg'),
    mended: camper('2500 kg'),
    source: '(EU) 1230/2012 Annex I Part A and (EU) 2021/535 Annex XIII (from memory)',
    authority: 'regulation',
    caution: `What the maker counts as fitted equipment is not known to the file. ${CAUTION}`,
  }),
  'caravan-payload': define({
    code: 'RW804',
    severity: 'warning',
    title: 'A caravan leaves too little user payload',
    message: limitBreach,
    meaning:
      'The standard asks for a user payload of at least 10 kg for each metre of the body, 10 kg for each berth and 30 kg. The tool takes the ATM less the tare as stated or rolled up; the contents of tanks and gas bottles count as user payload unless the tare has them. A trailer with berths counts as a caravan, and its length is that of its body.',
    mend: 'Make the empty caravan lighter, or have it plated for more where its maker permits it.',
    example: caravan('325 kg'),
    mended: caravan('340 kg'),
    source: 'EN 1645-2, read second-hand in a trade article',
    authority: 'recommendation',
    caution: CAUTION,
  }),
  'towable-mass-braked': define({
    code: 'RW805',
    severity: 'error',
    title: 'A trailer with brakes is heavier than its tow vehicle may tow',
    message: limitBreach,
    meaning:
      'A passenger car, motor caravan or light van may tow with brakes at most the lowest of its maker’s value, its maximum laden mass (1.5 times that for an off-road vehicle, `off_road`) and 3500 kg. The whole mass of the trailers is compared. The text is not applied to vehicles above 3.5 t without berths, which are lorries. Where the maker’s value is the lowest, the finding on the towing rating speaks of it.',
    mend: 'Leave load behind, or tow with a vehicle that may tow it.',
    example: heavyHaulage('EU', '2500 kg', { truck: '  limits { GVM 2400 kg }\n' }),
    mended: heavyHaulage('EU', '2300 kg', { truck: '  limits { GVM 2400 kg }\n' }),
    source: '(EU) 1230/2012 Annex I (from memory)',
    authority: 'regulation',
    caution: CAUTION,
  }),
  'towable-mass-unbraked': define({
    code: 'RW806',
    severity: 'error',
    title: 'A trailer without brakes is heavier than its tow vehicle may tow',
    message: limitBreach,
    meaning:
      'Without service brakes a trailer may weigh at most the lowest of the maker’s value, half the mass in running order of the tow vehicle (tare, driver of 75 kg, fuel tanks 90 % full) and 750 kg. Where the maker’s value is the lowest, the finding on the towing rating speaks of it.',
    mend: 'Leave load behind, or tow it on a trailer with brakes.',
    example: haulage('EU', { sand: 600, brakes: 'unbraked' }),
    mended: haulage('EU', { sand: 400, brakes: 'unbraked' }),
    source:
      '(EU) 1230/2012: Art. 2 for the mass in running order (the 75 kg from memory), Annex I for the limits (from memory)',
    authority: 'regulation',
    caution: CAUTION,
  }),
} as const;
