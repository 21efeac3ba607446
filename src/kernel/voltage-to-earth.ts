import { modulus } from '../math/modulus.ts';
/** A coil with what is in series with it on a variable transformer, at one operating point. SI, rms. */
export interface EarthedCircuit {
  /** A */
  current: number;
  /** Of coil (with the plate's share) and series resistance, ohm. */
  coilResistance: number;
  coilReactance: number;
  seriesResistance: number;
  /** Of the series capacitor, ohm: -1 / (w C), 0 without one. */
  seriesReactance: number;
  /** V; NaN: not known. */
  lineVoltage: number;
  /** An isolating transformer stands between mains and coil. */
  isolated: boolean;
}

/**
 * The highest voltage to earth that an end of the coil may have, V rms.
 *
 * A variable transformer is one tapped winding across the line: its common end and its slider are what the outlet offers,
 * U_o in phase with the line's U, and one conductor of the line (the neutral) is at earth. With the plug one way round the
 * common end is at earth, the slider at U_o. With it the other way the common end is at U and the slider at U - U_o. The
 * series elements stand in either lead, so that with the coil's own voltage V = I Z and the capacitor's voltage I Zc
 * the ends of the coil may be at
 *   0, U_o, I Zc, V   and turned   U, U - U_o, U - I Zc, U - V.
 * All are phasors. U + I Zc is taken besides: with a plain variable transformer no end is at it, with a centre-tapped one,
 * whose outlet may oppose the line, it is; where the circuit is capacitive it exceeds the others by U_o at most, on the safe
 * side. A series resistance counts in V; a point between it and the capacitor is not looked at by itself.
 *
 * Behind an isolating transformer no conductor is at earth, until one touches it (a first fault): then the others stand at
 * their voltage to that one, so that what counts is the largest among U_o, V and I Zc.
 *
 * Taken together: along the winding the voltage runs straight from end to end, hence is highest at an end. Several windings
 * in series against each other may have more at their joints.
 *
 * Source: network analysis; a tapped single winding joins input and output (any textbook of transformers).
 *
 * @returns NaN where neither the line voltage is known nor the supply isolated
 */
export function voltageToEarth(circuit: EarthedCircuit): number {
  const { current, lineVoltage, isolated } = circuit;
  const resistance = circuit.coilResistance + circuit.seriesResistance;
  const reactance = circuit.coilReactance + circuit.seriesReactance;
  // phasors against the current, which is real
  const outlet = current * modulus(resistance, reactance);
  const coilRe = current * circuit.coilResistance;
  const coilIm = current * circuit.coilReactance;
  const capacitor = current * Math.abs(circuit.seriesReactance);
  const within = Math.max(outlet, modulus(coilRe, coilIm), capacitor);
  if (isolated) return within;
  if (Number.isNaN(lineVoltage)) return Number.NaN;
  // the line is in phase with the outlet; with no outlet voltage any phase will do
  const lineRe = outlet > 0 ? (lineVoltage * current * resistance) / outlet : lineVoltage;
  const lineIm = outlet > 0 ? (lineVoltage * current * reactance) / outlet : 0;
  return Math.max(
    within,
    lineVoltage,
    Math.abs(lineVoltage - outlet),
    capacitor > 0 ? modulus(lineRe, Math.abs(lineIm) + capacitor) : 0,
    modulus(lineRe - coilRe, lineIm - coilIm),
  );
}
