import { describe, expect, it } from 'vitest';
import { cli } from '../support/cli.ts';

describe('a command under its old name', () => {
  it('is refused with the new name', async () => {
    for (const args of [['serve-queue'], ['serve-queue', 'redis://lab:6379', '--threads', '1']]) {
      const { code, out, err } = await cli(args, '.');
      expect(out + err).toBe(
        "eddylift: 'serve-queue' is now called 'worker': eddylift worker redis://HOST:PORT\n",
      );
      expect(code).toBe(2);
    }
    expect((await cli(['--help'], '.')).out).not.toContain('serve-queue');
  });
});
