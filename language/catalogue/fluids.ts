import { distance } from 'fastest-levenshtein';

/**
 * A fluid of the built-in catalogue.
 * - `density`: kg/m³, at the temperature the source states.
 * - `range`: the densities the source allows, kg/m³, where it gives a band; `density` is then its middle.
 * - `maximumFill`: the share of a vessel's volume that may hold liquid.
 * - `drives`: a vehicle drives on it.
 */
export interface FluidEntry {
  readonly name: string;
  readonly synonyms: readonly string[];
  readonly density: number;
  readonly range?: readonly [lowest: number, highest: number];
  readonly maximumFill?: number;
  readonly drives?: true;
  readonly source: string;
  readonly note?: string;
}

const WATER_SOURCE = '49 CFR 571.110 S9.3.4: 1 kg/L';
const AS_WATER = `counted as water (${WATER_SOURCE}); common practice, no source`;

/** Densities for working out what a tank weighs. A data sheet of the fluid in hand goes before these. */
export const FLUIDS: readonly FluidEntry[] = [
  {
    name: 'water',
    synonyms: ['fresh_water', 'drinking_water', 'potable_water'],
    density: 1000,
    source: WATER_SOURCE,
    note:
      'The US label figure of 8.3 lb/gal stands beside it and is 0.6 % less than 1 kg/L: never derive one from the ' +
      'other.',
  },
  { name: 'grey_water', synonyms: ['gray_water', 'waste_water'], density: 1000, source: AS_WATER },
  { name: 'black_water', synonyms: ['sewage'], density: 1000, source: AS_WATER },
  {
    name: 'diesel',
    synonyms: ['diesel_fuel', 'gas_oil'],
    density: 832.5,
    range: [820, 845],
    drives: true,
    source: 'EN 590: 820–845 kg/m³ at 15 °C, from a handbook table; middle of the band',
  },
  {
    name: 'petrol',
    synonyms: ['gasoline'],
    density: 747.5,
    range: [720, 775],
    drives: true,
    source: 'EN 228: 720–775 kg/m³ at 15 °C (from memory); middle of the band',
  },
  {
    name: 'LPG',
    synonyms: ['propane', 'liquid_propane', 'autogas'],
    density: 505,
    maximumFill: 0.8,
    source: 'liquid propane about 0.505 kg/L at 15–20 °C and vessels filled to 80 %, both from secondary literature',
    note: 'Mixtures with butane are heavier. A bottle is best described by the mass of gas its plate states.',
  },
  {
    name: 'AUS32',
    synonyms: ['AUS_32', 'DEF', 'urea_solution'],
    density: 1090,
    range: [1087, 1093],
    source: 'ISO 22241-1: 1.087–1.093 kg/L at 20 °C (from memory); middle of the band',
  },
];

const BY_NAME: ReadonlyMap<string, FluidEntry> = new Map(
  FLUIDS.flatMap((fluid) => [fluid.name, ...fluid.synonyms].map((name) => [name.toLowerCase(), fluid] as const)),
);

/** The catalogue's fluid of a name or synonym; letter case does not count. */
export function findFluid(name: string): FluidEntry | undefined {
  return BY_NAME.get(name.toLowerCase());
}

/** The catalogue's name or synonym nearest in spelling to one that it does not know; undefined where none is near. */
export function nearestFluid(name: string): string | undefined {
  const lower = name.toLowerCase();
  let best = Math.max(1, Math.floor(lower.length / 3)) + 1;
  let nearest: string | undefined;
  for (const known of FLUIDS.flatMap((fluid) => [fluid.name, ...fluid.synonyms])) {
    const edits = distance(lower, known.toLowerCase());
    if (edits < best) {
      best = edits;
      nearest = known;
    }
  }
  return nearest;
}
