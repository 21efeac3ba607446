/** The packages that speak to a queue; not everybody has a queue, so they are installed by those who do. */
export const QUEUE_PACKAGES = ['bullmq', 'ioredis'] as const;

/** Those of them that are not installed. */
export async function missingQueuePackages(): Promise<string[]> {
  const loads = [() => import('bullmq'), () => import('ioredis')];
  const missing = await Promise.all(loads.map(isMissing));
  return QUEUE_PACKAGES.filter((_, i) => missing[i]);
}

async function isMissing(load: () => Promise<unknown>): Promise<boolean> {
  try {
    await load();
    return false;
  } catch (error) {
    // one that is there and broken reports it itself
    if ((error as NodeJS.ErrnoException).code !== 'ERR_MODULE_NOT_FOUND') throw error;
    return true;
  }
}
