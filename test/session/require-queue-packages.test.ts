import { expect, it } from 'vitest';
import { requireQueuePackages } from '../../src/session/require-queue-packages.ts';

it('names what a queue needs, with the version to install', async () => {
  await expect(requireQueuePackages(async () => ['bullmq'])).rejects.toThrow(
    /^a queue needs packages that are not installed \(bullmq\): npm install bullmq@\d+\.\d+\.\d+ ioredis@\d+\.\d+\.\d+, with --global/,
  );
});

it('is silent where they are installed', async () => {
  await expect(requireQueuePackages()).resolves.toBeUndefined();
});
