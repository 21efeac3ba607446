import type { Study } from './study.ts';

/** More metals than these cannot be separated in a chart. */
const MOST_METALS = 6;

/**
 * The varied metal that a chart distinguishes, an index of `vary`: that of the same part as `input`, or of the coil where no
 * input is meant, else any. Null where none is varied, or too many are.
 */
export function metalBeside(vary: Study['vary'], input: number | null): number | null {
  const metals = [...vary.keys()].filter((v) => {
    const { kind, path, levels } = vary[v]!;
    return kind === 'choice' && path.endsWith('metal') && levels.length > 1 && levels.length <= MOST_METALS;
  });
  const part = input === null ? 'coil' : vary[input]!.path.split('.')[0]!;
  return metals.find((v) => vary[v]!.path.startsWith(`${part}.`)) ?? metals[0] ?? null;
}
