/** The lowest and the highest load index of the table. */
export const FIRST_LOAD_INDEX = 52;
export const LAST_LOAD_INDEX = 160;

/**
 * Load capacity in kg of the load indexes 52 to 160, in order.
 * Source: UN Regulation No. 54, Annex IV, and No. 30, Annex 4 (several stored copies of the table agree).
 */
export const LOAD_INDEX_CAPACITIES: readonly number[] = [
  // 52–59
  ...[200, 206, 212, 218, 224, 230, 236, 243],
  // 60–69
  ...[250, 257, 265, 272, 280, 290, 300, 307, 315, 325],
  // 70–79
  ...[335, 345, 355, 365, 375, 387, 400, 412, 425, 437],
  // 80–89
  ...[450, 462, 475, 487, 500, 515, 530, 545, 560, 580],
  // 90–99
  ...[600, 615, 630, 650, 670, 690, 710, 730, 750, 775],
  // 100–109
  ...[800, 825, 850, 875, 900, 925, 950, 975, 1000, 1030],
  // 110–119
  ...[1060, 1090, 1120, 1150, 1180, 1215, 1250, 1285, 1320, 1360],
  // 120–129
  ...[1400, 1450, 1500, 1550, 1600, 1650, 1700, 1750, 1800, 1850],
  // 130–139
  ...[1900, 1950, 2000, 2060, 2120, 2180, 2240, 2300, 2360, 2430],
  // 140–149
  ...[2500, 2575, 2650, 2725, 2800, 2900, 3000, 3075, 3150, 3250],
  // 150–159
  ...[3350, 3450, 3550, 3650, 3750, 3875, 4000, 4125, 4250, 4375],
  // 160–160
  ...[4500],
];

/** What a load index stands for, in kg; undefined outside 52–160 and for anything but a whole number. */
export function loadIndexCapacity(loadIndex: number): number | undefined {
  return LOAD_INDEX_CAPACITIES[loadIndex - FIRST_LOAD_INDEX];
}
