import { UNITS, type Unit } from './units.ts';

/**
 * Every number a rig is made of, in one flat list: a design is a Float64Array with one slot an entry (SI,
 * temperatures in K), NaN where the study leaves an optional input out. Text inputs (a metal's name, a
 * fuse's kind) are not here: choosing one sets several of these numbers.
 *
 * Past 300 lines because the list is that long and its slots are named beside it.
 */
export interface InputSpec {
  /** Dotted path below `rig`, or `drive.…`; `#` stands for a layer's index. */
  readonly path: string;
  /** Name in expressions and, with the unit's suffix, in tables. */
  readonly name: string;
  readonly slot: number;
  readonly unit: Unit;
  readonly meaning: string;
  readonly integer: boolean;
  /** Allowed values, SI. A bound is inclusive unless `above` is set. */
  readonly minimum: number;
  readonly maximum: number;
  readonly above: boolean;
}

/** A coil is at most this many coaxial windings in series. */
export const MAX_WINDINGS = 4;

/** A plate is at most this many layers; a sheet on a pan base on a table top needs three. */
/** Lines of a variable transformer's overload table. */
export const MAX_OVERLOADS = 3;
export const MAX_LAYERS = 6;

interface Entry {
  path: string;
  unit: Unit;
  meaning: string;
  integer?: boolean;
  minimum?: number;
  maximum?: number;
  above?: boolean;
}

const positive = { minimum: 0, above: true };
/** Water between freezing and boiling. */
const liquid = { minimum: 273.15, maximum: 373.15 };
const absolute = { minimum: 0, above: true, maximum: 3000 };

function metalEntries(path: string, of: string): Entry[] {
  return [
    {
      path: `${path}.resistivity`,
      unit: UNITS.ohm_m,
      meaning: `resistivity of ${of} at 20 degC`,
      ...positive,
      maximum: 1e6,
    },
    {
      path: `${path}.temperature_coefficient`,
      unit: UNITS.per_K,
      meaning: `temperature coefficient of resistivity of ${of}, referred to 20 degC`,
      minimum: -0.01,
      maximum: 0.02,
    },
    {
      path: `${path}.density`,
      unit: UNITS.kg_per_m3,
      meaning: `density of ${of}`,
      ...positive,
      maximum: 3e4,
    },
    {
      path: `${path}.specific_heat`,
      unit: UNITS.J_per_kg_K,
      meaning: `specific heat of ${of}`,
      ...positive,
      maximum: 1e5,
    },
    {
      path: `${path}.relative_permeability`,
      unit: UNITS.one,
      meaning: `relative permeability of ${of} at low field`,
      minimum: 1,
      maximum: 1e4,
    },
    {
      path: `${path}.saturation`,
      unit: UNITS.T,
      meaning: `magnetisation (mu0 M) at which ${of} is saturated; left out: linear`,
      ...positive,
      maximum: 3,
    },
  ];
}

