import { define } from '../define.ts';
import { limitBreach } from '../limit-wording.ts';
import { haulage, heavyHaulage } from './examples.ts';

/** Practice of the United Kingdom. */
export const UNITED_KINGDOM = {
  'nose-load-share': define({
    code: 'RW850',
    severity: 'information',
    title: 'The nose load is outside 5 % to 7 % of the trailer',
    message: limitBreach,
    meaning:
      'Practice in the United Kingdom puts 5 % to 7 % of the actual laden mass of a trailer on its coupling. It stands in place of RW603; below 4 %, RW602 warns instead.',
    mend: 'Move mass ahead or back, as far as the limits of hitch and vehicle permit.',
    example: haulage('UK', {}),
    mended: haulage('UK', { tareAt: '2450 mm' }),
    source: 'common practice, no source',
    authority: 'common practice',
    caution: 'The lowest of the coupling limits of trailer, coupling, hitch and vehicle goes before practice.',
  }),
  'kerb-mass-share': define({
    code: 'RW851',
    severity: 'information',
    title: 'What is towed is over 85 % of the kerb mass of the tow vehicle',
    message: limitBreach,
    meaning:
      'Practice in the United Kingdom keeps a trailer at or below 85 % of the kerb mass of the vehicle that tows it, above all for drivers new to towing. The kerb mass is the tare that the file states. Where the trailer is heavier than the laden vehicle, RW516 says so instead.',
    mend: 'Nothing need be mended where the ratings hold; leave load behind, or tow with a heavier vehicle.',
    example: heavyHaulage('UK', '1900 kg'),
    mended: heavyHaulage('UK', '1700 kg'),
    source: 'common practice, no source',
    authority: 'common practice',
    caution: 'The ratings of vehicle and trailer go before practice.',
  }),
} as const;
