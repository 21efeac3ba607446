import { setTimeout as pause } from 'node:timers/promises';
import { Redis } from 'ioredis';
import { checkConnection, createLineWatch, lasting } from './connection.ts';
import { PACE } from './pace.ts';
import type { Service } from './service.ts';
import { StudyVisits } from './study-visits.ts';

/** To give back what is under way takes less than this, ms; what is not given back stalls and goes to others. */
const LONGEST_END_MS = 1200;

/** Takes work from a queue and brings back rows, for every study that is announced there, until the signal aborts. */
export async function runQueueWorker(service: Service): Promise<void> {
  const { address, threads, signer, print, signal } = service;
  const pace = { ...PACE, ...service.pace };
  const line = createLineWatch(address, print);
  const { warning } = await checkConnection(address, null, pace);
  if (warning !== null) print(warning);
  const connection = lasting(address, pace);
  const client = new Redis(connection);
  client.on('error', line.lost);
  client.on('ready', () => line.back());
  const visits = new StudyVisits({ service, client, connection, pace });
  print(`serving ${address.shown} with ${threads} ${threads === 1 ? 'thread' : 'threads'}`);
  if (!signer.hasSecret) {
    print(
      'work and results are not signed: whoever can write to the queue can send some (EDDYLIFT_QUEUE_SECRET, see docs/many-machines.md)',
    );
  }
  const aborted = new Promise<void>((resolve) => {
    signal.addEventListener('abort', () => resolve(), { once: true });
  });
  while (!signal.aborted) {
    const looked = visits.look().then(line.back, (error) => {
      if (!signal.aborted) line.lost(error);
    });
    // where the line is lost, a look has no end
    await Promise.race([looked, aborted]);
    await pause(pace.workerLook, undefined, { signal }).catch(() => {});
  }
  await Promise.race([visits.end(), pause(LONGEST_END_MS, undefined, { ref: false })]);
  client.disconnect();
}
