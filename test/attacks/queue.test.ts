import { rmSync } from 'node:fs';
import { createServer, connect as dial, type Server, type Socket } from 'node:net';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { Queue, Worker } from 'bullmq';
import type { Redis } from 'ioredis';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { createRandom } from '../../src/math/random.ts';
import { Q } from '../../src/model/quantities.ts';
import type { RowBatch } from '../../src/model/rows.ts';
import { REASON, STATUS } from '../../src/model/status.ts';
import { keyTypes } from '../../src/queue/keys.ts';
import { toFields } from '../../src/queue/result.ts';
import { sealWork } from '../../src/queue/work-message.ts';
import { createEvaluator } from '../../src/rig/evaluate.ts';
import { scratchFolder } from '../support/cli.ts';
import { nightly } from '../support/nightly.ts';
import {
  clientOf,
  closeClients,
  coordinate,
  createClock,
  keysLeft,
  packingOf,
  stampFor,
  studyOf,
  undisturbedRows,
  until,
  work,
} from '../support/queue-scene.ts';
import { NO_REDIS, type RedisServer, redisServer } from '../support/redis.ts';

/**
 * What has been tried to make a queue give a wrong table, wait for ever or leave something behind. Past 300 lines: the
 * scenes share one Redis and one set of rows to compare with. Each scene has a database of its own.
 */

const folder = scratchFolder();
const SECRET = 'a secret of the workshop';
const LONG = 600_000;
/** The long form. */
const atNight = it.runIf(nightly);
let redis: RedisServer;
const servers: RedisServer[] = [];

const study = studyOf('Attacked');
let wanted: RowBatch[];
let databases = 0;

/** A database that nothing else is in. */
async function place(): Promise<{ url: string; client: Redis }> {
  const url = `${redis.url}/${databases++}`;
  return { url, client: clientOf(url) };
}

/** Another Redis, to be killed. */
async function ownRedis(): Promise<RedisServer> {
  const mine = await redisServer(join(folder, `own-${servers.length}`), null, false);
  servers.push(mine);
  return mine;
}

/** What comes after everybody has left, an impostor's last command, the next worker clears away. */
async function nothingLeft(client: Redis): Promise<void> {
  const { host, port, db } = client.options;
  const worker = work({ url: `redis://${host}:${port}/${db}`, study, pace: { sweep: 50 } });
  await until(
    'no key is left',
    async () => (await keysLeft(client)).length === 0,
    async () => `${await keysLeft(client)}`,
  );
  await worker.stop();
}

/** Takes work as BullMQ hands it out and does with it what an honest worker does not. */
function impostor(client: Redis, act: (number: number) => Promise<unknown>, options = {}): Worker {
  const { host, port, db } = client.options;
  const worker = new Worker(stampFor(study), async (job) => act(Number(job.id!.replace('batch-', ''))), {
    connection: { host: host!, port: port!, db: db!, maxRetriesPerRequest: null },
    prefix: 'eddylift',
    lockDuration: 600,
    name: 'impostor:1',
    ...options,
  });
  worker.on('error', () => {});
  return worker;
}

function announced(client: Redis): Promise<void> {
  return until(
    'a study is announced',
    async () => (await client.exists(`eddylift-study:${stampFor(study)}`)) === 1,
  );
}

