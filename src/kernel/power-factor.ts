/** Capacitors that would bring the supply's power factor to one at an operating point. */
export interface PowerFactorCapacitors {
  /** Across the supply's terminals: F, and its voltage V rms. */
  parallel: number;
  parallelVoltage: number;
  /** In series: F, and its voltage V rms at the same coil current. */
  series: number;
  seriesVoltage: number;
  /** Supply current with the parallel one, A rms, at the same voltage. */
  compensatedCurrent: number;
  /** Supply voltage with the series one, V rms, at the same current. */
  compensatedVoltage: number;
}

/**
 * A load Z = R + jX (ohm, X > 0) that carries `current` A rms: in parallel C = X / (w |Z|^2) sees the load's voltage;
 * in series C = 1 / (w X) sees I X. Everything NaN where X <= 0 (nothing to correct).
 *
 * The series one is resonance: at the gap it was chosen for, the current is V/R, and it changes with the gap.
 * Source: any textbook of circuits, such as W. H. Hayt and J. E. Kemmerly, Engineering Circuit Analysis (from memory).
 */
export function powerFactorCapacitors(
  resistance: number,
  reactance: number,
  current: number,
  omega: number,
  out: PowerFactorCapacitors,
): void {
  const known = reactance > 0;
  const square = resistance * resistance + reactance * reactance;
  const voltage = current * Math.sqrt(square);
  out.parallel = known ? reactance / (omega * square) : Number.NaN;
  out.parallelVoltage = known ? voltage : Number.NaN;
  out.series = known ? 1 / (omega * reactance) : Number.NaN;
  out.seriesVoltage = known ? current * reactance : Number.NaN;
  out.compensatedCurrent = known ? (voltage * resistance) / square : Number.NaN;
  out.compensatedVoltage = known ? current * resistance : Number.NaN;
}
