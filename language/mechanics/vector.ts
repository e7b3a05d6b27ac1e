/** A point in a unit's frame, in metres: x forward, y left, z up from the level ground (ISO 8855 axes). */
export interface Position {
  readonly x: number;
  readonly y: number;
  readonly z: number;
}

/** Extents of a box, in metres: length along x, width along y, height along z. */
export interface Size {
  readonly length: number;
  readonly width: number;
  readonly height: number;
}
