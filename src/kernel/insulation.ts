/** A winding with its voltages and its insulation. */
export interface InsulatedWinding {
  /** V rms, capacitor rise included. */
  coilVoltage: number;
  /** V rms, the highest of any point of the coil; NaN: not known. */
  toEarth: number;
  /** In series. */
  turns: number;
  /** Flat spirals; NaN (section fixed by hand): betweenLayers NaN. */
  layers: number;
  /** Of the layers' voltages: the worst pair over 2 V / layers (`LayerVoltages`); 1 where even. */
  unevenness: number;
  /** One enamel film, peak V; NaN: unknown. */
  filmBreakdown: number;
  /** Dielectric strength of the standoff (peak), V/m; NaN: none given. */
  standoffBreakdown: number;
  /** m. */
  standoff: number;
  /** V rms, line to neutral; NaN: not known. */
  lineVoltage: number;
}

/** A winding's insulation at an operating point. */
export interface InsulationStress {
  /** V rms. */
  voltsPerTurn: number;
  /** Between two turns of adjacent layers, at most, V rms. */
  betweenLayers: number;
  /** Breakdown of one enamel film and the standoff over the peak of the voltage to earth. */
  margin: number;
  /** The same breakdown over the impulse that the mains may bring. */
  impulseMargin: number;
}

/**
 * Voltage across a winding's insulation.
 *
 * Volts per turn = coil voltage / turns. Adjacent layers (flat spirals wound to and fro) differ at their open edge by
 * two layers' voltages, of which the worst pair counts. To the earthed plate stands the peak of the voltage to earth (`voltageToEarth`).
 * The margin adds one film of the wire and the standoff, as if each took its share at its own breakdown: in truth
 * they share the voltage by capacitance, and the weaker one goes first, so that a margin under 2 or so is thin.
 *
 * @param out margin NaN when neither breakdown is known, or the voltage to earth is not
 */
export function insulationStress(
  {
    coilVoltage,
    toEarth,
    turns,
    layers,
    unevenness,
    filmBreakdown,
    standoffBreakdown,
    standoff,
    lineVoltage,
  }: InsulatedWinding,
  out: InsulationStress,
): void {
  out.voltsPerTurn = coilVoltage / turns;
  out.betweenLayers = layers > 1 ? (unevenness * 2 * coilVoltage) / layers : layers === 1 ? 0 : Number.NaN;
  const spacer = standoffBreakdown * standoff;
  const film = Number.isNaN(filmBreakdown) ? 0 : filmBreakdown;
  const strength = film + (Number.isNaN(spacer) ? 0 : spacer);
  out.impulseMargin = strength > 0 ? strength / ratedImpulse(lineVoltage) : Number.NaN;
  out.margin = strength > 0 ? strength / (Math.SQRT2 * toEarth) : Number.NaN;
}

/**
 * Rated impulse voltage, peak V (1.2/50 us), of equipment of overvoltage category II, on a line of this voltage to neutral (V
 * rms): what a plug-in appliance must stand. 2.5 kV on mains of 230 V. NaN above 1000 V.
 * Source: IEC 60664-1 (2020), table F.1, from memory.
 */
export function ratedImpulse(lineVoltage: number): number {
  for (let i = 0; i < RATED_UP_TO.length; i++) if (lineVoltage <= RATED_UP_TO[i]!) return RATED_IMPULSE[i]!;
  return Number.NaN;
}

const RATED_UP_TO = Float64Array.of(50, 100, 150, 300, 600, 1000);
const RATED_IMPULSE = Float64Array.of(500, 800, 1500, 2500, 4000, 6000);
