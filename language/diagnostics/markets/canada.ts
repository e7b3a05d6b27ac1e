import { define } from '../define.ts';
import { HITCH, hauler, truck } from '../examples.ts';
import { limitBreach } from '../limit-wording.ts';

const watered = (
  capacity: number,
) => `${truck(HITCH)}${hauler(`  tank fresh 100 L of water at 2400 mm back, 600 mm up, size 800 x 500 x 250 mm
  limits { ATM 750 kg  CCC ${capacity} kg }
`)}rig Trip in CA {
  tow Truck
  haul Hauler
  case out { Hauler.fresh 50 % }
}
`;

/** Texts of Canada. */
export const CANADA = {
  'GVWR-below-water-and-cargo': define({
    code: 'RW840',
    severity: 'error',
    title: 'The gross rating does not cover water and cargo',
    message: limitBreach,
    meaning:
      'The gross rating of a unit is at least the sum of its unloaded weight, its carrying capacity (CCC), 68 kg for each designated seating position, and its fresh water, hot water and propane tanks when full. Waste water does not count. Where a rig names the United States too, its CCC is taken as that of their label, which counts the water already. Without a UVW line the unloaded weight is that of the file.',
    mend: 'Copy the figures from the compliance label anew.',
    example: watered(450),
    mended: watered(400),
    source: 'Canada, Motor Vehicle Safety Regulations, s. 5.2',
    authority: 'regulation',
    caution:
      'It compares what the file states; what the maker certified and the text in force go before it. Weigh the laden unit.',
  }),
} as const;
