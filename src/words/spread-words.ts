import { INPUTS } from '../model/inputs.ts';
import type { Tolerance } from '../model/study.ts';
import { toUnit, UNITS, type Unit } from '../model/units.ts';
import { type QuantitySpread, type SpreadProfile, varianceSharesOf, varies } from '../rig/spread-profile.ts';
import { measure, significant } from '../text/significant.ts';
import type { Watched } from './watched.ts';

/** Smaller shares are left out of sentences. */
const SMALL = 0.1;

/** Inputs as the trade calls them, by path of the input. */
const TRADE: Readonly<Record<string, string>> = {
  'coil.metal.resistivity': "the wire's resistivity",
  'coil.metal.density': "the wire's density",
  'coil.metal.temperature_coefficient': "the wire's temperature coefficient",
  'coil.metal.specific_heat': "the wire's specific heat",
  'coil.wire': "the wire's diameter",
  'coil.insulation.thickness': 'the insulation',
  'coil.turns': 'the turns',
  'coil.layers': 'the layers',
  'coil.inner_radius': 'the inner radius',
  'coil.thermal_class': 'the thermal class',
  'coil.winding.conductivity': "the winding's conductivity of heat",
  'coil.extra_mass': 'the extra mass',
  'coil.at_temperature': "the coil's temperature",
  'coil.section.height': "the winding's height",
  'coil.section.outer_radius': "the winding's outer radius",
  'plate.layers.0.metal.resistivity': "the plate's resistivity",
  'plate.layers.0.metal.temperature_coefficient': "the plate's temperature coefficient",
  'plate.layers.0.metal.density': "the plate's density",
  'plate.layers.0.metal.specific_heat': "the plate's specific heat",
  'plate.layers.0.metal.relative_permeability': "the plate's permeability",
  'plate.layers.0.thickness': "the plate's thickness",
  'plate.extra_mass': "the plate's extra mass",
  'plate.at_temperature': "the plate's temperature",
  'plate.radius': "the plate's radius",
  'plate.square': "the plate's side",
  'plate.sides.0': "the plate's one side",
  'plate.sides.1': "the plate's other side",
  'plate.inner_radius': "the hole's radius",
  'plate.load.water': 'the water',
  standoff: 'the standoff',
  'supply.frequency': 'the frequency',
  'supply.line_voltage': 'the mains voltage',
  'supply.max_voltage': "the supply's highest voltage",
  'supply.max_current': "the supply's highest current",
  'supply.fuse.rating': "the fuse's rating",
  'supply.series_capacitance': 'the series capacitor',
  'supply.series_resistance': 'the series resistance',
  'surroundings.temperature': "the room's temperature",
  'drive.current': "the drive's current",
  'drive.voltage': "the drive's voltage",
};

/** `the standoff`; an input that the trade has no word for goes by its path. */
export function toleranceName({ path, slot }: Pick<Tolerance, 'path' | 'slot'>): string {
  return TRADE[INPUTS[slot]!.path] ?? path;
}

/** `± 0.16 mm`, `± 1 %`, `at most 2 off`: a standard deviation, or the half-width of an even spread. */
export function toleranceSize({ slot, size, relative, distribution }: Tolerance): string {
  const { unit } = INPUTS[slot]!;
  const { symbol } = differenceUnit(unit);
  const number = relative ? `${significant(100 * size)} %` : `${significant(size * unit.scale)} ${symbol}`;
  return distribution === 'uniform' ? `at most ${number.trimEnd()} off` : `± ${number.trimEnd()}`;
}

/** `8.96 to 9.83 A in nine rigs of ten (9.39 as drawn); two thirds of it from the standoff, ...`. */
export function spreadWords(
  { unit }: Pick<Watched, 'unit'>,
  spread: QuantitySpread,
  tolerance: readonly Tolerance[],
): string {
  const { own, p05, p95, explained } = spread;
  if (Number.isNaN(p05)) return 'not every rig has an answer';
  if (!varies(spread)) return `${measure(own, unit)} in every rig`;
  const format = rounder(p05, p95, unit);
  const symbol = unit.symbol === '' ? '' : ` ${unit.symbol}`;
  const range = `${format(p05)} to ${format(p95)}${symbol} in nine rigs of ten (${format(own)} as drawn)`;
  const shares = varianceSharesOf(spread);
  if (shares) return `${range}; ${sourceWords(shares, tolerance)}`;
  if (Number.isNaN(explained)) return range;
  const percent = Math.floor(100 * explained);
  return `${range}; slopes explain only ${percent} % of it, too little to name its causes`;
}

