/** A non-magnetic layer: thickness m (finite), resistivity ohm m. */
export interface DiscLayer {
  readonly thickness: number;
  readonly resistivity: number;
}

/** A disc, coaxial with the coil; layers coil side first. Lengths in m. */
export interface DiscSpec {
  readonly radius: number;
  /** Radius of the central hole, 0 without. */
  readonly innerRadius: number;
  readonly layers: readonly DiscLayer[];
  /** rad/s */
  readonly angularFrequency: number;
}
