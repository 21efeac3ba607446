import { QUANTITIES } from '../model/quantities.ts';
import { REASONS, STATUSES } from '../model/status.ts';

/**
 * Names behind the codes of a part: statuses, reasons by their key, and the words of quantities that stand for one. A part
 * carries them, since a list may get new entries, in whatever place, while results on disk stay.
 */
export type PartCodes = Readonly<Record<string, readonly string[]>>;

/** The codes of this version. */
export const PART_CODES: PartCodes = Object.freeze({
  status: STATUSES,
  reason: REASONS.map(({ key }) => key),
  ...Object.fromEntries(
    QUANTITIES.flatMap(({ name, words }) => (words.length > 0 ? [[name, words] as const] : [])),
  ),
});

/** What codes meant in parts of format 2, which did not carry their names. */
export const FORMAT_2_CODES: PartCodes = Object.freeze({
  status: ['lifts', 'rests', 'clamped', 'impossible', 'failed'],
  reason: [
    'none',
    'weak',
    'attracted',
    'jumps',
    'noFit',
    'layersOverTurns',
    'sectionInverted',
    'noEnamel',
    'edgeMagnetic',
    'holeTooWide',
    'edgeUnresolved',
    'outsideRange',
    'unsolved',
    'notFinite',
    'threw',
  ],
  first_limit: ['none', 'voltage', 'current', 'fuse'],
  plate_model: ['wide', 'disc'],
});

/** Null when the text is no list of codes. */
export function readPartCodes(text: string): PartCodes | null {
  let found: unknown;
  try {
    found = JSON.parse(text);
  } catch {
    return null;
  }
  if (typeof found !== 'object' || found === null) return null;
  const isNames = (value: unknown) =>
    Array.isArray(value) && value.length <= 256 && value.every((name) => typeof name === 'string');
  return Object.values(found).every(isNames) ? (found as PartCodes) : null;
}

/** Today's code of each code of then; null where a name is not known today. */
export function codesOfToday(
  then: readonly string[] | undefined,
  today: readonly string[],
): readonly (number | null)[] {
  return (then ?? today).map((name) => {
    const code = today.indexOf(name);
    return code < 0 ? null : code;
  });
}