/** `two thirds of it from the standoff, 28 % from the plate's resistivity`, largest first. */
function sourceWords(shares: readonly number[], tolerance: readonly Tolerance[]): string {
  const ranked = tolerance
    .map((each, t) => ({ name: toleranceName(each), share: shares[t]! }))
    .sort((a, b) => b.share - a.share);
  const large = ranked.filter(({ share }, i) => i === 0 || share >= SMALL);
  return large
    .map(({ name, share }, i) => `${varianceShareWords(share)}${i === 0 ? ' of it' : ''} from ${name}`)
    .join(', ');
}

const FRACTIONS = [
  [1 / 4, 'a quarter'],
  [1 / 3, 'a third'],
  [1 / 2, 'half'],
  [2 / 3, 'two thirds'],
  [3 / 4, 'three quarters'],
] as const;
/** A share this near to a plain fraction is written as that: it is known no better. */
const NEAR = 0.02;

function varianceShareWords(share: number): string {
  if (share >= 0.99) return 'all';
  if (share >= 0.94) return 'nearly all';
  const plain = FRACTIONS.find(([fraction]) => Math.abs(share - fraction) <= NEAR);
  return plain?.[1] ?? `${Math.round(100 * share)} %`;
}

/** `97 % of them meet all limits`, `all of them lift off`: what comes of the probabilities. */
export function probabilityWords(
  { rigs, probabilityLimits, probabilityLifts }: SpreadProfile,
  floats: boolean,
): string {
  const format = (probability: number) =>
    probability === 1
      ? `all ${rigs} such rigs`
      : probability === 0
        ? `none of ${rigs} such rigs`
        : `${Math.round(probability * rigs)} of ${rigs} such rigs (${percentText(probability)})`;
  const parts = [
    ...(Number.isNaN(probabilityLimits) ? [] : [`${format(probabilityLimits)} meet all limits`]),
    ...(floats && (Number.isNaN(probabilityLimits) || probabilityLifts < 1)
      ? [`${format(probabilityLifts)} lift off`]
      : []),
  ];
  return parts.join('; ');
}

/** Rounded so that neither near certainty nor a rare case reads as 0 or 100 %. */
function percentText(probability: number): string {
  const percent = 100 * probability;
  return `${percent > 99 || percent < 1 ? percent.toFixed(1) : percent.toFixed(0)} %`;
}

/** How shares are to be read; null where none are shown. */
export function varianceSharesNote(profile: SpreadProfile): string | null {
  const known = profile.quantities.filter((each) => varies(each) && varianceSharesOf(each) !== null);
  if (known.length === 0) return null;
  const least = Math.floor(100 * Math.min(...known.map(({ explained }) => explained)));
  return `Shares are of the variance; together the tolerances' slopes explain ${least} % of it or more.`;
}

/** Digits that a range deserves: its own width to about a twentieth, of a temperature whole degrees. */
export function rounder(low: number, high: number, unit: Unit): (si: number) => string {
  const step = Math.floor(Math.log10((Math.abs(high - low) * unit.scale) / 20));
  const decimals = unit === UNITS.degC ? 0 : Math.min(Math.max(-step, 0), 12);
  return (si) => {
    const value = toUnit(si, unit);
    if (!Number.isFinite(value)) return value > 0 ? 'no limit' : '-';
    if (Math.abs(value) >= 1e6 || (value !== 0 && Math.abs(value) < 1e-3)) return significant(value);
    return value.toFixed(decimals);
  };
}

function differenceUnit(unit: Unit): Unit {
  return unit === UNITS.degC ? UNITS.K : unit;
}