/** One of several windings; what it leaves out of metal, wire, insulation and layers it takes from the coil. */
function windingEntries(i: number): Entry[] {
  const path = `coil.windings.${i}`;
  const of = `winding ${i + 1}`;
  return [
    ...metalEntries(`${path}.metal`, `the conductor of ${of}`),
    {
      path: `${path}.wire`,
      unit: UNITS.mm,
      meaning: `bare wire diameter of ${of}`,
      ...positive,
      maximum: 0.1,
    },
    {
      path: `${path}.strands`,
      unit: UNITS.one,
      meaning: `wires in hand of ${of}`,
      integer: true,
      minimum: 1,
      maximum: 1000,
    },
    {
      path: `${path}.strands.transposed`,
      unit: UNITS.one,
      meaning: `whether the wires in hand of ${of} change places: 0 no, 1 yes`,
    },
    {
      path: `${path}.insulation.grade`,
      unit: UNITS.one,
      meaning: `enamel grade of ${of} (IEC 60317-0-1)`,
      minimum: 1,
      maximum: 3,
      integer: true,
    },
    {
      path: `${path}.insulation.thickness`,
      unit: UNITS.mm,
      meaning: `insulation thickness on one side of the wire of ${of}`,
      minimum: 0,
      maximum: 0.02,
    },
    {
      path: `${path}.turns`,
      unit: UNITS.one,
      meaning: `turns of ${of}`,
      integer: true,
      minimum: 1,
      maximum: 1e6,
    },
    {
      path: `${path}.layers`,
      unit: UNITS.one,
      meaning: `layers of ${of}`,
      integer: true,
      minimum: 1,
      maximum: 1e5,
    },
    {
      path: `${path}.inner_radius`,
      unit: UNITS.mm,
      meaning: `inner radius of ${of}`,
      ...positive,
      maximum: 10,
    },
    {
      path: `${path}.section.outer_radius`,
      unit: UNITS.mm,
      meaning: `outer radius of ${of}, fixed by hand`,
      ...positive,
      maximum: 10,
    },
    {
      path: `${path}.section.height`,
      unit: UNITS.mm,
      meaning: `height of ${of}, fixed by hand`,
      ...positive,
      maximum: 10,
    },
    {
      path: `${path}.offset`,
      unit: UNITS.mm,
      meaning: `from the coil's plate-side face to ${of}`,
      minimum: 0,
      maximum: 10,
    },
    {
      path: `${path}.sense`,
      unit: UNITS.one,
      meaning: `sense of ${of}: -1 is wound against the others`,
      integer: true,
      minimum: -1,
      maximum: 1,
    },
  ];
}

/** What the stock file of a study states of the parts that a design takes out of it; a study writes none of these itself. */
function stockEntries(): Entry[] {
  const price = (path: string, of: string): Entry => ({
    path: `stock.${path}`,
    unit: UNITS.one,
    meaning: `price of ${of}, in the currency of the stock file`,
    minimum: 0,
  });
  /** Wire as it is bought: the coil's, or a winding's own. */
  const wire = (below: string, of: string): Entry[] => {
    const path = `stock.${below}`;
    return [
      { path: `${path}reel`, unit: UNITS.one, meaning: `which reel of the stock file${of}`, minimum: 0 },
      {
        path: `${path}reel_mass`,
        unit: UNITS.kg,
        meaning: `wire left on a reel${of}`,
        ...positive,
        maximum: 1e5,
      },
      {
        path: `${path}reel_length`,
        unit: UNITS.m,
        meaning: `wire left on a reel${of}`,
        ...positive,
        maximum: 1e7,
      },
      {
        path: `${path}reels`,
        unit: UNITS.one,
        meaning: `reels there are${of}`,
        ...positive,
        maximum: Infinity,
      },
      { path: `${path}joined`, unit: UNITS.one, meaning: `a winding of several reels: 0 no, 1 allowed${of}` },
      price(`${below}wire_price_kg`, `a kilogram of wire${of}`),
      price(`${below}wire_price_m`, `a metre of wire${of}`),
      price(`${below}reel_price`, `a reel${of}`),
    ];
  };
  return [
    ...wire('', ''),
    ...Array.from({ length: MAX_WINDINGS }, (_, i) => wire(`windings.${i}.`, `, of winding ${i + 1}`)).flat(),
    { path: 'stock.wire_waste', unit: UNITS.one, meaning: 'wire wasted, a share', minimum: 0, maximum: 1 },
    ...['radius', 'width', 'length'].map((side) => ({
      path: `stock.sheet_${side}`,
      unit: UNITS.mm,
      meaning: `${side} of the sheet that the plate is cut from`,
      ...positive,
      maximum: 100,
    })),
    price('plate_price_kg', 'a kilogram of plate'),
    price('plate_price_m2', 'a square metre of plate'),
    ...Array.from({ length: MAX_LAYERS - 1 }, (_, i) => [
      price(`layers.${i + 1}.price_kg`, `a kilogram of layer ${i + 2} of the plate`),
      price(`layers.${i + 1}.price_m2`, `a square metre of layer ${i + 2} of the plate`),
    ]).flat(),
    price('sheet_price', 'a sheet'),
    price('fuse_price', 'the fuse'),
    price('capacitor_price', 'the capacitor'),
    price('transformer_price', 'the variable transformer'),
    price('extras_price', 'what every rig needs besides'),
    {
      path: 'stock.capacitor_voltage',
      unit: UNITS.V,
      meaning: 'rated ac voltage of the capacitor',
      ...positive,
      maximum: 1e6,
    },
  ];
}

