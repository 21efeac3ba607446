import { modulus } from '../math/modulus.ts';
/** What a coil hangs on. NaN where the study leaves a value out. */
export interface SupplyCircuit {
  omega: number;
  /** Leads and transformer, ohm; 0 when left out. */
  seriesResistance: number;
  /** F; NaN: no capacitor. */
  seriesCapacitance: number;
  /** Mains side of the variable transformer, V rms. */
  lineVoltage: number;
  /** At its outlet: V rms, A rms. */
  maxVoltage: number;
  maxCurrent: number;
  fuseRating: number;
  /** True: the fuse stands on the line's side, false: in the coil's circuit. */
  fuseOnLine: boolean;
}

/** A supply at one operating point, rms: V, A, VA; NaN where an input is missing. */
export interface SupplyPoint {
  current: number;
  supplyVoltage: number;
  capacitorVoltage: number;
  /** Volt-amperes at the supply voltage. */
  apparentPower: number;
  lineCurrent: number;
  fuseCurrent: number;
  /** Rating over current on the fuse's side. */
  fuseMargin: number;
}

/** Reactance in series with the coil, ohm: -1 / (w C), 0 without a capacitor. */
export function seriesReactance(circuit: SupplyCircuit): number {
  return Number.isNaN(circuit.seriesCapacitance) ? 0 : -1 / (circuit.omega * circuit.seriesCapacitance);
}

/** Modulus of coil and series elements, ohm, for a coil of resistance (plate's share included) and reactance in ohm. */
function supplyImpedance(circuit: SupplyCircuit, resistance: number, reactance: number): number {
  return modulus(resistance + circuit.seriesResistance, reactance + seriesReactance(circuit));
}

/** Coil current at a supply voltage: V / |Z|. Infinity at a lossless resonance. */
export function currentAtVoltage(
  circuit: SupplyCircuit,
  voltage: number,
  resistance: number,
  reactance: number,
): number {
  return voltage / supplyImpedance(circuit, resistance, reactance);
}

/** What lies closer to a limit than this share of it has come to it. */
const TIE = 1e-9;

/**
 * Everything of the supply at a coil current (A rms) and coil impedance (ohm, at that current's gap). The variable
 * transformer is ideal: line current = supply volt-amperes / line voltage.
 */
export function supplyAt(
  circuit: SupplyCircuit,
  current: number,
  resistance: number,
  reactance: number,
  out: SupplyPoint,
): void {
  const voltage = current * supplyImpedance(circuit, resistance, reactance);
  const apparentPower = voltage * current;
  out.current = current;
  out.supplyVoltage = voltage;
  out.capacitorVoltage = Number.isNaN(circuit.seriesCapacitance)
    ? Number.NaN
    : -current * seriesReactance(circuit);
  out.apparentPower = apparentPower;
  out.lineCurrent = apparentPower / circuit.lineVoltage;
  const fuseCurrent = circuit.fuseOnLine ? out.lineCurrent : current;
  // a drive raised to the fuse's rating loads it with just that, whichever way its last digits fell
  const isRating = Math.abs(fuseCurrent - circuit.fuseRating) <= TIE * circuit.fuseRating;
  out.fuseCurrent = isRating ? circuit.fuseRating : fuseCurrent;
  out.fuseMargin = circuit.fuseRating / out.fuseCurrent;
}

/** What ends a supply's range, in the contract's order of precedence. */
export const FIRST_LIMIT = Object.freeze({ none: 0, voltage: 1, current: 2, fuse: 3 });

/**
 * The largest of supply voltage, current and fuse current, each over its limit: above 1 the supply
 * cannot give this point. NaN where no limit is given that can be judged.
 */
export function supplyLoading(circuit: SupplyCircuit, point: SupplyPoint): number {
  const hasLimit = !(
    Number.isNaN(circuit.maxVoltage) &&
    Number.isNaN(circuit.maxCurrent) &&
    Number.isNaN(point.fuseMargin)
  );
  return hasLimit ? mostUsed(circuit, point) : Number.NaN;
}

/** A drive raised until a limit is reached loads the supply with just 1, whichever way its last digits fell. */
export function isBeyond(loading: number): boolean {
  return loading > 1 + TIE;
}

function mostUsed(circuit: SupplyCircuit, point: SupplyPoint): number {
  return Math.max(
    use(point.supplyVoltage, circuit.maxVoltage),
    use(point.current, circuit.maxCurrent),
    use(point.fuseCurrent, circuit.fuseRating),
  );
}

/**
 * The limit met first by raising the drive: the one used hardest at the point; ties (1e-9) in the order voltage,
 * current, fuse; `none` where no limit is given.
 */
export function firstLimit(circuit: SupplyCircuit, point: SupplyPoint): number {
  const voltage = use(point.supplyVoltage, circuit.maxVoltage);
  const current = use(point.current, circuit.maxCurrent);
  const most = mostUsed(circuit, point) * (1 - TIE);
  if (most === 0) return FIRST_LIMIT.none;
  if (voltage >= most) return FIRST_LIMIT.voltage;
  return current >= most ? FIRST_LIMIT.current : FIRST_LIMIT.fuse;
}

/** 0 where the value or its limit is not known. */
function use(value: number, limit: number): number {
  const ratio = value / limit;
  return Number.isNaN(ratio) ? 0 : ratio;
}
