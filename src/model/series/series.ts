import { AWG_RANGE, awgDiameter } from '../wires.ts';
import { E6_CAPACITANCES } from './capacitor-values.ts';
import { BREAKER_RATINGS, GG_RATINGS, MINIATURE_RATINGS } from './current-ratings.ts';
import { PLATE_THICKNESSES } from './plate-thicknesses.ts';
import { R20_DIAMETERS, R40_DIAMETERS } from './wire-diameters.ts';

/** Sizes that exist, as a study names them: the values of an input, in ascending order. */
export interface Series {
  readonly name: string;
  /** Whether an input's path is one that the series has sizes for. */
  suits(path: string): boolean;
  /** SI, ascending. */
  readonly values: readonly number[];
  readonly meaning: string;
}

const isWire = (path: string) => /^coil\.(windings\.\d+\.)?wire$/.test(path);
const isThickness = (path: string) => /^plate\.layers\.\d+\.thickness$/.test(path);
const isFuse = (path: string) => path === 'supply.fuse.rating';
const isCapacitor = (path: string) => path === 'supply.series_capacitance';

// divided, so that 1.25 mm is the same number as one read from a study
const scaled = (values: readonly number[], perSi: number) => Object.freeze(values.map((one) => one / perSi));

/** The thinnest gauge is the first size. */
const GAUGES = Array.from({ length: AWG_RANGE.thinnest - AWG_RANGE.thickest + 1 }, (_, i) =>
  awgDiameter(AWG_RANGE.thinnest - i),
);

export const SERIES: readonly Series[] = Object.freeze([
  {
    name: 'R 20',
    suits: isWire,
    values: scaled(R20_DIAMETERS, 1e3),
    meaning: 'diameters of enamelled round wire, first choice (IEC 60317-0-1)',
  },
  {
    name: 'R 40',
    suits: isWire,
    values: scaled(R40_DIAMETERS, 1e3),
    meaning: 'diameters of enamelled round wire, with the intermediate ones (IEC 60317-0-1)',
  },
  { name: 'AWG', suits: isWire, values: GAUGES, meaning: 'American wire gauge (ASTM B258)' },
  {
    name: 'plate',
    suits: isThickness,
    values: scaled(PLATE_THICKNESSES, 1e3),
    meaning: 'thicknesses of sheet and plate as sold (common practice)',
  },
  { name: 'gG', suits: isFuse, values: GG_RATINGS, meaning: 'fuse links gG (IEC 60269-1)' },
  { name: 'T', suits: isFuse, values: MINIATURE_RATINGS, meaning: 'miniature fuse links (IEC 60127-2)' },
  { name: 'breaker', suits: isFuse, values: BREAKER_RATINGS, meaning: 'circuit-breakers (IEC 60898-1)' },
  {
    name: 'E6',
    suits: isCapacitor,
    values: scaled(E6_CAPACITANCES, 1e6),
    meaning: 'capacitances (IEC 60063)',
  },
]);

function plain(name: string): string {
  return name.replace(/[\s_-]/g, '').toLowerCase();
}

/** By its name, whatever its case and blanks: `r20` is R 20. */
export function seriesByName(name: string): Series | undefined {
  const wanted = plain(name);
  return SERIES.find((series) => plain(series.name) === wanted);
}
