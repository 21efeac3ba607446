import { INPUTS, MAX_LAYERS, MAX_WINDINGS } from '../model/inputs.ts';

/**
 * The paths that `vary` knows, each with the path of the input (or of the metal) that it means: a study
 * with one plate layer writes `plate.thickness` for `plate.layers.0.thickness`.
 */
const LAYER_0 = 'plate.layers.0.';

function aliasesOf(path: string): string[] {
  if (path.startsWith(LAYER_0)) return [path, path.replace(LAYER_0, 'plate.')];
  if (path === 'standoff') return [path, 'standoff.thickness'];
  if (/^coil\.(windings\.\d\.)?strands$/.test(path)) return [path, `${path}.count`];
  if (/^coil\.(windings\.\d\.)?wire$/.test(path)) return [path, path.replace(/wire$/, 'strands.diameter')];
  if (path === 'supply.fuse.rating') return [path, 'supply.fuse'];
  return [path];
}

const NOT_NUMBERS: ReadonlySet<string> = new Set([
  'floats',
  'coil.insulation.grade',
  'coil.insulation.thickness',
  'coil.strands.transposed',
  'supply.fuse.kind',
  'supply.fuse.side',
  'supply.isolated',
  'supply.beyond',
  'coil.winding',
  'plate.load.cover',
  'plate.edge',
  ...Array.from({ length: MAX_WINDINGS }, (_, i) => [
    `coil.windings.${i}.insulation.grade`,
    `coil.windings.${i}.sense`,
    `coil.windings.${i}.strands.transposed`,
  ]).flat(),
]);

export const NUMBER_PATHS: ReadonlyMap<string, string> = new Map(
  INPUTS.filter(({ path }) => !NOT_NUMBERS.has(path) && !path.startsWith('stock.')).flatMap((input) =>
    aliasesOf(input.path).map((path): [string, string] => [path, input.path]),
  ),
);

/** Choices other than the insulation, which may be varied by grade or by thickness. */
export const CHOICE_PATHS: ReadonlyMap<string, string> = new Map(
  [
    'floats',
    'coil.metal',
    ...Array.from({ length: MAX_LAYERS }, (_, i) => `plate.layers.${i}.metal`),
    ...Array.from({ length: MAX_WINDINGS }, (_, i) => `coil.windings.${i}.metal`),
    'plate.edge',
    'supply.fuse.kind',
    'supply.fuse.side',
    'supply.isolated',
    'coil.winding',
    'plate.load.cover',
    ...Array.from({ length: MAX_WINDINGS }, (_, i) => `coil.windings.${i}.sense`),
  ].flatMap((path) => aliasesOf(path).map((alias): [string, string] => [alias, path])),
);

/** How an input is called in a study's text: the short form of layer 0. */
export function shortPath(path: string): string {
  return path.replace(LAYER_0, 'plate.');
}

/** Column name of a choice, as `InputSpec.name` is of a number. */
export function choiceName(path: string): string {
  return shortPath(path).replaceAll('.', '_');
}

/** The drive stands beside the rig, not in it. */
export function isDrive(path: string): boolean {
  return path.startsWith('drive.');
}

/** Parts of the file where a value for this input may stand, likeliest first. */
export function placesOf(path: string): readonly (readonly string[])[] {
  const segments = path.split('.');
  if (isDrive(path)) return [segments];
  const below = [['rig', ...segments]];
  if (path.startsWith(LAYER_0)) below.push(['rig', ...shortPath(path).split('.')]);
  if (path === 'standoff') below.unshift(['rig', 'standoff', 'thickness']);
  if (/^coil\.(windings\.\d\.)?strands$/.test(path)) below.unshift(['rig', ...segments, 'count']);
  if (/^coil\.(windings\.\d\.)?wire$/.test(path)) {
    below.push(['rig', ...segments.slice(0, -1), 'strands', 'diameter']);
  }
  if (path.startsWith('coil.insulation.')) below.unshift(['rig', 'coil', 'insulation']);
  return below;
}
