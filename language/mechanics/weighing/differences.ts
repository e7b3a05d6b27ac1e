/** A mass equivalent (kg) as a scale read it, or made of such, with its standard deviation (kg). */
export interface Measured {
  readonly value: number;
  readonly deviation: number;
}

/** The sum of independent readings. */
function sumOf(readings: readonly Measured[]): Measured {
  return {
    value: readings.reduce((sum, { value }) => sum + value, 0),
    deviation: Math.hypot(...readings.map(({ deviation }) => deviation)),
  };
}

/** a − b, independent of each other. */
function differenceOf(a: Measured, b: Measured): Measured {
  return { value: a.value - b.value, deviation: Math.hypot(a.deviation, b.deviation) };
}

/**
 * Load on the coupling: what the axles of the tow vehicle read more with the trailer on than without, masses in the
 * vehicle unchanged, both on one level. With a weight-distribution device under tension it is less than the trailer
 * puts on the coupling without it, by what the device moves to the trailer's axles.
 */
export function couplingLoadByDifference(
  towAxlesCoupled: readonly Measured[],
  towAxlesAlone: readonly Measured[],
): Measured {
  return differenceOf(sumOf(towAxlesCoupled), sumOf(towAxlesAlone));
}

/** Mass of what is towed: the combination less the vehicle alone, masses in the vehicle unchanged. */
export function towedMassByDifference(combination: readonly Measured[], vehicleAlone: readonly Measured[]): Measured {
  return differenceOf(sumOf(combination), sumOf(vehicleAlone));
}
