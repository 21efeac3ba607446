/**
 * The catalogue of metals: what a coil is wound of and a plate is made of. Every value names its source;
 * `from memory` marks a value that was recalled, not read, `typical` one that a maker does not guarantee.
 * A builder whose plate matters writes its own numbers instead: alloys of one name differ by several percent.
 */
export interface Sourced {
  readonly value: number;
  readonly source: string;
}

export interface Metal {
  readonly name: string;
  readonly description: string;
  /** ohm m at 20 degC. */
  readonly resistivity: Sourced;
  /** 1/K, referred to 20 degC: resistivity(T) = resistivity (1 + coefficient (T - 20 degC)). */
  readonly temperatureCoefficient: Sourced;
  /** kg/m3. */
  readonly density: Sourced;
  /** J/(kg K). */
  readonly specificHeat: Sourced;
  /** At low field. */
  readonly relativePermeability: Sourced;
  /** T: magnetisation that is never exceeded (see kernel/steel/magnetisation); of metals that are magnetic. */
  readonly saturation?: Sourced;
  /** K: where it begins to melt. */
  readonly meltsFrom: Sourced;
}

function sourced(value: number, source: string): Sourced {
  return Object.freeze({ value, source });
}

function melts(celsius: number, source: string): Sourced {
  return sourced(celsius + 273.15, `${celsius} degC: ${source}`);
}

const NOT_MAGNETIC = sourced(1, 'not magnetic: differs from 1 by less than 1e-4 (from memory)');

/** Resistivity of 100 % IACS, ohm m (IEC 60028). */
export const IACS = 1 / 58e6;

function iacs(percent: number, source: string): Sourced {
  return sourced((IACS * 100) / percent, `${percent} %IACS, ${source}`);
}

/** Resistivity per kelvin of conductor aluminium, which alloying changes little (Matthiessen's rule). */
const ALUMINIUM_SLOPE = 2.8264e-8 * 0.00403;

function aluminiumAlloy(
  name: string,
  description: string,
  resistivity: Sourced,
  density: Sourced,
  specificHeat: Sourced,
  meltsFrom: Sourced,
): Metal {
  return {
    name,
    description,
    resistivity,
    temperatureCoefficient: sourced(
      Number((ALUMINIUM_SLOPE / resistivity.value).toPrecision(3)),
      "Matthiessen's rule: the resistivity rises per kelvin as that of IEC 60889 aluminium does",
    ),
    density,
    specificHeat,
    relativePermeability: NOT_MAGNETIC,
    meltsFrom,
  };
}