function overloadEntries(path: string): readonly Entry[] {
  return [
    {
      path: `${path}.current`,
      unit: UNITS.A,
      meaning: 'current that the variable transformer gives for a while',
      ...positive,
      maximum: 1e5,
    },
    {
      path: `${path}.time`,
      unit: UNITS.s,
      meaning: 'how long it gives that current',
      ...positive,
      maximum: 1e9,
    },
  ];
}

const ENTRIES: readonly Entry[] = [
  { path: 'floats', unit: UNITS.one, meaning: 'what floats: 0 coil, 1 plate, 2 nothing' },
  ...metalEntries('coil.metal', 'the conductor'),
  { path: 'coil.wire', unit: UNITS.mm, meaning: 'bare wire diameter', ...positive, maximum: 0.1 },
  {
    path: 'coil.strands',
    unit: UNITS.one,
    meaning: 'wires in hand (parallel)',
    integer: true,
    minimum: 1,
    maximum: 1000,
  },
  {
    path: 'coil.strands.transposed',
    unit: UNITS.one,
    meaning: 'whether the wires in hand change places: 0 no, 1 yes',
  },
  {
    path: 'coil.insulation.grade',
    unit: UNITS.one,
    meaning: 'enamel grade (IEC 60317-0-1)',
    minimum: 1,
    maximum: 3,
    integer: true,
  },
  {
    path: 'coil.insulation.thickness',
    unit: UNITS.mm,
    meaning: 'insulation thickness on one side of the wire',
    minimum: 0,
    maximum: 0.02,
  },
  {
    path: 'coil.thermal_class',
    unit: UNITS.degC,
    meaning: "thermal class (IEC 60085): the winding's temperature limit",
    ...absolute,
  },
  { path: 'coil.turns', unit: UNITS.one, meaning: 'turns', integer: true, minimum: 1, maximum: 1e6 },
  {
    path: 'coil.layers',
    unit: UNITS.one,
    meaning: 'flat spirals stacked along the axis',
    integer: true,
    minimum: 1,
    maximum: 1e5,
  },
  {
    path: 'coil.inner_radius',
    unit: UNITS.mm,
    meaning: 'inner radius of the winding',
    ...positive,
    maximum: 10,
  },
  {
    path: 'coil.section.outer_radius',
    unit: UNITS.mm,
    meaning: 'outer radius of the winding, fixed by hand',
    ...positive,
    maximum: 10,
  },
  {
    path: 'coil.section.height',
    unit: UNITS.mm,
    meaning: 'height of the winding, fixed by hand',
    ...positive,
    maximum: 10,
  },
  {
    path: 'coil.at_temperature',
    unit: UNITS.degC,
    meaning: 'winding temperature for the electrical quantities',
    ...absolute,
  },
  { path: 'coil.winding', unit: UNITS.one, meaning: 'how the wires are held: 0 loose, 1 impregnated' },
  {
    path: 'coil.winding.conductivity',
    unit: UNITS.W_per_m_K,
    meaning: "conductivity of heat across the winding's section",
    ...positive,
    maximum: 500,
  },
  {
    path: 'coil.extra_mass',
    unit: UNITS.kg,
    meaning: 'former, ties and leads',
    minimum: 0,
    maximum: 1e4,
  },
  ...Array.from({ length: MAX_WINDINGS }, (_, i) => windingEntries(i)).flat(),
  ...Array.from({ length: MAX_LAYERS }, (_, i): Entry[] => [
    ...metalEntries(`plate.layers.${i}.metal`, i === 0 ? 'the plate' : `plate layer ${i + 1}`),
    {
      path: `plate.layers.${i}.thickness`,
      unit: UNITS.mm,
      meaning:
        i === 0
          ? 'thickness of the plate (layer nearest the coil); infinite: a half-space'
          : `thickness of plate layer ${i + 1}`,
      ...positive,
      maximum: Number.POSITIVE_INFINITY,
    },
  ]).flat(),
  {
    path: 'plate.extra_mass',
    unit: UNITS.kg,
    meaning: 'what the plate carries besides itself',
    minimum: 0,
    maximum: 1e4,
  },
  { path: 'plate.at_temperature', unit: UNITS.degC, meaning: 'plate temperature', ...absolute },
  {
    path: 'plate.inner_radius',
    unit: UNITS.mm,
    meaning: 'radius of a central hole in the plate',
    minimum: 0,
    maximum: 10,
  },
  { path: 'plate.edge', unit: UNITS.one, meaning: 'edge of the plate: 0 ignored, 1 resolved' },
  {
    path: 'plate.radius',
    unit: UNITS.mm,
    meaning: 'radius of the plate; of a square or oblong one, that of the disc that lifts alike',
    ...positive,
    maximum: 10,
  },
  { path: 'plate.square', unit: UNITS.mm, meaning: 'side of a square plate', ...positive, maximum: 10 },
  ...[0, 1].map((i) => ({
    path: `plate.sides.${i}`,
    unit: UNITS.mm,
    meaning: `side ${i} of a rectangular plate`,
    ...positive,
    maximum: 10,
  })),
  { path: 'plate.load.water', unit: UNITS.kg, meaning: 'water on the plate', ...positive, maximum: 1e4 },
  { path: 'plate.load.from', unit: UNITS.degC, meaning: 'first temperature of the load', ...liquid },
  { path: 'plate.load.to', unit: UNITS.degC, meaning: 'last temperature of the load', ...liquid },
  { path: 'plate.load.cover', unit: UNITS.one, meaning: 'what covers the load: 0 a lid, 1 nothing (open)' },
  { path: 'standoff', unit: UNITS.mm, meaning: 'gap at rest', ...positive, maximum: 10 },
  {
    path: 'standoff.breakdown',
    unit: UNITS.kV_per_mm,
    meaning: 'dielectric strength of the standoff (peak)',
    ...positive,
    maximum: 1e10,
  },
  {
    path: 'standoff.conductivity',
    unit: UNITS.W_per_m_K,
    meaning: 'conductivity of heat of the standoff, a sheet between winding and plate',
    ...positive,
    maximum: 500,
  },
  {
    path: 'standoff.restitution',
    unit: UNITS.one,
    meaning: 'coefficient of restitution of a landing on the standoff: speed after over speed before',
    minimum: 0,
    maximum: 1,
  },
  {
    path: 'guides.play',
    unit: UNITS.mm,
    meaning: 'how far guide posts or tethers let what floats go sideways',
    ...positive,
    maximum: 1,
  },
  {
    path: 'guides.drag',
    unit: UNITS.N_s_per_m,
    meaning: 'viscous drag of guides, leads and air on what floats: force over speed',
    minimum: 0,
    maximum: 1e6,
  },
  { path: 'duty.on', unit: UNITS.s, meaning: 'how long it is on in each cycle', ...positive, maximum: 1e7 },
  { path: 'duty.off', unit: UNITS.s, meaning: 'how long it is off in each cycle', minimum: 0, maximum: 1e7 },
  {
    path: 'supply.frequency',
    unit: UNITS.Hz,
    meaning: 'supply frequency',
    ...positive,
    maximum: 1e7,
  },
  { path: 'supply.line_voltage', unit: UNITS.V, meaning: 'mains voltage', ...positive, maximum: 1e5 },
  {
    path: 'supply.max_voltage',
    unit: UNITS.V,
    meaning: 'highest voltage at the outlet of the variable transformer',
    ...positive,
    maximum: 1e5,
  },
  {
    path: 'supply.max_current',
    unit: UNITS.A,
    meaning: 'highest current at the outlet of the variable transformer',
    ...positive,
    maximum: 1e5,
  },
  {
    path: 'supply.transformer.current',
    unit: UNITS.A,
    meaning: 'current that the variable transformer gives for ever',
    ...positive,
    maximum: 1e5,
  },
  ...Array.from({ length: MAX_OVERLOADS }, (_, i) =>
    overloadEntries(`supply.transformer.overload.${i}`),
  ).flat(),
  { path: 'supply.fuse.rating', unit: UNITS.A, meaning: 'fuse rating', ...positive, maximum: 1e5 },
  {
    path: 'supply.fuse.kind',
    unit: UNITS.one,
    meaning: 'kind of fuse: 0 gG, 1 T; of circuit breaker: 2 B, 3 C, 4 D',
  },
  {
    path: 'supply.fuse.side',
    unit: UNITS.one,
    meaning: 'side of the variable transformer that the fuse is on: 0 coil, 1 line',
  },
  {
    path: 'supply.series_capacitance',
    unit: UNITS.uF,
    meaning: 'capacitor in series with the coil',
    ...positive,
    maximum: 10,
  },
  {
    path: 'supply.series_resistance',
    unit: UNITS.ohm,
    meaning: 'resistance in series with the coil (leads, transformer)',
    minimum: 0,
    maximum: 1e6,
  },
  {
    path: 'supply.isolated',
    unit: UNITS.one,
    meaning: 'an isolating transformer stands between mains and coil: 0 no, 1 yes',
  },
  {
    path: 'supply.beyond',
    unit: UNITS.one,
    meaning: "drives beyond the supply's limits: 0 refused, 1 allowed",
  },
  {
    path: 'surroundings.temperature',
    unit: UNITS.degC,
    meaning: 'temperature of air and room',
    ...absolute,
  },
  {
    path: 'surroundings.visitor_distance',
    unit: UNITS.m,
    meaning: 'distance of the nearest visitor from the axis',
    ...positive,
    maximum: 1000,
  },
  {
    path: 'surroundings.sideways_shift',
    unit: UNITS.mm,
    meaning: 'how far beside the axis sideways_force is computed',
    ...positive,
    maximum: 1,
  },
  {
    path: 'surroundings.headroom',
    unit: UNITS.mm,
    meaning: 'free height above what floats at rest, up to a cover or a lamp',
    ...positive,
    maximum: 1000,
  },
  {
    path: 'surroundings.operator_distance',
    unit: UNITS.m,
    meaning: 'distance of whoever operates the rig from the axis',
    ...positive,
    maximum: 1000,
  },
  { path: 'drive.current', unit: UNITS.A, meaning: 'coil current, rms', ...positive, maximum: 1e6 },
  {
    path: 'drive.voltage',
    unit: UNITS.V,
    meaning: "voltage at the variable transformer's outlet, rms",
    ...positive,
    maximum: 1e6,
  },
  ...stockEntries(),
];

