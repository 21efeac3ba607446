/** Put in by the build where the program is bundled: then all its files lie in one folder. */
declare const IS_BUNDLED: boolean | undefined;

/** Where a file of `workers/` is in the built program. */
export function workerFile(name: string): URL {
  const folder = typeof IS_BUNDLED === 'undefined' ? '../../workers/' : './';
  return new URL(`${folder}${name}`, import.meta.url);
}
