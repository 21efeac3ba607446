import type { ChildProcess } from 'node:child_process';
import { cpSync, existsSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { Worker } from 'bullmq';
import { Redis } from 'ioredis';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { createRandom } from '../../src/math/random.ts';
import { CLI, cli, type Ended, scratchFolder, start } from '../support/cli.ts';
import { disturbedStudy, tableDigests } from '../support/disturbed-study.ts';
import { nightly, whole } from '../support/nightly.ts';
import { NO_REDIS, type RedisServer, redisServer } from '../support/redis.ts';
import { PROJECT } from '../support/source-files.ts';

/**
 * The command line, a real Redis and real processes. `npm test` runs what only they can show; test/attacks/queue.test.ts has
 * the attacks. Past 300 lines: every case needs the same Redis server and the same undisturbed tables to compare with.
 */

/** A fifth of the kills of `npm run test:nightly`. */
const KILLS = Math.max(8, Math.round(Number(process.env.EDDYLIFT_KILLS ?? 0) / 5));
/** The long form. */
const atNight = it.runIf(nightly);
/** A machine that is busy with something else takes minutes for what takes ten seconds. */
const LONG = 600_000;

const folder = scratchFolder();
const children = new Set<ChildProcess>();
let redis: RedisServer;

interface Process {
  readonly child: ChildProcess;
  readonly ended: Promise<Ended>;
}

function begin(args: readonly string[], cli = CLI): Process {
  const process = start(args, folder, cli);
  children.add(process.child);
  process.child.once('exit', () => children.delete(process.child));
  return process;
}

const serve = (cli = CLI) => begin(['worker', redis.url, '--threads', '1'], cli);
const run = (study: string, out: string) =>
  begin(['run', study, '--out', out, '--quiet', '--queue', redis.url, '--threads', '1']);

/** Resolves when a process has said something. */
function heard(stream: ChildProcess['stdout'], words: string): Promise<void> {
  return new Promise((resolve) => {
    stream!.on('data', (text: string) => {
      if (text.includes(words)) resolve();
    });
  });
}

/** All that a process has printed until it is ended. */
async function read({ child, ended }: Process): Promise<string> {
  child.kill('SIGTERM');
  const { out, err } = await ended;
  return out + err;
}

async function endAll(): Promise<void> {
  const gone = [...children].map((child) => new Promise((resolve) => child.once('exit', resolve)));
  for (const child of children) {
    child.kill('SIGCONT');
    child.kill('SIGKILL');
  }
  await Promise.all(gone);
}

const PLANS: Readonly<Record<string, string>> = {
  grid: '',
  ...(whole && { nelder_mead: 'plan: {nelder_mead: {starts: 8, seed: 3, levels: 3}}\n' }),
  ...(nightly && { genetic: 'plan: {genetic: {population: 60, generations: 20, seed: 3}}\n' }),
};
const undisturbed: Record<string, ReturnType<typeof tableDigests>> = {};

describe.skipIf(NO_REDIS !== null)(
  `a queue of machines${NO_REDIS === null ? '' : `: left out, ${NO_REDIS}`}`,
  () => {
    beforeAll(async () => {
      redis = await redisServer(join(folder, 'redis'));
      for (const [plan, text] of Object.entries(PLANS)) {
        writeFileSync(join(folder, `${plan}.yaml`), disturbedStudy(plan, text));
        const { code } = await cli(['run', `${plan}.yaml`, '--out', `${plan}-here`, '--quiet'], folder);
        expect(code).toBe(0);
        undisturbed[plan] = tableDigests(join(folder, `${plan}-here`));
      }
    }, LONG);
    afterEach(async () => {
      delete process.env.EDDYLIFT_QUEUE_SECRET_FILE;
      await endAll();
    });
    afterAll(async () => {
      await redis.kill();
      rmSync(folder, { recursive: true, force: true });
    });

    it(
      'with several workers and a secret gives the tables of one machine, of a grid and of searches, and leaves nothing behind',
      async () => {
        const file = join(folder, 'secret');
        writeFileSync(file, 'k3 of the foyer workshop\n', { mode: 0o600 });
        process.env.EDDYLIFT_QUEUE_SECRET_FILE = file;
        const workers = Array.from({ length: nightly ? 3 : 2 }, () => serve());
        for (const plan of Object.keys(PLANS)) {
          const { code, err } = await run(`${plan}.yaml`, plan).ended;
          // on a busy machine workers take their time
          expect(err.replace(/eddylift: (no worker is at|workers at) the queue[^\n]*\n/g, '')).toBe('');
          expect(code).toBe(0);
          expect(tableDigests(join(folder, plan))).toEqual(undisturbed[plan]);
        }
        const client = new Redis(redis.port, '127.0.0.1');
        // workers find out within a second that a study is done; on a busy machine it takes longer
        let left: string[] = [];
        for (let n = 0; n < 1200; n++) {
          left = [];
          // a result that came twice, and a look for stalled work, end by themselves
          for (const key of await client.keys('eddylift*')) {
            if ((await client.ttl(key)) === -1) left.push(key);
          }
          if (left.length === 0) break;
          await pause(250);
        }
        expect(left).toEqual([]);
        client.disconnect();
        for (const worker of workers) expect(await read(worker)).not.toMatch(/not signed|k3/);
      },
      LONG,
    );

    atNight(
      `gives them whoever is killed or held up, ${KILLS} times: coordinator, workers, and Redis, which keeps its log`,
      async () => {
        const random = createRandom(20260202, 0);
        const workers = [serve(), serve(), serve()];
        const out = 'disturbed';
        let ended: Ended | null = null;
        let coordinator: Process;
        const coordinate = () => {
          ended = null;
          const mine = run('grid.yaml', out);
          coordinator = mine;
          void mine.ended.then((end) => {
            if (coordinator === mine) ended = end;
          });
        };
        /** Whether it got through; it may have found no Redis to begin with. */
        const hasEnded = () => {
          if (ended === null) return false;
          const { code, err } = ended as Ended;
          if (code === 2) expect(err).toContain('cannot use the queue');
          else expect(code).toBe(0);
          return code === 0;
        };
        coordinate();
        // until a batch is on its way
        await pause(1200);
        for (let kill = 0; kill < KILLS; kill++) {
          if (hasEnded()) {
            expect(tableDigests(join(folder, out))).toEqual(undisturbed.grid);
            rmSync(join(folder, out), { recursive: true });
          }
          if (ended !== null) coordinate();
          const victim = random.below(6);
          if (victim < 2) {
            coordinator!.child.kill('SIGKILL');
            await coordinator!.ended;
            coordinate();
          } else if (victim < 4) {
            const which = random.below(workers.length);
            workers[which]!.child.kill('SIGKILL');
            workers[which] = serve();
          } else if (victim === 4) {
            await redis.kill();
            await pause(200 * random.unit());
            await redis.start();
          } else {
            // cut off for longer than its claim lasts: what it has goes to another, and comes twice
            const { child } = workers[random.below(workers.length)]!;
            child.kill('SIGSTOP');
            setTimeout(() => child.kill('SIGCONT'), 7000).unref();
          }
          await pause(300 + 900 * random.unit());
        }
        await coordinator!.ended;
        if (!hasEnded()) coordinate();
        await coordinator!.ended;
        expect(hasEnded()).toBe(true);
        expect(tableDigests(join(folder, out))).toEqual(undisturbed.grid);
      },
      LONG + KILLS * 10_000,
    );

    atNight(
      'believes no result that is not what was asked for, and has it done again',
      async () => {
        const { ended } = run('grid.yaml', 'doubtful');
        const client = new Redis(redis.port, '127.0.0.1');
        let stamp = '';
        while (stamp === '') {
          [stamp = ''] = await client.smembers('eddylift-studies');
          await pause(20);
        }
        const nonsense = [
          {},
          { bytes: 'x', checksum: 'y', note: '{' },
          { bytes: 'x', checksum: 'y', note: JSON.stringify({ count: 1, worker: 'a' }) },
          { bytes: 'x', checksum: 'y', note: JSON.stringify({ count: 227, worker: '\u001b[2Jb' }) },
        ];
        let lies = 0;
        const liar = new Worker(
          stamp,
          async (job) => {
            const lie = nonsense[lies++]!;
            const key = `eddylift-result:${stamp}:${job.id!.replace('batch-', '')}`;
            if (Object.keys(lie).length > 0) await client.hset(key, lie);
            if (lies === nonsense.length) void liar.close();
          },
          {
            connection: { port: redis.port, host: '127.0.0.1', maxRetriesPerRequest: null },
            prefix: 'eddylift',
          },
        );
        liar.on('error', () => {});
        while (lies < nonsense.length) await pause(20);
        serve();
        const { code, err } = await ended;
        expect(err).toMatch(/batch \d+ came back wrong \(it is incomplete\); it is done again/);
        expect(err).toMatch(/batch \d+ came back wrong \(it has 1 rows\); it is done again/);
        expect(err).toMatch(/batch \d+ came back wrong \(its checksum does not fit\); it is done again/);
        expect(err).not.toContain('\u001b');
        expect(code).toBe(0);
        expect(tableDigests(join(folder, 'doubtful'))).toEqual(undisturbed.grid);
        client.disconnect();
      },
      LONG,
    );

    atNight(
      'refuses a worker with another version of the physics, and tells both ends what differs',
      async () => {
        const other = mkdtempSync(join(PROJECT, 'other-version-'));
        try {
          cpSync(join(PROJECT, 'dist'), join(other, 'dist'), { recursive: true });
          cpSync(join(PROJECT, 'package.json'), join(other, 'package.json'));
          const law = readdirSync(join(other, 'dist/src/kernel')).find((name) => name.endsWith('.js'))!;
          writeFileSync(join(other, 'dist/src/kernel', law), '// another law\n', { flag: 'a' });
          const stranger = serve(join(other, 'dist/src/cli.js'));
          const coordinator = run('grid.yaml', 'with-a-stranger');
          await heard(coordinator.child.stderr, 'cannot help');
          coordinator.child.kill('SIGINT');
          await coordinator.ended;
          // whoever asks again is told again
          const again = run('grid.yaml', 'with-a-stranger');
          await heard(again.child.stderr, 'cannot help');
          serve();
          const { code, err } = await again.ended;
          expect(err).toMatch(/worker \S+:\d+ cannot help: it has another version of the physics \(/);
          expect(code).toBe(0);
          expect(tableDigests(join(folder, 'with-a-stranger'))).toEqual(undisturbed.grid);
          stranger.child.kill('SIGTERM');
          const { out, code: end } = await stranger.ended;
          expect(out).toMatch(
            /cannot serve study [0-9a-f]{8}: this worker has another version of the physics/,
          );
          expect(out).not.toContain('taking work');
          expect(end).toBe(0);
        } finally {
          rmSync(other, { recursive: true });
        }
      },
      LONG,
    );

    atNight(
      'goes on whatever others have put under the names of a study or a result, or taken away',
      async () => {
        const client = new Redis(redis.port, '127.0.0.1');
        const other = '0123456789abcdef'.repeat(2);
        await client.sadd('eddylift-studies', other);
        await client.hset(`eddylift-study:${other}`, 'not', 'a text');
        const { ended } = run('grid.yaml', 'strange');
        let stamp: string | undefined;
        while (stamp === undefined) {
          stamp = (await client.smembers('eddylift-studies')).find((found) => found !== other);
          await pause(20);
        }
        await client.set(`eddylift-result:${stamp}:2`, 'not a result');
        // as a worker does that clears away what an earlier run of the study has left, and is cut off
        await client.srem('eddylift-studies', stamp);
        await client.hset(`eddylift:${stamp}:meta`, 'paused', 1);
        const worker = serve();
        const { code } = await ended;
        expect(code).toBe(0);
        expect(tableDigests(join(folder, 'strange'))).toEqual(undisturbed.grid);
        await client.srem('eddylift-studies', other);
        await client.del(`eddylift-study:${other}`);
        client.disconnect();
        worker.child.kill('SIGTERM');
        const { out } = await worker.ended;
        expect(
          out.match(/cannot serve study 01234567: something else is kept under a key of the queue/g),
        ).toHaveLength(1);
      },
      LONG,
    );

    atNight(
      'says once that Redis is gone and once that it is back, nothing of claims that went to others, and ends without it',
      async () => {
        const mine = await redisServer(join(folder, 'mine'));
        const worker = begin(['worker', mine.url, '--threads', '1']);
        const coordinator = begin(['run', 'grid.yaml', '--out', 'held-up', '--quiet', '--queue', mine.url]);
        try {
          const client = new Redis(mine.port, '127.0.0.1');
          const claims = async () => {
            const [stamp] = await client.smembers('eddylift-studies');
            return client.llen(`eddylift:${stamp}:active`);
          };
          for (;;) {
            if ((await claims()) > 0) {
              worker.child.kill('SIGSTOP');
              // it may just have been done
              if ((await claims()) > 0) break;
              worker.child.kill('SIGCONT');
            }
            await pause(5);
          }
          client.disconnect();
          // longer than a claim lasts
          await pause(7000);
          worker.child.kill('SIGCONT');
          const { code, err } = await coordinator.ended;
          expect(code).toBe(0);
          expect(err).not.toContain('lost the queue');
          await mine.kill();
          await pause(500);
          await mine.start();
          await pause(2500);
          await mine.kill();
          await pause(500);
          worker.child.kill('SIGINT');
          const { code: end, out } = await worker.ended;
          const told = out
            .split('\n')
            .flatMap((line) => /(lost the queue|the queue .* is back)/.exec(line)?.[0] ?? []);
          expect(told).toEqual(['lost the queue', `the queue at ${mine.url} is back`, 'lost the queue']);
          expect(end).toBe(0);
        } finally {
          await mine.kill();
        }
      },
      LONG,
    );

    // its attack beside it, in one process, runs always
    it.runIf(whole)(
      'that dies for good: the run goes on by itself, quiet as it is, to the same bytes',
      async () => {
        const mine = await redisServer(join(folder, 'dying'));
        const args = ['run', 'grid.yaml', '--out', 'orphaned', '--quiet', '--threads', '1'];
        // time enough to kill it before the run gives it up, on a machine that stands still
        const { child, ended } = begin([...args, '--queue', mine.url, '--queue-timeout', '15 s']);
        await heard(child.stderr, 'no worker is at the queue');
        await mine.kill();
        const { code, err } = await ended;
        expect(err).toMatch(/eddylift: lost the queue at \S+ \(.+\); trying again\n/);
        expect(err).toMatch(
          /eddylift: nothing came back for 15 s: .+; this machine goes on by itself with one thread, and leaves the queue alone\n$/,
        );
        expect(code).toBe(0);
        expect(tableDigests(join(folder, 'orphaned'))).toEqual(undisturbed.grid);
      },
    );

    atNight('asks for a password and never tells it', async () => {
      const guarded = await redisServer(join(folder, 'guarded'), 'open sesame');
      try {
        const address = guarded.url;
        const wrong = address.replace('//', '//:guess-me@');
        for (const [queue, why] of [
          [address, 'it requires a password: give it in EDDYLIFT_QUEUE_PASSWORD'],
          [wrong, 'user name or password are wrong'],
        ] as const) {
          for (const command of [
            ['run', 'grid.yaml', '--out', 'never', '--queue', queue],
            ['worker', queue],
          ]) {
            const { code, out, err } = await cli(command, folder);
            expect(err.trimEnd().split('\n').at(-1)).toBe(
              `eddylift: cannot use the queue at ${address}: ${why}`,
            );
            expect(code).toBe(2);
            expect(out + err).not.toContain('guess-me');
          }
        }
        process.env.EDDYLIFT_QUEUE_PASSWORD = 'open sesame';
        const worker = begin(['worker', address, '--threads', '1']);
        await heard(worker.child.stdout, 'serving');
        worker.child.kill('SIGINT');
        const { code, out } = await worker.ended;
        expect(out).toContain(`serving ${address} with 1 thread`);
        expect(out).not.toContain('sesame');
        expect(code).toBe(0);
      } finally {
        delete process.env.EDDYLIFT_QUEUE_PASSWORD;
        await guarded.kill();
      }
    });

    atNight(
      'says at once when nothing is there, and for an interrupted run that the same command continues',
      async () => {
        const nowhere = await cli(
          ['run', 'grid.yaml', '--out', 'nowhere', '--queue', 'redis://127.0.0.1:1'],
          folder,
        );
        expect(nowhere.err).toBe(
          'eddylift: cannot use the queue at redis://127.0.0.1:1: nothing listens there\n',
        );
        expect(nowhere.code).toBe(2);
        const none = await cli(['run', 'grid.yaml', '--out', 'none', '--queue', 'lab:6379'], folder);
        expect(none.out + none.err).toBe(
          'eddylift: the address of the queue begins with lab://; wanted redis://HOST:PORT, or rediss://HOST:PORT for TLS\n',
        );
        expect(none.code).toBe(2);
        expect(existsSync(join(folder, 'none'))).toBe(false);
        const waiting = run('grid.yaml', 'waiting');
        await heard(waiting.child.stderr, 'no worker is at the queue');
        waiting.child.kill('SIGINT');
        const { code, err } = await waiting.ended;
        expect(err).toContain(
          'no worker is at the queue; start one with: eddylift worker redis://127.0.0.1:',
        );
        expect(err).toContain('the same command continues');
        expect(code).toBe(130);
      },
    );
  },
);