/** `plate.layers.0.thickness` is what a single-layer study calls `plate.thickness`; so do tables. */
function columnName(path: string): string {
  return path.replace('plate.layers.0.', 'plate.').replaceAll('.', '_');
}

export const INPUTS: readonly InputSpec[] = Object.freeze(
  ENTRIES.map((entry, slot) =>
    Object.freeze({
      integer: false,
      minimum: Number.NEGATIVE_INFINITY,
      maximum: Number.MAX_VALUE,
      above: false,
      ...entry,
      name: columnName(entry.path),
      slot,
    }),
  ),
);

const byPath = new Map(INPUTS.map((input) => [input.path, input]));
const byName = new Map(INPUTS.map((input) => [input.name, input]));

export function inputByPath(path: string): InputSpec | undefined {
  return byPath.get(path);
}

export function inputByName(name: string): InputSpec | undefined {
  return byName.get(name);
}

function slotOf(path: string): number {
  const input = byPath.get(path);
  if (!input) throw new Error(`no input ${path}`);
  return input.slot;
}

/** Where the inputs below a path begin. */
function firstBelow(path: string): number {
  const input = INPUTS.find((one) => one.path.startsWith(`${path}.`));
  if (!input) throw new Error(`no input below ${path}`);
  return input.slot;
}

