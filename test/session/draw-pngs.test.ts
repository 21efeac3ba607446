import { expect, it } from 'vitest';
import { requirePngs } from '../../src/session/draw-pngs.ts';

it('--png says what to install where the package or a font is missing', async () => {
  await expect(requirePngs(async () => 'no package')).rejects.toThrow(
    /npm install @resvg\/resvg-js@\d+\.\d+\.\d+,/,
  );
  await expect(requirePngs(async () => 'no font')).rejects.toThrow(/fonts-liberation/);
  await expect(requirePngs(async () => null)).resolves.toBeUndefined();
});
