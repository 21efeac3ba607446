import { readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, expect, it } from 'vitest';
import { cli, scratchFolder } from '../support/cli.ts';

const folder = scratchFolder();
afterAll(() => rmSync(folder, { recursive: true, force: true }));

it('a run with designs that have no answer is done, says so with exit code 3, and keeps them as rows with a reason', async () => {
  writeFileSync(
    join(folder, 'wild.yaml'),
    `study: One drive too many
rig:
  floats: coil
  coil: {metal: aluminium, wire: 2 mm, insulation: grade 2, turns: 440, layers: 8, inner_radius: 50 mm}
  plate: {metal: aluminium-1050, thickness: 12 mm}
  standoff: 2 mm
  supply: {frequency: 50 Hz}
vary: {drive.current: [12 A, 500000 A]}
objectives: [{maximise: height}]
`,
  );
  const { code, out } = await cli(['run', 'wild.yaml', '--out', 'wild', '--json'], folder);
  expect(code).toBe(3);
  expect(JSON.parse(out.trimEnd().split('\n').at(-1)!)).toMatchObject({
    status: 'some designs failed',
    designs: 2,
    front: 1,
  });
  const [, lifts, failed] = readFileSync(join(folder, 'wild/designs.csv'), 'utf8').split('\n');
  expect(lifts).toMatch(/^0,12,lifts,,true,/);
  expect(failed).toMatch(
    /^1,500000,failed,it would float higher than has been checked \(10 m\): a weaker drive or more mass keeps it lower,false,/,
  );
});
