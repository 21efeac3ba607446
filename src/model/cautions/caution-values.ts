/**
 * What cautions look at, SI, temperatures in K. Flags are 0 or 1. `rig/cautions-of.ts` gives each of them for a design.
 * The words are what a page calls the value.
 */
export const CAUTION_VALUES = Object.freeze({
  touchVoltage: 'highest voltage of a live part to earth or between two of them, rms',
  mainsFed: 'the coil is fed from the mains without an isolating transformer',
  isolated: 'an isolating transformer stands between mains and coil',
  loaded: 'water stands on the plate',
  insulationMargin: 'breakdown of enamel and standoff over the peak voltage to earth',
  standoffInsulates: 'the standoff is a named insulator: its breakdown is given',
  storedEnergy: "energy of the coil's field at the peak of the current",
  hasCapacitor: 'a capacitor stands in series with the coil',
  voltageRise: "larger of coil and capacitor voltage over the supply's",
  resonanceRatio: "resonant frequency of coil and series capacitor over the supply's",
  capacitorHolds: 'the peak across the series capacitor exceeds 42.4 V',
  capacitorCharge: 'charge of the series capacitor at the peak of its voltage',
  capacitorEnergy: 'energy of the series capacitor at the peak of its voltage',
  capacitorVoltage: 'voltage across the series capacitor, rms',
  compensatorHolds: 'a capacitor would bring the power factor to one, at a peak above 42.4 V',
  compensatorCharge: 'charge of that capacitor at the peak of its voltage',
  compensatorEnergy: 'energy of that capacitor at the peak of its voltage',
  compensatorVoltage: 'voltage across that capacitor, rms',
  fuseMargin: "the fuse's rating over the current on its side",
  coilTemperature:
    'temperature of the hottest place in the winding, the current held on; without end where it never settles',
  thermalClass: "the winding's thermal class",
  coilRunsAway: 'the winding never settles',
  coilMelts: "where the winding's metal begins to melt",
  plateTemperature: 'temperature of the plate alone, without its load, the current held on',
  plateMelts: "where the plate's metal begins to melt",
  unloaded: 'nothing stands on the plate',
  hottestPart: 'the hotter of winding and plate, the current held on',
  power: "power at the coil's terminals",
  floats: 'coil or plate floats',
  lifts: 'it floats at its drive',
  unheld: 'coil or plate floats, and is computed neither to centre itself nor to be pushed off',
  outwardOverWeight: 'outward force beside the axis over the weight',
  outwardForce: 'outward force beside the axis',
  sidewaysShift: 'how far beside the axis that is',
  postForce: 'force on guide posts at the end of their play',
  clamped: 'the plate lies still over the coil: a heating rig',
  gap: 'gap between plate and winding',
  height: 'height above rest',
  fallEnergy: 'weight times height',
  switchOnLiftOverWeight: 'average lift over weight when the operating voltage is applied at once',
  bounceGrowth: 'growth of a small bounce',
  guideDamping: 'drag in all at which it does not grow',
  jumpOverHeadroom: 'highest point of the jump at switch-on over the headroom',
  jumpHeight: 'highest point of the jump at switch-on',
  landingSpeed: 'speed of its landing when the power fails',
  panPeakLiftOverWeight: 'peak lift over the weight of pan and load',
  panLiftOverWeight: 'average lift over the weight of pan and load',
  visitorField: 'field at the visitor, beside the coil or above it, rms',
  operatorField: 'field at the operator, beside the coil or above it, rms',
  coilField: 'field in the middle of the coil, rms',
  implantLevel: 'the level for implants at the supply frequency',
  publicLevel: 'the reference level for the public at the supply frequency',
  occupationalLevel: 'the reference level for people at work at the supply frequency',
  rests: 'it rests at its drive',
  currentOverChatter: 'current over that at which the peaks of the force reach the weight',
  humLevel: 'estimated sound 1 m from what floats',
  steelIsWide: 'a plate layer is magnetic, and the plate is computed as infinitely wide',
  plateIsLinearSteel: 'a plate layer is magnetic, and its metal has no saturation',
  plateSaturates: 'a plate layer is of a metal that saturates',
  linearLossOff:
    'loss of a plate that keeps its permeability at low field, over the real one, less 1, in size',
  linearLossRatio: 'loss of a plate that keeps its permeability at low field, over the real one',
  linearLiftRatio: 'lift or pull of such a plate over the real one',
  plateFluxDensity: 'peak flux density in the magnetic layer',
  strandCirculation: 'what circulating currents add to the resistance, over the rest',
  packing: 'overall wire area over section area',
  plateOverCoilRadius: "plate radius over the coil's outer radius",
});

export type CautionValueName = keyof typeof CAUTION_VALUES;

/** A value that is not known: why, and what it is at least (NaN: nobody knows). */
export interface UnknownValue {
  /** Ends the sentence `not judged: ...`. */
  readonly missing: string;
  readonly atLeast: number;
}

export type CautionValue = number | UnknownValue;
export type CautionValues = Readonly<Record<CautionValueName, CautionValue>>;
