import type { AxleGroup, Coupling, UnitModel } from '../semantics/model.ts';

const NAMED_GROUPS: Readonly<Record<string, readonly [one: string, several: string]>> = {
  front: ['Front axle', 'Front axle group'],
  rear: ['Rear axle', 'Rear axle group'],
  axles: ['Axle', 'Axle group'],
};

/** `Rear axle of YardTruck`, `Axle group of TourerB`. */
export function groupSubject(unit: UnitModel, group: AxleGroup): string {
  const [one, several] = NAMED_GROUPS[group.name] ?? [`Axle '${group.name}'`, `Axle group '${group.name}'`];
  return `${group.axles.length > 1 ? several : one} of ${unit.name}`;
}

/** A subject inside a sentence: `the rear axle of YardTruck`, `axle 1 of TourerB`. */
export function withinSentence(subject: string): string {
  const lower = subject.charAt(0).toLowerCase() + subject.slice(1);
  return /^axle(?: group)? [\d']/.test(lower) ? lower : `the ${lower}`;
}

/** The name of an axle as in the names of computed quantities, from the front. */
export const axleName = (index: number): string => `axle${index + 1}`;

/**
 * Prefixes of the names of computed quantities for the axles of a group, with their names in words; a single axle is its
 * group.
 */
export function axlesOf(unit: UnitModel, group: AxleGroup): { readonly prefix: string; readonly subject: string }[] {
  const prefix = `${unit.name}.${group.name}`;
  const subject = groupSubject(unit, group);
  if (group.axles.length < 2) return [{ prefix, subject }];
  return group.axles.map((_, index) => ({
    prefix: `${prefix}.${axleName(index)}`,
    subject: `Axle ${index + 1} of ${group.name === 'axles' ? unit.name : `${unit.name}.${group.name}`}`,
  }));
}

/** Whether a coupling hangs the trailer from above an axle of the tow vehicle, as a semi-trailer. */
export function isSemiTrailer({ kind }: Coupling): boolean {
  return kind === 'kingpin' || kind === 'gooseneck';
}

/** Whether a coupling carries vertical load. */
export function carriesLoad({ kind }: Coupling): boolean {
  return kind !== 'drawbar';
}
