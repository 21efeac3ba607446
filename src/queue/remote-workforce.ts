import type { Workforce } from '../run/workforce.ts';
import { Coordinator } from './coordinator.ts';
import type { RemoteWorkforce } from './remote-settings.ts';

/** Pieces of work under way: a few a thread of the workers, ... */
const AHEAD_PER_THREAD = 6;
const FEWEST_AHEAD = 8;
const MOST_AHEAD = 1024;
/** ... and no more rows than these, some 150 MB, here and in Redis. */
const MOST_ROWS = 2 ** 18;
const FEWEST_AT_ANY_SIZE = 16;

/**
 * Workers at a queue. What is under way is known here alone, piece by piece: whatever becomes of queue and workers, a
 * piece is handed out until it has come back, and counts once. When nothing comes back any more, threads of this
 * machine do it all.
 */
export function createRemoteWorkforce(remote: RemoteWorkforce): Workforce {
  const coordinator = new Coordinator(remote);
  const { local, census } = coordinator;
  let rows = 1;
  return {
    ready: () => coordinator.begin(),
    get ahead() {
      if (local.all) return local.all.ahead;
      const wanted = Math.min(MOST_AHEAD, Math.max(FEWEST_AHEAD, AHEAD_PER_THREAD * census.threads));
      return Math.min(wanted, Math.max(FEWEST_AT_ANY_SIZE, Math.floor(MOST_ROWS / rows)));
    },
    do(number, work) {
      rows = 'from' in work ? work.settings.evaluations : work.count;
      return new Promise((resolve, reject) => {
        coordinator.add({
          ...{ number, work, resolve, reject, since: remote.now(), heldSince: null },
          ...{ looked: 0, tries: 0, checking: false },
        });
      });
    },
    get fault() {
      return coordinator.fault ?? local.fault;
    },
    giveBack: (batch) => local.giveBack(batch),
    stop: () => coordinator.stop(),
  };
}