/** Where inputs stand that repeat below several paths: by name, how far from the first of them. */
function offsetsBelow<Name extends string>(
  path: string,
  keys: Readonly<Record<Name, string>>,
): Readonly<Record<Name, number>> {
  const first = firstBelow(path);
  const offsets = Object.entries<string>(keys).map(([name, key]) => [name, slotOf(`${path}.${key}`) - first]);
  return Object.freeze(Object.fromEntries(offsets));
}

/** A metal's numbers: the names that the code uses, and the keys that paths and studies use. */
export const METAL_KEYS = Object.freeze({
  resistivity: 'resistivity',
  temperatureCoefficient: 'temperature_coefficient',
  density: 'density',
  specificHeat: 'specific_heat',
  relativePermeability: 'relative_permeability',
  saturation: 'saturation',
} as const);
export type MetalNumber = keyof typeof METAL_KEYS;

/** Offsets of a metal's numbers from its first slot. */
export const METAL_SLOTS = offsetsBelow('coil.metal', METAL_KEYS);

/** Slots by the names that the code uses; of windings and plate layers the first slot of the first one. */
export const SLOT = Object.freeze({
  floats: slotOf('floats'),
  coilMetal: firstBelow('coil.metal'),
  wire: slotOf('coil.wire'),
  strands: slotOf('coil.strands'),
  transposed: slotOf('coil.strands.transposed'),
  insulationGrade: slotOf('coil.insulation.grade'),
  insulationThickness: slotOf('coil.insulation.thickness'),
  thermalClass: slotOf('coil.thermal_class'),
  turns: slotOf('coil.turns'),
  layers: slotOf('coil.layers'),
  innerRadius: slotOf('coil.inner_radius'),
  sectionOuterRadius: slotOf('coil.section.outer_radius'),
  sectionHeight: slotOf('coil.section.height'),
  coilTemperature: slotOf('coil.at_temperature'),
  windingKind: slotOf('coil.winding'),
  windingConductivity: slotOf('coil.winding.conductivity'),
  coilExtraMass: slotOf('coil.extra_mass'),
  plateLayers: firstBelow('plate.layers.0'),
  plateExtraMass: slotOf('plate.extra_mass'),
  plateTemperature: slotOf('plate.at_temperature'),
  windings: firstBelow('coil.windings.0'),
  plateRadius: slotOf('plate.radius'),
  plateSquare: slotOf('plate.square'),
  plateSides: slotOf('plate.sides.0'),
  plateInnerRadius: slotOf('plate.inner_radius'),
  plateEdge: slotOf('plate.edge'),
  loadWater: slotOf('plate.load.water'),
  loadFrom: slotOf('plate.load.from'),
  loadTo: slotOf('plate.load.to'),
  loadCover: slotOf('plate.load.cover'),
  standoff: slotOf('standoff'),
  standoffBreakdown: slotOf('standoff.breakdown'),
  standoffConductivity: slotOf('standoff.conductivity'),
  restitution: slotOf('standoff.restitution'),
  guidesPlay: slotOf('guides.play'),
  guidesDrag: slotOf('guides.drag'),
  dutyOn: slotOf('duty.on'),
  dutyOff: slotOf('duty.off'),
  frequency: slotOf('supply.frequency'),
  lineVoltage: slotOf('supply.line_voltage'),
  maxVoltage: slotOf('supply.max_voltage'),
  maxCurrent: slotOf('supply.max_current'),
  transformerCurrent: slotOf('supply.transformer.current'),
  /** The first of the overload table: a current and a time for each of MAX_OVERLOADS lines. */
  transformerOverloads: slotOf('supply.transformer.overload.0.current'),
  fuseRating: slotOf('supply.fuse.rating'),
  fuseKind: slotOf('supply.fuse.kind'),
  fuseSide: slotOf('supply.fuse.side'),
  seriesCapacitance: slotOf('supply.series_capacitance'),
  seriesResistance: slotOf('supply.series_resistance'),
  isolated: slotOf('supply.isolated'),
  beyondSupply: slotOf('supply.beyond'),
  surroundings: slotOf('surroundings.temperature'),
  visitorDistance: slotOf('surroundings.visitor_distance'),
  sidewaysShift: slotOf('surroundings.sideways_shift'),
  headroom: slotOf('surroundings.headroom'),
  operatorDistance: slotOf('surroundings.operator_distance'),
  /** With neither, the drive is the supply limit. */
  driveCurrent: slotOf('drive.current'),
  driveVoltage: slotOf('drive.voltage'),
});

