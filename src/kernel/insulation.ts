/** A winding's insulation at an operating point. */
export interface InsulationStress {
  /** V rms. */
  voltsPerTurn: number;
  /** Between two turns of adjacent layers, at most, V rms. */
  betweenLayers: number;
  /** Breakdown of one enamel film and the standoff over the peak of the voltage to earth. */
  margin: number;
}

/**
 * Voltage across a winding's insulation, taking it as shared evenly by the turns.
 *
 * Volts per turn = coil voltage / turns. Adjacent layers (flat spirals wound to and fro) differ at their open edge by
 * two layers' turns. To the earthed plate stands the peak of the voltage to earth (`voltageToEarth`).
 * The margin adds one film of the wire and the standoff, as if each took its share at its own breakdown: in truth
 * they share the voltage by capacitance, and the weaker one goes first, so that a margin under 2 or so is thin.
 *
 * @param coilVoltage V rms, capacitor rise included
 * @param toEarth V rms, the highest of any point of the coil; NaN: not known
 * @param turns in series
 * @param layers flat spirals; NaN (section fixed by hand): betweenLayers NaN
 * @param filmBreakdown one enamel film, peak V; NaN: unknown
 * @param standoffBreakdown dielectric strength of the standoff (peak), V/m; NaN: none given
 * @param standoff m
 * @param out margin NaN when neither breakdown is known, or the voltage to earth is not
 */
export function insulationStress(
  coilVoltage: number,
  toEarth: number,
  turns: number,
  layers: number,
  filmBreakdown: number,
  standoffBreakdown: number,
  standoff: number,
  out: InsulationStress,
): void {
  out.voltsPerTurn = coilVoltage / turns;
  out.betweenLayers = layers > 1 ? (2 * coilVoltage) / layers : layers === 1 ? 0 : Number.NaN;
  const spacer = standoffBreakdown * standoff;
  const film = Number.isNaN(filmBreakdown) ? 0 : filmBreakdown;
  const strength = film + (Number.isNaN(spacer) ? 0 : spacer);
  out.margin = strength > 0 ? strength / (Math.SQRT2 * toEarth) : Number.NaN;
}