const ENTRIES: readonly Metal[] = [
  {
    name: 'copper',
    description: 'annealed copper, winding wire',
    resistivity: sourced(IACS, 'IEC 60028: 1/58 ohm mm2/m'),
    temperatureCoefficient: sourced(0.00393, 'IEC 60028'),
    density: sourced(8890, 'IEC 60028'),
    specificHeat: sourced(385, 'CRC Handbook, 25 degC (from memory)'),
    relativePermeability: NOT_MAGNETIC,
    meltsFrom: melts(1083, "makers' tables of melting points"),
  },
  {
    name: 'aluminium',
    description: 'hard-drawn aluminium conductor, winding wire',
    resistivity: sourced(2.8264e-8, 'IEC 60889: 0.028264 ohm mm2/m'),
    temperatureCoefficient: sourced(0.00403, 'IEC 60889'),
    density: sourced(2703, 'IEC 60889'),
    specificHeat: sourced(897, 'CRC Handbook, 25 degC (from memory)'),
    relativePermeability: NOT_MAGNETIC,
    meltsFrom: melts(
      646,
      "solidus of EN AW-1350, of nearly the same composition (from memory); pure aluminium 660 in makers' tables of melting points",
    ),
  },
  aluminiumAlloy(
    'aluminium-1050',
    'EN AW-1050A plate, 99.5 % aluminium: conducts nearly as well as wire',
    sourced(2.82e-8, "maker's data sheet for 1050A: 0.0282 uohm m, typical"),
    sourced(2710, "maker's data sheet for 1050A"),
    sourced(920, "maker's data sheet for 1050A, mean of 10 to 100 degC"),
    melts(646, 'solidus (from memory)'),
  ),
  aluminiumAlloy(
    'aluminium-5083',
    'EN AW-5083-O plate, for boats and vessels: a poor conductor among aluminium alloys',
    iacs(29, "maker's data for 5083-O, typical"),
    sourced(2660, "maker's data for 5083-O"),
    sourced(900, 'Aluminum Association, typical (from memory)'),
    melts(570, 'solidus (from memory)'),
  ),
  aluminiumAlloy(
    'aluminium-6060',
    'EN AW-6060-T6 (AlMgSi), profiles, bars and extruded plate',
    sourced(
      3.25e-8,
      "maker's data sheet for EN AW-6060: 3.25 uohm cm in temper T6; another maker: 28 to 34 MS/m",
    ),
    sourced(2700, "makers' data sheets for EN AW-6060"),
    sourced(890, "makers' data sheets for EN AW-6060, 0 to 100 degC"),
    melts(585, "maker's data sheet for EN AW-6060: 585 to 650 degC"),
  ),
  aluminiumAlloy(
    'aluminium-6061',
    'EN AW-6061-T6 structural plate',
    iacs(43, 'Aluminum Association, typical of temper T6'),
    sourced(2700, 'Aluminum Association, typical'),
    sourced(896, 'Aluminum Association, typical'),
    melts(582, 'solidus (from memory)'),
  ),
  aluminiumAlloy(
    'aluminium-6082',
    'EN AW-6082-T6 structural plate',
    sourced(1 / 28e6, "maker's data: 24 to 32 MS/m, here the middle"),
    sourced(2700, "maker's data"),
    sourced(896, 'as 6061, of nearly the same composition (from memory)'),
    melts(575, 'solidus (from memory)'),
  ),
  {
    name: 'brass',
    description: 'cartridge brass C26000 (70 % copper, 30 % zinc), annealed',
    resistivity: sourced(6.16e-8, "maker's data for C26000: 28 %IACS"),
    temperatureCoefficient: sourced(
      0.00171,
      'CRC Handbook, wire tables: 6.08e-8 ohm m at 20 degC, 6.91e-8 at 100 degC',
    ),
    density: sourced(8530, "maker's data for C26000"),
    specificHeat: sourced(377, "maker's data for C26000: 0.09 Btu/(lb degF)"),
    relativePermeability: NOT_MAGNETIC,
    meltsFrom: melts(905, "makers' tables of melting points: yellow brass 905 to 932 degC"),
  },
  {
    name: 'stainless-304',
    description: 'austenitic stainless steel AISI 304 (1.4301)',
    resistivity: sourced(7.2e-7, 'data sheet for AISI 304: 72 uohm cm'),
    temperatureCoefficient: sourced(0.00094, 'handbook value for AISI 304 (from memory)'),
    density: sourced(8000, 'data sheet for AISI 304'),
    specificHeat: sourced(500, 'data sheet for AISI 304'),
    relativePermeability: sourced(1.008, 'data sheet for AISI 304, annealed; cold work raises it'),
    meltsFrom: melts(1363, "makers' tables of melting points: stainless steel"),
  },
  {
    name: 'stainless-430',
    description: 'ferritic stainless steel AISI 430 (1.4016), the base of induction pans; magnetic',
    resistivity: sourced(6e-7, "maker's data sheet for AISI 430: 60 uohm cm at 21 degC"),
    temperatureCoefficient: sourced(
      0.0011,
      'grade data for AISI 430: 0.56 uohm m at 20 degC, 0.61 uohm m at 100 degC',
    ),
    density: sourced(7740, "maker's data sheet for AISI 430"),
    specificHeat: sourced(460, "maker's data sheet for AISI 430, mean of 0 to 100 degC"),
    relativePermeability: sourced(800, "maker's data for AISI 430 strip; falls as the steel saturates"),
    saturation: sourced(1.5, 'handbook value for AISI 430: about 1.5 T (from memory)'),
    meltsFrom: melts(1363, "makers' tables of melting points: stainless steel"),
  },
  {
    name: 'mild-steel',
    description: 'low-carbon steel, about 0.1 % carbon; magnetic',
    resistivity: sourced(1.43e-7, 'handbook value for AISI 1010 (from memory)'),
    temperatureCoefficient: sourced(0.0045, 'handbook value for iron and steel'),
    density: sourced(7850, 'handbook value for carbon steel: 7.85 g/cm3'),
    specificHeat: sourced(486, 'handbook value for low-carbon steel (from memory)'),
    relativePermeability: sourced(
      1500,
      'chosen with the saturation so that the curve passes the knee of usual low-carbon steel: 1.2 T at 1 kA/m, 1.8 T at 4 kA/m (from memory, uncertain by a factor of 2)',
    ),
    saturation: sourced(2, 'handbook value for low-carbon steel: 2.0 to 2.15 T (from memory)'),
    meltsFrom: melts(1371, "makers' tables of melting points: carbon steel 1371 to 1593 degC"),
  },
];

export const METALS: readonly Metal[] = Object.freeze(ENTRIES.map((metal) => Object.freeze(metal)));

/**
 * Where a metal begins to melt, K, found by numbers of a design that no fit changes; NaN for an own metal. Of metals of the
 * catalogue that share these numbers the one that melts first counts.
 */
export function meltsFromOf(density: number, specificHeat: number, relativePermeability: number): number {
  let lowest = Number.NaN;
  for (const metal of METALS) {
    const same =
      metal.density.value === density &&
      metal.specificHeat.value === specificHeat &&
      metal.relativePermeability.value === relativePermeability;
    if (same && !(metal.meltsFrom.value > lowest)) lowest = metal.meltsFrom.value;
  }
  return lowest;
}

const byName = new Map(METALS.map((metal) => [metal.name, metal]));

export function metalByName(name: string): Metal | undefined {
  return byName.get(name);
}
