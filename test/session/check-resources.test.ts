import { describe, expect, it } from 'vitest';
import { checkResources, readResources } from '../../src/session/check-resources.ts';

const ENOUGH = { files: 1024, heap: 2 ** 31, addressSpace: null };

describe('checkResources', () => {
  it('takes what usual machines give, this one too', () => {
    checkResources(ENOUGH);
    checkResources({ ...ENOUGH, files: null });
    checkResources(readResources());
  });

  it.each([
    [{ files: 64 }, 'a run needs 128 open files, and this process may have 64; ulimit -n 128 allows more'],
    [
      { heap: 40 * 2 ** 20 },
      'a run needs 88 MB of heap, and this process may have 40 MB; --max-old-space-size (NODE_OPTIONS) allows more',
    ],
    [
      { addressSpace: 30 * 2 ** 30 },
      'a run needs 44,000 MB of address space, and this process may have 30,720 MB; ulimit -v unlimited allows more',
    ],
  ])('says in one line what is missing: %o', (less, words) => {
    expect(() => checkResources({ ...ENOUGH, ...less })).toThrow(words);
  });
});
