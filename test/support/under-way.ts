import { rmSync } from 'node:fs';
import { setTimeout as pause } from 'node:timers/promises';
import { start } from './cli.ts';
import { designsKept } from './disturbed-study.ts';

/**
 * Starts a run of so many designs and holds it (SIGSTOP) when some of them are finished and others are not. One that is through
 * before it could be held, while this process stood still, is started anew. `place`: where its result comes to be.
 */
export async function heldUnderWay(
  args: readonly string[],
  cwd: string,
  place: () => string,
  designs: number,
): Promise<ReturnType<typeof start>> {
  for (;;) {
    const run = start(args, cwd);
    let over = false;
    void run.ended.then(() => {
      over = true;
    });
    while (!over && designsKept(place()) === 0) await pause(5);
    run.child.kill('SIGSTOP');
    if (!over && designsKept(place()) < designs) return run;
    run.child.kill('SIGKILL');
    await run.ended;
    rmSync(place(), { recursive: true, force: true });
  }
}