/** Of what the stock file states; NaN where a study has none. */
export const STOCK_SLOT = Object.freeze({
  /** The first of the coil's own wire, and of that of the first winding; each takes REEL_SLOTS. */
  wire: slotOf('stock.reel'),
  windingWire: slotOf('stock.windings.0.reel'),
  wireWaste: slotOf('stock.wire_waste'),
  /** Per kg and per m2 of the second layer; two a layer. */
  layerPrices: slotOf('stock.layers.1.price_kg'),
  sheetRadius: slotOf('stock.sheet_radius'),
  sheetWidth: slotOf('stock.sheet_width'),
  sheetLength: slotOf('stock.sheet_length'),
  platePriceKg: slotOf('stock.plate_price_kg'),
  platePriceM2: slotOf('stock.plate_price_m2'),
  sheetPrice: slotOf('stock.sheet_price'),
  fusePrice: slotOf('stock.fuse_price'),
  capacitorPrice: slotOf('stock.capacitor_price'),
  transformerPrice: slotOf('stock.transformer_price'),
  extrasPrice: slotOf('stock.extras_price'),
  capacitorVoltage: slotOf('stock.capacitor_voltage'),
});

/** Where the numbers of a wire from stock stand, from its first slot, and how many there are. */
export const REEL = offsetsBelow('stock.windings.0', {
  id: 'reel',
  mass: 'reel_mass',
  length: 'reel_length',
  count: 'reels',
  joined: 'joined',
  priceKg: 'wire_price_kg',
  priceM: 'wire_price_m',
  price: 'reel_price',
});
export const REEL_SLOTS = firstBelow('stock.windings.1') - STOCK_SLOT.windingWire;

