import { Q, QUANTITIES, type QuantityName } from '../model/quantities.ts';
import type { TableRows } from '../model/rows.ts';
import { REASONS, STATUSES } from '../model/status.ts';
import type { Study, Varied } from '../model/study.ts';
import { inputToUnit } from '../model/units.ts';
import { measure, significant } from '../text/significant.ts';

/** One design in a line: `design 12 - aluminium coil, 320 turns: floats 12.3 mm high at 10 A, 50 V, coil 2.1 kg`. */
export function designWords(study: Pick<Study, 'vary'>, rows: TableRows, row: number): string {
  const width = study.vary.length;
  const inputs = study.vary.flatMap((varied, i) => inputWords(varied, rows.values[row * width + i]!) ?? []);
  const name = `design ${rows.designs[row]}`;
  return `${inputs.length === 0 ? name : `${name} - ${inputs.join(', ')}`}: ${operatingWords(rows, row)}`;
}

/** Around the value, as the trade puts it; `#` is the value with its unit. */
const PHRASES: Readonly<Record<string, string>> = {
  coil_metal: '# coil',
  plate_metal: '# plate',
  coil_wire: '# wire',
  coil_turns: '# turns',
  coil_layers: '# layers',
  coil_strands: '# in hand',
  coil_inner_radius: 'inner radius #',
  plate_thickness: '# plate',
  plate_square: '# square plate',
  plate_sides_0: 'one side of the plate #',
  plate_sides_1: 'other side of the plate #',
  standoff: '# standoff',
  floats: '# floats',
};

function inputWords(varied: Varied, value: number): string | null {
  // The operating point shows it.
  if (varied.name === 'drive_current') return null;
  const phrase = PHRASES[varied.name] ?? `${varied.name.replaceAll('_', ' ')} #`;
  return phrase.replace('#', () => valueWords(varied, value));
}

function valueWords(varied: Varied, value: number): string {
  if (varied.kind === 'choice') return varied.levels[value]?.label ?? '-';
  const inUnit = inputToUnit(value, varied.unit);
  if (varied.integer) return String(inUnit);
  if (inUnit === Number.POSITIVE_INFINITY) return 'thick';
  return varied.unit.symbol === '' ? significant(inUnit) : `${significant(inUnit)} ${varied.unit.symbol}`;
}

/** A drive that goes up to the supply's limit reaches it to within rounding. */
const BEYOND = 1 + 1e-6;

function operatingWords(rows: TableRows, row: number): string {
  const status = STATUSES[rows.status[row]!]!;
  /** Null where the cell is empty. */
  const phraseOf = (name: QuantityName, phrase = '#'): string | null => {
    const si = rows.quantities[Q[name] * rows.count + row]!;
    return Number.isNaN(si) ? null : phrase.replace('#', measure(si, QUANTITIES[Q[name]]!.unit));
  };
  const loading = rows.quantities[Q.supply_loading * rows.count + row]!;
  const point = listed([
    phraseOf('current'),
    phraseOf('voltage'),
    loading > BEYOND ? 'beyond the supply' : null,
  ]);
  const at = point === '' ? '' : ` at ${point}`;
  const mass = phraseOf('coil_mass', 'coil #');
  if (status === 'lifts') return listed([`${phraseOf('height', 'floats # high') ?? 'floats'}${at}`, mass]);
  if (status === 'rests') return listed([`rests${at}`, phraseOf('liftoff_current', 'lifts off at #'), mass]);
  if (status === 'clamped')
    return listed([`${phraseOf('plate_loss', '# in the plate') ?? 'clamped'}${at}`, mass]);
  return `${status}: ${REASONS[rows.reason[row]!]!.text}`;
}

function listed(parts: readonly (string | null)[]): string {
  return parts.filter((part) => part !== null).join(', ');
}
