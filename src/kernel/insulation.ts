/** A winding's insulation at an operating point. */
export interface InsulationStress {
  /** V rms. */
  voltsPerTurn: number;
  /** Between two turns of adjacent layers, at most, V rms. */
  betweenLayers: number;
  /** Winding to earthed plate, peak V. */
  toPlate: number;
  /** Breakdown of one enamel film and the standoff over `toPlate`. */
  margin: number;
}

/**
 * Voltage across a winding's insulation, taking it as shared evenly by the turns.
 *
 * Volts per turn = coil voltage / turns. Adjacent layers (flat spirals wound to and fro) differ at their open edge by
 * two layers' turns. To the earthed plate stands the peak of whatever one end of the coil can have to earth: the supply's
 * voltage or a series capacitor's, or, behind the capacitor, the coil's whole own: sqrt(2) max(coil, supply).
 * The margin adds one film of the wire and the standoff, as if each took its share at its own breakdown: in truth
 * they share the voltage by capacitance, and the weaker one goes first, so that a margin under 2 or so is thin.
 *
 * @param coilVoltage V rms, capacitor rise included
 * @param supplyVoltage V rms, of supply and series capacitor the larger
 * @param turns in series
 * @param layers flat spirals; NaN (section fixed by hand): betweenLayers NaN
 * @param filmBreakdown one enamel film, peak V; NaN: unknown
 * @param standoffBreakdown dielectric strength of the standoff (peak), V/m; NaN: none given
 * @param standoff m
 * @param out margin NaN when neither breakdown is known
 */
export function insulationStress(
  coilVoltage: number,
  supplyVoltage: number,
  turns: number,
  layers: number,
  filmBreakdown: number,
  standoffBreakdown: number,
  standoff: number,
  out: InsulationStress,
): void {
  out.voltsPerTurn = coilVoltage / turns;
  out.betweenLayers = layers > 1 ? (2 * coilVoltage) / layers : layers === 1 ? 0 : Number.NaN;
  // a supply voltage that is not known (NaN) leaves the coil's own
  out.toPlate = Math.SQRT2 * Math.max(coilVoltage, Number.isNaN(supplyVoltage) ? 0 : supplyVoltage);
  const spacer = standoffBreakdown * standoff;
  const film = Number.isNaN(filmBreakdown) ? 0 : filmBreakdown;
  const strength = film + (Number.isNaN(spacer) ? 0 : spacer);
  out.margin = strength > 0 ? strength / out.toPlate : Number.NaN;
}
