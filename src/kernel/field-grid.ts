/** Where a field is wanted: in the air at radii x heights, in the plate at radii x depths; m. */
export interface FieldGrid {
  /** From the axis, above 0. */
  readonly radii: Float64Array;
  /** From the plate's face toward the coil, 0 or more. */
  readonly heights: Float64Array;
  /** From the plate's face into the plate, 0 or more. */
  readonly depths: Float64Array;
}

/** Complex amplitudes, rms, e^{jwt}; row-major, a row for each height or depth. The coil's current is real. */
export interface Phasors {
  readonly re: Float64Array;
  readonly im: Float64Array;
}

export interface FieldPhasors {
  /** Flux density in the air, T: away from the axis, and away from the plate's face toward the coil. */
  readonly radial: Phasors;
  readonly axial: Phasors;
  /** Current density in the plate around the axis, A/m2: above 0 where it flows as the coil's does. */
  readonly current: Phasors;
}

export function createFieldPhasors({ radii, heights, depths }: FieldGrid): FieldPhasors {
  const phasors = (rows: number): Phasors => ({
    re: new Float64Array(rows * radii.length),
    im: new Float64Array(rows * radii.length),
  });
  return {
    radial: phasors(heights.length),
    axial: phasors(heights.length),
    current: phasors(depths.length),
  };
}
