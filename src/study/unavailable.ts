/** What the file format has and this version does not; an unknown key would be the wrong thing to say. */
const KEYS: Readonly<Record<string, string>> = {
  'rig.coil.windings': 'one winding: turns, layers and inner_radius of the coil itself',
  'rig.plate.inner_radius': 'a plate taken as infinitely wide: leave it out',
  'rig.plate.edge': 'a plate taken as infinitely wide: leave it out',
  'plan.scatter': 'plan: {grid: {}}',
  'plan.descend': 'plan: {grid: {}}',
  'plan.evolve': 'plan: {grid: {}}',
};

/** What to write instead of a key of the file (`rig.plate.radius`); null where it is simply unknown. */
export function insteadOfKey(path: string): string | null {
  if (Object.hasOwn(KEYS, path)) return KEYS[path]!;
  const [section, varied] = [path.slice(0, 5), path.slice(5)];
  if (section !== 'vary.') return null;
  const place = varied.startsWith('drive.') ? varied : `rig.${varied}`;
  const root = Object.keys(KEYS).find((key) => place === key || place.startsWith(`${key}.`));
  return root === undefined ? null : 'a path that this version varies, such as coil.turns';
}

/** The same for a value; `path` has no list index. */
export function insteadOfValue(path: string, value: unknown): string | null {
  if (value === 'plate' && /^(rig|vary)\.floats$/.test(path)) return 'coil or nothing';
  if (path === 'plan' && typeof value === 'string') return insteadOfKey(`plan.${value}`);
  return null;
}