/** Makes what is forged of honest rows. */
const FORGERIES: Record<string, [change: (rows: RowBatch) => RowBatch, said: RegExp]> = {
  'heights times ten': [
    (rows) => ({
      ...rows,
      quantities: rows.quantities.map((value, i) =>
        Math.floor(i / rows.count) === Q.height ? 10 * value : value,
      ),
    }),
    /^worker liar:1 computes something else than this machine: of batch \d+, row \d+ has height \S+ instead of \S+; its work is done again, and nothing more of it is taken/,
  ],
  'nothing that lifts': [
    (rows) => ({
      ...rows,
      status: rows.status.map(() => STATUS.lifts),
      reason: rows.reason.map(() => REASON.none),
      quantities: rows.quantities.map(() => Number.NaN),
    }),
    /^batch \d+ came back wrong \(its row 0 lifts without wire_length\); it is done again$/,
  ],
  'all failed': [
    (rows) => ({
      ...rows,
      status: rows.status.map(() => STATUS.failed),
      reason: rows.reason.map(() => REASON.threw),
      feasible: rows.feasible.map(() => 0),
      unmet: rows.unmet.map(() => 0),
      violation: rows.violation.map(() => Number.POSITIVE_INFINITY),
    }),
    /^worker liar:1 computes something else than this machine: of batch \d+, row \d+ has status 4 instead of /,
  ],
  'objectives off by one bit': [
    (rows) => ({ ...rows, objectives: rows.objectives.map((value) => value * (1 + Number.EPSILON)) }),
    /^worker liar:1 computes something else than this machine: of batch \d+, row \d+ has objectives column \d/,
  ],
};

