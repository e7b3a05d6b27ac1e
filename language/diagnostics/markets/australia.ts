import { define } from '../define.ts';
import { limitBreach } from '../limit-wording.ts';
import { haulage, heavyHaulage } from './examples.ts';

const ADR = 'ATM and GTM as the Australian Design Rules define them (GTM from memory)';

/** Texts and practice of Australia, and of New Zealand where it shares them. */
export const AUSTRALIA = {
  'coupling-below-plates': define({
    code: 'RW808',
    severity: 'warning',
    title: 'The coupling of a trailer is limited to less than its plates leave for it',
    message: limitBreach,
    meaning:
      'With its axles loaded to the GTM, a trailer that weighs its ATM puts the difference on its coupling. Where the trailer’s own coupling is limited to less, the ATM cannot be reached. Where the axle ratings leave the same gap, RW541 speaks of it. It is no overload in itself: the loads of each case are held against the limits as they are.',
    mend: 'Read the plates again and correct the file, or load the trailer to less than its ATM.',
    example: haulage('AU', { tareAt: '2350 mm', hauler: '  limits { ATM 750 kg  GTM 650 kg  coupling 60 kg }\n' }),
    mended: haulage('AU', { tareAt: '2350 mm', hauler: '  limits { ATM 750 kg  GTM 650 kg  coupling 100 kg }\n' }),
    source: `${ADR}: the coupling load is the ATM less the GTM`,
    authority: 'recommendation',
    caution: 'The plate of the trailer goes before what the file says of it.',
  }),
  'towing-without-figure': define({
    code: 'RW809',
    severity: 'warning',
    title: 'A trailer is heavy for a tow vehicle without a towing figure',
    message: limitBreach,
    meaning:
      'Where there is no figure of the maker, South Australia lets a vehicle tow 1.5 times its unladen mass with brakes and its unladen mass without. The tool applies it in all of Australia to a vehicle for which the file gives no towing figure, with the stated tare as the unladen mass; elsewhere than in South Australia it is no more than a recommendation.',
    mend: 'State the maker’s figure (towing 3000 kg) where there is one; else leave load behind or tow with a heavier vehicle.',
    example: heavyHaulage('AU', '3300 kg', { tareAt: '3080 mm' }),
    mended: heavyHaulage('AU', '3000 kg', { tareAt: '3080 mm' }),
    source: 'South Australia’s road rule for towing where no maker’s figure exists',
    authority: 'recommendation',
    caution: 'A figure of the maker goes before this. Read the text that is in force where you drive.',
  }),
  'ball-load-share': define({
    code: 'RW853',
    severity: 'information',
    title: 'The ball load is not about a tenth of the trailer',
    message: limitBreach,
    meaning:
      'Practice in Australia and New Zealand puts about 10 % of the laden trailer on the ball. The tool takes 8 % to 12 % as about that, which is its own choice. It stands in place of RW603; below 4 %, RW602 warns instead.',
    mend: 'Move mass ahead or back, as far as the limits of hitch and vehicle permit.',
    example: haulage('AU', {}),
    mended: haulage('AU', { tareAt: '2350 mm' }),
    source: 'common practice, no source',
    authority: 'common practice',
    caution: 'What the makers of vehicle and trailer say of the ball load goes before practice.',
  }),
} as const;
