/** Seconds in a unit of time. */
const UNITS: Readonly<Record<string, number>> = { s: 1, min: 60, h: 3600, d: 86_400 };

/** `90 s`, `10 min`, `1.5 h`, `2 d` in seconds; null for anything else, a number without unit included. */
export function readDuration(text: string): number | null {
  const [, number, unit] = /^\s*(\d{1,9}(?:\.\d{1,9})?)\s*(s|min|h|d)\s*$/.exec(text) ?? [];
  return number === undefined ? null : Number(number) * UNITS[unit!]!;
}