describe.skipIf(NO_REDIS !== null)(
  `the queue, attacked${NO_REDIS === null ? '' : `: left out, ${NO_REDIS}`}`,
  () => {
    beforeAll(async () => {
      redis = await redisServer(join(folder, 'shared'), null, false, ['--databases', '64']);
      wanted = await undisturbedRows(study);
    });
    afterAll(async () => {
      closeClients();
      for (const server of [redis, ...servers]) await server.kill();
      rmSync(folder, { recursive: true, force: true });
    });

    describe.concurrent('by workers', () => {
      it(
        'not at all: three workers bring the rows of one machine, and no key is left',
        async ({ expect }) => {
          const { url, client } = await place();
          // who stands still for a moment keeps its claims
          const pace = { claim: 60_000 };
          const workers = ['a:1', 'b:1', 'c:1'].map((id) => work({ url, study, id, pace }));
          const run = coordinate({ url, study, pace });
          expect((await run.done).rows).toEqual(wanted);
          expect(run.local).toBe(0);
          await nothingLeft(client);
          await Promise.all(workers.map((worker) => worker.stop()));
          await nothingLeft(client);
        },
        LONG,
      );

      it.each(Object.entries(FORGERIES).slice(0, nightly ? 4 : 2))(
        'that send %s: named, and done by others',
        async (_, [change, said]) => {
          const { url, client } = await place();
          const liar = work({ url, study, id: 'liar:1', change });
          const run = coordinate({ url, study });
          await until('the liar is found out', () => run.lines.some((line) => said.test(line)));
          const honest = work({ url, study, id: 'honest:1' });
          expect((await run.done).rows).toEqual(wanted);
          await Promise.all([liar.stop(), honest.stop()]);
          if (said.source.startsWith('^worker')) {
            // nothing of it is taken any more, and it is told
            expect(run.lines.filter((line) => line.includes('liar:1'))).toHaveLength(1);
          }
          await nothingLeft(client);
        },
        LONG,
      );

      it(
        'without the secret, with right checksums: nothing of theirs is taken',
        async ({ expect }) => {
          const { url, client } = await place();
          const run = coordinate({ url, study, secret: SECRET });
          await announced(client);
          const evaluate = createEvaluator(study);
          const packing = packingOf(study, null);
          const sent: number[] = [];
          const liar = impostor(client, async (number) => {
            const rows = evaluate({ first: 0, count: 1, values: wanted[0]!.values.slice(0, 3) });
            const fields = toFields({ rows: wanted[number] ?? rows }, number, null, 'liar:1', packing);
            await client.hset(`eddylift-result:${run.stamp}:${number}`, { ...fields });
            sent.push(number);
          });
          await until('it has sent five', () => sent.length >= 5);
          const honest = work({ url, study, secret: SECRET, id: 'honest:1' });
          expect((await run.done).rows).toEqual(wanted);
          expect(run.lines.some((line) => line.includes('came back wrong (it is not signed)'))).toBe(true);
          await Promise.all([liar.close(), honest.stop()]);
          await nothingLeft(client);
        },
        LONG,
      );

      it(
        'with another secret, or none: they take no part, and both sides say so',
        async ({ expect }) => {
          const { url } = await place();
          const run = coordinate({ url, study, secret: SECRET });
          const other = work({ url, study, secret: 'a secret of another lab', id: 'other:1' });
          const none = work({ url, study, id: 'none:1' });
          for (const words of [
            'other:1 cannot help: it has no part in this study: it is signed with another secret',
            'none:1 cannot help: it has no part in this study: it is signed, and there is no secret here',
          ]) {
            await until(words, () => run.lines.some((line) => line.includes(words)));
          }
          expect(run.lines.some((line) => line.includes('not signed'))).toBe(false);
          const right = work({ url, study, secret: SECRET, id: 'right:1' });
          expect((await run.done).rows).toEqual(wanted);
          expect([...other.lines, ...none.lines].filter((line) => line.includes('taking work'))).toEqual([]);
          await Promise.all([other.stop(), none.stop(), right.stop()]);
          const bare = coordinate({ url, study });
          const signing = work({ url, study, secret: SECRET, id: 'signing:1' });
          await until('it refuses what is not signed', () =>
            bare.lines.some((line) =>
              line.includes('signing:1 cannot help: it has no part in this study: it is not signed'),
            ),
          );
          expect(bare.lines[0]).toMatch(/^results are not signed: /);
          bare.stop();
          await bare.done;
          await signing.stop();
        },
        LONG,
      );

      it(
        'that hold work and never bring it, beside an honest one: done here, and said',
        async ({ expect }) => {
          const { url, client } = await place();
          const clock = createClock();
          const run = coordinate({ url, study, clock });
          await announced(client);
          let claimed = 0;
          const hoarder = impostor(
            client,
            () => {
              claimed++;
              // its claim is renewed for ever
              return new Promise(() => {});
            },
            { concurrency: 3, lockDuration: 60_000 },
          );
          await until('three are held', () => claimed === 3);
          const honest = work({ url, study, id: 'honest:1' });
          // how long that took is measured before the clock goes faster
          await until('all else has come back', async () => {
            const queued = await client.llen(`eddylift:${run.stamp}:wait`);
            return queued === 0 && (await client.llen(`eddylift:${run.stamp}:active`)) === 3;
          });
          const timer = setInterval(() => clock.advance(5000), 100);
          expect((await run.done).rows).toEqual(wanted);
          clearInterval(timer);
          expect(run.local).toBeGreaterThan(0);
          expect(
            run.lines.some((line) =>
              /^batch \d+ has been with worker impostor:1 for .* without a result; it is done here$/.test(
                line,
              ),
            ),
          ).toBe(true);
          await Promise.all([hoarder.close(true), honest.stop()]);
          await nothingLeft(client);
        },
        LONG,
      );

      it(
        'that hold all of it: a line a minute, then threads of this machine',
        async ({ expect }) => {
          const { url, client } = await place();
          const clock = createClock();
          const run = coordinate({ url, study, clock });
          await announced(client);
          await client.zadd(
            `eddylift-workers:${run.stamp}`,
            Math.floor(Date.now() / 1000) + 600,
            '4 impostor:1',
          );
          const hoarder = impostor(client, () => new Promise(() => {}), {
            concurrency: 100,
            lockDuration: 60_000,
          });
          await waitInVain(run);
          expect((await run.done).rows).toEqual(wanted);
          expect(run.lines.find((line) => line.startsWith('waiting for 3 min: '))).toBe(
            'waiting for 3 min: one worker is at the queue and no result comes back; after 10 min this machine goes on by itself (--queue-timeout)',
          );
          expect(run.lines.at(-1)).toBe(
            'nothing came back for 10 min: one worker is at the queue and no result comes back; this machine goes on by itself with 2 threads, and leaves the queue alone',
          );
          await hoarder.close(true);
          await nothingLeft(client);
        },
        LONG,
      );

      atNight(
        'that are killed with claims: others have them after the claims end',
        async ({ expect }) => {
          const { url, client } = await place();
          const run = coordinate({ url, study });
          await announced(client);
          let claimed = 0;
          const dying = impostor(client, () => {
            claimed++;
            return new Promise(() => {});
          });
          await until('one is claimed', () => claimed === 1);
          await dying.close(true);
          const honest = work({ url, study, id: 'honest:1' });
          expect((await run.done).rows).toEqual(wanted);
          expect(run.local).toBe(0);
          await honest.stop();
          await nothingLeft(client);
        },
        LONG,
      );

      it(
        'that never come: a line a minute, then threads of this machine',
        async ({ expect }) => {
          const { url, client } = await place();
          const run = coordinate({ url, study });
          await waitInVain(run);
          expect((await run.done).rows).toEqual(wanted);
          expect(run.lines.filter((line) => line.startsWith('waiting for '))).toHaveLength(9);
          expect(run.lines.at(-1)).toContain(
            'nothing came back for 10 min: no worker is at the queue; this machine goes on by itself',
          );
          await nothingLeft(client);
        },
        LONG,
      );
    });

    /** Ten minutes in tenths of a second. */
    async function waitInVain(run: ReturnType<typeof coordinate>): Promise<void> {
      const timer = setInterval(() => run.clock.advance(20_000), 100);
      await until('this machine goes on by itself', () =>
        run.lines.some((line) => line.includes('goes on by itself with')),
      );
      clearInterval(timer);
    }

    describe.concurrent('by the line', () => {
      it(
        'that dies for good: a line a minute, then threads of this machine',
        async ({ expect }) => {
          const mine = await ownRedis();
          const run = coordinate({ url: mine.url, study });
          await announced(clientOf(mine.url));
          await mine.kill();
          await until('it is noticed', () => run.lines.some((line) => line.startsWith('lost the queue')));
          await waitInVain(run);
          expect((await run.done).rows).toEqual(wanted);
          const said = run.lines.filter((line) => /^(lost|waiting|nothing came)/.test(line));
          expect(said[0]).toMatch(
            /^lost the queue at redis:\S+ \((nothing listens there|it hangs up.*)\); trying again$/,
          );
          expect(said[1]).toMatch(
            /^waiting for 1 min: the queue at redis:\S+ does not answer \(.+\); after 10 min this machine goes on by itself \(--queue-timeout\)$/,
          );
          expect(said).toHaveLength(11);
        },
        LONG,
      );

      atNight(
        'that comes back: nothing is lost but time',
        async ({ expect }) => {
          const mine = await ownRedis();
          const worker = work({ url: mine.url, study });
          const run = coordinate({ url: mine.url, study });
          await announced(clientOf(mine.url));
          await mine.kill();
          await pause(300);
          await mine.start();
          expect((await run.done).rows).toEqual(wanted);
          expect(run.local).toBe(0);
          await worker.stop();
        },
        LONG,
      );

      atNight(
        'that is not there for a later study of the same command: waited for, or left alone at once',
        async ({ expect }) => {
          const url = 'redis://127.0.0.1:1';
          const waiting = coordinate({ url, study, remote: { atStart: 'wait' } });
          await waitInVain(waiting);
          expect((await waiting.done).rows).toEqual(wanted);
          const alone = coordinate({ url, study, remote: { atStart: 'go on alone' } });
          expect((await alone.done).rows).toEqual(wanted);
          expect(alone.lines).toEqual([
            `cannot use the queue at ${url}: nothing listens there; this machine goes on by itself with 2 threads, and leaves the queue alone`,
          ]);
          const first = coordinate({ url, study });
          await expect(first.done).rejects.toThrow(`cannot use the queue at ${url}: nothing listens there`);
        },
        LONG,
      );

      it(
        'that swallows bytes: noticed, made again, and where that fails done here',
        async ({ expect }) => {
          const { url } = await place();
          const proxy = await swallower(redis.port);
          const through = url.replace(`:${redis.port}`, `:${proxy.port}`);
          const run = coordinate({ url: through, study, pace: { silence: 700 } });
          await until(
            'work is out',
            async () => (await clientOf(url).exists(`eddylift-study:${run.stamp}`)) === 1,
          );
          proxy.swallow(true);
          // a busy machine may have lost it before, and had it back
          await until('it is noticed', () => (run.lines.at(-1) ?? '').startsWith('lost the queue'));
          expect(run.lines.at(-1)).toMatch(/^lost the queue at \S+ \(no answer\); trying again$/);
          await waitInVain(run);
          expect((await run.done).rows).toEqual(wanted);
          proxy.close();
          const deaf = await swallower(redis.port);
          deaf.swallow(true);
          const pace = { firstConnection: 700 };
          const refused = coordinate({ url: url.replace(`:${redis.port}`, `:${deaf.port}`), study, pace });
          await expect(refused.done).rejects.toThrow(/cannot use the queue at \S+: no answer/);
          deaf.close();
        },
        LONG,
      );

      atNight(
        'that swallows bytes for a while',
        async ({ expect }) => {
          const { url, client } = await place();
          const proxy = await swallower(redis.port);
          const through = url.replace(`:${redis.port}`, `:${proxy.port}`);
          const run = coordinate({ url: through, study, pace: { silence: 1500 } });
          await announced(client);
          proxy.swallow(true);
          await until('it is noticed', () => (run.lines.at(-1) ?? '').startsWith('lost the queue'));
          proxy.swallow(false);
          const worker = work({ url, study });
          expect((await run.done).rows).toEqual(wanted);
          expect(run.local).toBe(0);
          await worker.stop();
          proxy.close();
        },
        LONG,
      );
    });

    describe.concurrent('by what is kept in Redis', () => {
      const types = keyTypes(stampFor(study));
      it.each(nightly ? types : types.filter((_, i) => i % 5 === 0))(
        'something else under %s: one line',
        async (key, type) => {
          const { url, client } = await place();
          await (type === 'string' ? client.rpush(key, 'x') : client.set(key, 'x'));
          const run = coordinate({ url, study });
          const refusal = await run.done.then(
            () => '',
            (error: Error) => `${error.name}: ${error.message}`,
          );
          expect(refusal).toBe(
            `UsageError: cannot use the queue at ${url}: its key ${key} holds a ${type === 'string' ? 'list' : 'string'}, which is not ours; remove it (redis-cli DEL ${key}) or use another database (redis://HOST:PORT/1)`,
          );
          client.disconnect();
        },
        LONG,
      );

      it(
        'a wrong type in the middle of a run: the queue is made anew',
        async ({ expect }) => {
          const { url, client } = await place();
          const run = coordinate({ url, study });
          await announced(client);
          await until('work is out', async () => (await client.llen(`eddylift:${run.stamp}:wait`)) > 3);
          await client
            .multi()
            .del(`eddylift:${run.stamp}:wait`)
            .set(`eddylift:${run.stamp}:wait`, 'x')
            .exec();
          await until('it is said', () => run.lines.some((line) => line.includes('it is made anew')));
          const worker = work({ url, study });
          expect((await run.done).rows).toEqual(wanted);
          await worker.stop();
          expect(run.lines.filter((line) => line.includes('WRONGTYPE'))).toHaveLength(1);
          await nothingLeft(client);
        },
        LONG,
      );

      it(
        'an eviction policy: said, and what is dropped is handed out again',
        async ({ expect }) => {
          const mine = await ownRedis();
          const client = clientOf(mine.url);
          await client.config('SET', 'maxmemory-policy', 'allkeys-lru');
          const run = coordinate({ url: mine.url, study });
          await announced(client);
          const random = createRandom(20261130, 1);
          // as if its memory were full: whatever comes first goes
          for (let n = 0; n < 12; n++) {
            const keys = (await client.keys('eddylift*')).sort();
            if (keys.length > 0) await client.del(keys[random.below(keys.length)]!);
            await pause(20);
          }
          const worker = work({ url: mine.url, study });
          expect((await run.done).rows).toEqual(wanted);
          await worker.stop();
          expect(run.lines[0]).toBe(
            `the queue at ${mine.url} may drop work when its memory is full (maxmemory-policy allkeys-lru): set it to noeviction; what is dropped is handed out again`,
          );
        },
        LONG,
      );

      it(
        'jobs of others under the names of ours, delayed, endless, without sense: done all the same, no key left',
        async ({ expect }) => {
          const { url, client } = await place();
          const { host, port, db } = client.options;
          const queue = new Queue(stampFor(study), {
            connection: { host: host!, port: port!, db: db! },
            prefix: 'eddylift',
          });
          const nonsense = [
            null,
            'x',
            { work: '{', signature: '' },
            { work: JSON.stringify({ first: 0, count: 1e9, values: '' }), signature: '' },
            sealWork(
              { first: 0, count: 1, values: Float64Array.of(0.001, 300, 0.04) },
              3,
              stampFor(study),
              packingOf(study, null).signer,
              false,
            ),
            { work: JSON.stringify({ first: 299, count: 5 }), signature: '' },
          ];
          const random = createRandom(20261130, 2);
          for (let number = 0; number < 12; number++) {
            await queue.add('work', nonsense[random.below(nonsense.length)], {
              jobId: `batch-${number}`,
              ...(number % 3 === 0 && { delay: 3_600_000 }),
              ...(number % 3 === 1 && { priority: 5, attempts: 50 }),
            });
          }
          await queue.add(
            'odd',
            { a: 1 },
            { jobId: 'no batch', delay: 3_600_000, deduplication: { id: 'd' } },
          );
          await queue.upsertJobScheduler('again and again', { every: 3_600_000 }, { name: 'x', data: 1 });
          await queue.pause();
          await queue.close();
          const worker = work({ url, study });
          const run = coordinate({ url, study });
          expect((await run.done).rows).toEqual(wanted);
          await worker.stop();
          await nothingLeft(client);
        },
        LONG,
      );

      it(
        'jobs that are forged where work is signed: nobody computes them, no key left',
        async ({ expect }) => {
          const { url, client } = await place();
          const run = coordinate({ url, study, secret: SECRET });
          await announced(client);
          const { host, port, db } = client.options;
          const queue = new Queue(run.stamp, {
            connection: { host: host!, port: port!, db: db! },
            prefix: 'eddylift',
          });
          const forged = sealWork(
            { first: 0, count: 1, values: Float64Array.of(0.001, 300, 0.04) },
            777_777,
            run.stamp,
            packingOf(study, 'a secret of another lab').signer,
            false,
          );
          await queue.add('work', forged, { jobId: 'batch-777777' });
          const worker = work({ url, study, secret: SECRET });
          await until(
            'it was refused',
            async () =>
              (await queue.getJob('batch-777777'))?.failedReason === 'no work for this study' ||
              run.stamp === '' ||
              (await client.exists(`eddylift-study:${run.stamp}`)) === 0,
          );
          expect((await run.done).rows).toEqual(wanted);
          expect(await client.exists(`eddylift-result:${run.stamp}:777777`)).toBe(0);
          await queue.close();
          await nothingLeft(client);
          await worker.stop();
        },
        LONG,
      );

      atNight(
        'rubbish under the names of results',
        async ({ expect }) => {
          const { url, client } = await place();
          const run = coordinate({ url, study });
          const random = createRandom(20261130, 3);
          for (let number = 0; number < 19; number++) {
            const key = `eddylift-result:${run.stamp}:${number}`;
            const kind = random.below(4);
            if (kind === 0) await client.set(key, 'x');
            else if (kind === 1) await client.rpush(key, 'x');
            else if (kind === 2)
              await client.hset(key, { bytes: 'x', checksum: 'y', note: '{', signature: '' });
            else
              await client.hset(key, {
                bytes: 'x',
                checksum: 'y',
                note: JSON.stringify({ count: 16, worker: '\u001b[2Jb' }),
                signature: '',
              });
          }
          const worker = work({ url, study });
          expect((await run.done).rows).toEqual(wanted);
          expect(run.lines.join('')).not.toContain('\u001b');
          await worker.stop();
          await nothingLeft(client);
        },
        LONG,
      );

      it(
        'announcements that are none, of other studies, or under wrong types: named once, ours goes on',
        async ({ expect }) => {
          const { url, client } = await place();
          const stamps = ['a', 'b', 'c', 'd'].map((letter) => letter.repeat(32));
          for (const stamp of stamps) await client.sadd('eddylift-studies', stamp);
          await client.sadd('eddylift-studies', 'no stamp', '../../etc', '\u001b[2J');
          await client.hset(`eddylift-study:${stamps[0]}`, 'not', 'a text');
          await client.set(`eddylift-study:${stamps[1]}`, '{"text":1}');
          await client.set(`eddylift-study:${stamps[2]}`, 'x'.repeat(5_000_000));
          // announced by nobody: what is left of it goes
          await client.set(`eddylift:${stamps[3]}:wait`, 'x');
          const worker = work({ url, study });
          const run = coordinate({ url, study });
          expect((await run.done).rows).toEqual(wanted);
          await worker.stop();
          const said = worker.lines.filter((line) => line.startsWith('cannot serve study')).sort();
          expect(said).toEqual([
            'cannot serve study aaaaaaaa: something else is kept under a key of the queue (WRONGTYPE)',
            'cannot serve study bbbbbbbb: what is announced is no study',
            'cannot serve study cccccccc: its text is too long',
          ]);
          expect(worker.lines.join('')).not.toContain('\u001b');
          expect(await client.exists(`eddylift:${stamps[3]}:wait`)).toBe(0);
        },
        LONG,
      );

      it(
        'all that a coordinator leaves that is killed: its workers clear it away',
        async ({ expect }) => {
          const { url, client } = await place();
          const run = coordinate({ url, study });
          await announced(client);
          await until('work is out', async () => (await client.llen(`eddylift:${run.stamp}:wait`)) > 3);
          const left = await client.keys('eddylift*');
          const dump = await Promise.all(
            left.map(async (key) => [key, await client.dumpBuffer(key)] as const),
          );
          run.stop();
          await run.done;
          // as it stood when it was killed, its announcement expired
          for (const [key, bytes] of dump) {
            if (!key.startsWith('eddylift-study:')) await client.restore(key, 0, bytes, 'REPLACE');
          }
          expect((await keysLeft(client)).length).toBeGreaterThan(5);
          const worker = work({ url, study });
          await nothingLeft(client);
          await worker.stop();
        },
        LONG,
      );
    });
  },
);

/** Passes bytes on to a port, or takes them and gives nothing back. */
async function swallower(to: number) {
  let deaf = false;
  const sockets = new Set<Socket>();
  const server: Server = createServer((near) => {
    const far = dial(to, '127.0.0.1');
    for (const socket of [near, far]) {
      sockets.add(socket);
      socket.on('error', () => {});
      socket.on('close', () => sockets.delete(socket));
    }
    near.on('data', (bytes) => {
      if (!deaf) far.write(bytes);
    });
    far.on('data', (bytes) => {
      if (!deaf) near.write(bytes);
    });
    near.on('close', () => far.destroy());
    far.on('close', () => near.destroy());
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  return {
    port: (server.address() as { port: number }).port,
    swallow(yes: boolean) {
      deaf = yes;
    },
    close() {
      server.close();
      for (const socket of sockets) socket.destroy();
    },
  };
}
