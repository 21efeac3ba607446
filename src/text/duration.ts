/** A length of time, s, as people write it: `under a second`, `4 s`, `2 min 10 s`, `3 h 12 min`, `2 days 4 h`. */
export function formatDuration(seconds: number): string {
  if (!(seconds >= 1)) return 'under a second';
  const whole = Math.round(seconds);
  if (whole < 60) return `${whole} s`;
  const minutes = Math.floor(whole / 60);
  if (minutes < 60) return pair(minutes, 'min', whole % 60, 's');
  const hours = Math.floor(minutes / 60);
  if (hours < 48) return pair(hours, 'h', minutes % 60, 'min');
  return pair(Math.floor(hours / 24), 'days', hours % 24, 'h');
}

function pair(large: number, largeUnit: string, small: number, smallUnit: string): string {
  return small === 0 ? `${large} ${largeUnit}` : `${large} ${largeUnit} ${small} ${smallUnit}`;
}

/** From one length of time to another: `under a second`, `up to 3 s`, `4 to 8 s`, `50 s to 1 min 40 s`, or `about 4 s`. */
export function durationRange(least: number, most: number): string {
  const [from, to] = [formatDuration(least), formatDuration(most)];
  if (!/^\d/.test(to)) return to;
  if (!/^\d/.test(from)) return `up to ${to}`;
  if (from === to) return `about ${to}`;
  const [, number, unit] = /^(\d+) (\D+)$/.exec(from) ?? [];
  return number !== undefined && to.endsWith(` ${unit}`) && /^\d+ \D+$/.test(to)
    ? `${number} to ${to}`
    : `${from} to ${to}`;
}