/** Slots of one plate layer, which begins with its metal, and where its thickness stands. */
export const LAYER_SLOTS = firstBelow('plate.layers.1') - SLOT.plateLayers;
export const LAYER_THICKNESS = slotOf('plate.layers.0.thickness') - SLOT.plateLayers;
/** Slots of one winding, which begins with its metal, and where its other parts stand. */
export const WINDING_SLOTS = firstBelow('coil.windings.1') - SLOT.windings;
export const WINDING = offsetsBelow('coil.windings.0', {
  wire: 'wire',
  strands: 'strands',
  transposed: 'strands.transposed',
  insulationGrade: 'insulation.grade',
  insulationThickness: 'insulation.thickness',
  turns: 'turns',
  layers: 'layers',
  innerRadius: 'inner_radius',
  sectionOuterRadius: 'section.outer_radius',
  sectionHeight: 'section.height',
  offset: 'offset',
  sense: 'sense',
});
export const EDGES = Object.freeze({ ignored: 0, resolved: 1 });
export const FLOATS = Object.freeze({ coil: 0, plate: 1, nothing: 2 });
export const WINDING_KINDS = Object.freeze({ loose: 0, impregnated: 1 });
/** Whether wires in hand change places along the winding. */
export const TRANSPOSED = Object.freeze({ no: 0, yes: 1 });
export const LOAD_COVERS = Object.freeze({ lid: 0, open: 1 });
/** Fuses, and circuit breakers by their letters. */
export const FUSE_KINDS = Object.freeze({ gG: 0, T: 1, B: 2, C: 3, D: 4 });
export const FUSE_SIDES = Object.freeze({ coil: 0, line: 1 });
/** By the text of the two booleans that YAML has. */
export const ISOLATED = Object.freeze({ false: 0, true: 1 });
export const BEYOND_SUPPLY = Object.freeze({ refused: 0, allowed: 1 });
