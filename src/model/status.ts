/** What became of a design. The order is the code that travels between threads. */
export const STATUSES = Object.freeze(['lifts', 'rests', 'clamped', 'impossible', 'failed'] as const);
export type Status = (typeof STATUSES)[number];
export const STATUS = Object.freeze({ lifts: 0, rests: 1, clamped: 2, impossible: 3, failed: 4 });

/** Whether a design has an operating point, and so values. */
export function isEvaluated(status: number): boolean {
  return status !== STATUS.impossible && status !== STATUS.failed;
}

/**
 * Why. A closed set: tables group by it, and a million rows cost one byte each. `blame` is the input that a
 * builder would change, for the message when no design of a study is possible.
 */
interface Reason {
  readonly key: string;
  readonly text: string;
  readonly blame: string | null;
}

const REASONS_LIST = [
  { key: 'none', text: '', blame: null },
  { key: 'weak', text: 'drive too weak: less than the lift-off current', blame: null },
  { key: 'attracted', text: 'the magnetic plate attracts more than its currents repel', blame: null },
  {
    key: 'jumps',
    text: 'no stable gap within the limits: near resonance it would jump at lift-off',
    blame: null,
  },
  {
    key: 'noFit',
    text: 'the wires do not fit the section (hexagonal packing fills at most 0.9069 of it)',
    blame: 'coil.turns',
  },
  {
    key: 'layersOverTurns',
    text: 'more layers than wires to fill them',
    blame: 'coil.layers',
  },
  {
    key: 'sectionInverted',
    text: 'the outer radius of the section is not larger than the inner radius',
    blame: 'coil.section.outer_radius',
  },
  {
    key: 'noEnamel',
    text: 'no enamel of this grade is tabulated for this wire: give the insulation thickness instead',
    blame: 'coil.insulation',
  },
  {
    key: 'edgeMagnetic',
    text: 'the edge of a plate is resolved for layers of finite thickness; of magnetic plates for a single one without a hole, up to a tenth of the radius thick',
    blame: 'plate.edge',
  },
  {
    key: 'holeTooWide',
    text: 'the hole is not smaller than the plate',
    blame: 'plate.inner_radius',
  },
  {
    key: 'edgeUnresolved',
    text: 'the edge of this plate would take a finer mesh than is allowed: a lower frequency, a thinner plate, a larger standoff or `edge: ignored` need none',
    blame: null,
  },
  {
    key: 'outsideRange',
    text: 'outside the range in which the physics has been checked',
    blame: null,
  },
  {
    key: 'unsolved',
    text: 'no equilibrium found within the checked range of gaps: try another drive',
    blame: null,
  },
  { key: 'notFinite', text: 'a quantity came out infinite or undefined', blame: null },
  { key: 'threw', text: 'the evaluation broke off: please report this study', blame: null },
  // codes travel in stored rows: new reasons go to the end
  {
    key: 'oblong',
    text: 'the plate is longer than one and a half times its width: no disc lifts alike',
    blame: 'plate.sides.0',
  },
  {
    key: 'coilResistivity',
    text: "at its temperature, or the room's, the coil's metal would have less than a tenth of its resistivity at 20 degC: its temperature coefficient does not hold there",
    blame: 'coil.at_temperature',
  },
  {
    key: 'plateResistivity',
    text: 'at its temperature a metal of the plate would have less than a tenth of its resistivity at 20 degC: its temperature coefficient does not hold there',
    blame: 'plate.at_temperature',
  },
  {
    key: 'classBelowSurroundings',
    text: 'the thermal class is below the temperature of the surroundings',
    blame: 'coil.thermal_class',
  },
  {
    key: 'tooHigh',
    text: 'it would float higher than has been checked (10 m): a weaker drive or more mass keeps it lower',
    blame: null,
  },
  {
    key: 'notConverged',
    text: 'the search for the height at this drive did not converge: give the drive as a current, or another standoff',
    blame: null,
  },
  {
    key: 'beyondVoltage',
    text: 'the supply cannot give this drive: it takes more than max_voltage at the outlet',
    blame: null,
  },
  {
    key: 'beyondCurrent',
    text: 'the supply cannot give this drive: it takes more than max_current from the outlet',
    blame: null,
  },
  {
    key: 'beyondFuse',
    text: "the supply cannot give this drive: it takes more than the fuse's rating",
    blame: null,
  },
  {
    key: 'shortReel',
    text: 'the winding takes more wire than the reels in stock hold',
    blame: 'coil.wire',
  },
  { key: 'smallSheet', text: 'the plate is larger than the sheet in stock', blame: 'plate.radius' },
  {
    key: 'capacitorRating',
    text: 'the capacitor gets more voltage than it is rated for',
    blame: 'supply.series_capacitance',
  },
] as const satisfies readonly Reason[];

export type ReasonKey = (typeof REASONS_LIST)[number]['key'];
export const REASONS: readonly Reason[] = Object.freeze(REASONS_LIST);
export const REASON = Object.freeze(
  Object.fromEntries(REASONS_LIST.map((reason, code) => [reason.key, code])),
) as Readonly<Record<ReasonKey, number>>;
