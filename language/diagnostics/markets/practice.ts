import { define } from '../define.ts';
import { HITCH, hauler, truck } from '../examples.ts';
import { limitBreach } from '../limit-wording.ts';
import { haulage } from './examples.ts';

const COMMON_PRACTICE = 'common practice, no source';

/** A box of 20 kg in a locker of the hauler. */
const boxed = (locker: string) => `item toolbox 20 kg size 300 x 400 x 200 mm
${truck(HITCH)}${hauler(`  locker box ${locker}\n`)}rig Delivery in CA {
  tow Truck
  haul Hauler
  stow toolbox in Hauler.box
  case loaded { }
}
`;

/** What practice advises, in North America and in every market. */
export const PRACTICE = {
  'tongue-load-share': define({
    code: 'RW852',
    severity: 'information',
    title: 'The tongue load is outside the usual share of the trailer',
    message: limitBreach,
    meaning:
      'Practice in the United States and Canada puts 10 % to 15 % of a laden trailer on a conventional coupling and 15 % to 20 % on a kingpin or gooseneck. It stands in place of RW603; where the share is below what is usual anywhere (4 %, kingpins 10 %), RW602 warns instead.',
    mend: 'Move mass ahead or back, as far as the limits of hitch and vehicle permit.',
    example: haulage('US', {}),
    mended: haulage('US', { tareAt: '2300 mm' }),
    source: 'common practice, no source; sources conflict on the figure for kingpins',
    authority: 'common practice',
    caution: 'What the makers of vehicle, hitch and trailer say of the tongue load goes before practice.',
  }),
  'towing-reserve': define({
    code: 'RW854',
    severity: 'information',
    title: 'What is towed leaves little reserve under the towing rating',
    message: limitBreach,
    meaning:
      'Practice keeps a loaded trailer at about half to six tenths of the towing rating, so that hills, heat, wind and wear leave a reserve. The tool speaks up above six tenths. Over the rating itself, the finding on the rating speaks instead.',
    mend: 'Nothing need be mended where the ratings hold; leave load behind, or tow with a vehicle that is rated for more.',
    example: haulage('CA', { sand: 400, truck: '  limits { towing 900 kg }\n' }),
    mended: haulage('CA', { sand: 200, truck: '  limits { towing 900 kg }\n' }),
    source: COMMON_PRACTICE,
    authority: 'common practice',
    caution: 'A towing rating holds for a vehicle that is otherwise loaded as its maker says: see its papers.',
  }),
  'heavy-item-far': define({
    code: 'RW855',
    severity: 'information',
    title: 'Something heavy is stowed far from the axles of a trailer',
    message: limitBreach,
    meaning:
      'Mass far from the axles makes a trailer swing more slowly and for longer, at either end. The tool looks at what is stowed as one thing and weighs at least a twentieth of the empty trailer, and speaks up where its middle is further from the middle of the axles than three tenths of the distance from coupling to axles. Both figures are a choice of this tool.',
    mend: 'Stow heavy things near the axles and balance the coupling load with light ones.',
    example: boxed('from 300 mm to 800 mm back, floor 500 mm up'),
    mended: boxed('from 2000 mm to 2500 mm back, floor 500 mm up'),
    source: `${COMMON_PRACTICE}; the figures are a choice of this tool`,
    authority: 'common practice',
    caution: 'The loads of axles and coupling go before: a thing moved to the axles changes both.',
  }),
  'heavy-item-high': define({
    code: 'RW856',
    severity: 'information',
    title: 'Something heavy is stowed high in a trailer',
    message: limitBreach,
    meaning:
      'Mass high up makes a trailer roll more and tip over sooner. The tool looks at what is stowed as one thing and weighs at least a twentieth of the empty trailer, and speaks up where its middle is higher above the road than three quarters of the track. Both figures are a choice of this tool.',
    mend: 'Stow heavy things on the floor.',
    example: boxed('from 2000 mm to 2500 mm back, floor 1200 mm up'),
    mended: boxed('from 2000 mm to 2500 mm back, floor 500 mm up'),
    source: `${COMMON_PRACTICE}; the figures are a choice of this tool`,
    authority: 'common practice',
    caution: 'How far a trailer may lean is not computed.',
  }),
} as const;
