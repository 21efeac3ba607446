import { readFileSync } from 'node:fs';
import { UsageError } from '../errors.ts';
import { missingQueuePackages, QUEUE_PACKAGES } from '../queue/queue-packages.ts';
import { packageFile } from './version.ts';

/** Throws UsageError, which names what to install, where the packages of the queue are not there. */
export async function requireQueuePackages(
  missing: () => Promise<readonly string[]> = missingQueuePackages,
): Promise<void> {
  const absent = await missing();
  if (absent.length === 0) return;
  const { peerDependencies } = JSON.parse(readFileSync(packageFile(), 'utf8')) as {
    peerDependencies: Readonly<Record<string, string>>;
  };
  const wanted = QUEUE_PACKAGES.map((name) => `${name}@${peerDependencies[name]!.replace(/^\^/, '')}`);
  throw new UsageError(
    `a queue needs packages that are not installed (${absent.join(', ')}): npm install ${wanted.join(' ')}, with --global where Eddylift was installed so`,
  );
}
