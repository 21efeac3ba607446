import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { card } from '../../src/commands/card.ts';
import { improveDesign } from '../../src/commands/improve.ts';
import { testIo } from '../support/test-io.ts';

const cwd = mkdtempSync(join(tmpdir(), 'eddylift-improve-'));
afterAll(() => rmSync(cwd, { recursive: true, force: true }));
writeFileSync(
  join(cwd, 'rest.yaml'),
  `study: It rests
rig:
  floats: coil
  coil: {metal: aluminium, wire: 2 mm, insulation: grade 2, turns: 440, layers: 8, inner_radius: 50 mm}
  plate: {metal: EN AW-6082, thickness: 0.8 mm}
  standoff: 2 mm
  supply: {frequency: 50 Hz, max_voltage: 230 V, max_current: 30 A}
drive: {current: 12 A}
limits: [coil_mass <= 4 kg, current <= 16 A]
objectives: [maximise: height]
`,
);

async function told(aim: string | null, json = false) {
  const io = testIo({ cwd, columns: 160 });
  const code = await improveDesign('rest.yaml', { design: null, aim, json }, io);
  return { code, out: io.out(), err: io.err() };
}

describe('eddylift improve', () => {
  it('says why a rig rests, what lifts it, what that costs and which limits it breaks', async () => {
    const { code, out: text } = await told(null);
    const out = text.replace(/\s+/g, ' ');
    expect(code).toBe(0);
    expect(out).toMatch(/is 0\.059\d* skin depths thick; lift-off needs 2\d\.\d+ A, the drive gives 12 A\./);
    expect(out).toMatch(/plate\.thickness 0\.8 mm -> 3 mm floats [^>]*meets all limits/);
    expect(out).toMatch(/drive\.current 12 A -> 26\.1 A floats [^>]*breaks 'current <= 16 A'/);
    expect(out).toContain('The best two together:');
  });

  it('takes an aim, and refuses one that it cannot judge by with a caret', async () => {
    const { single, aim } = JSON.parse((await told('height >= 15 mm', true)).out);
    expect(aim).toBe('height >= 15 mm');
    expect(single.map(({ change }: { change: string }) => change).join()).toMatch(
      /plate\.thickness 0\.8 mm -> [56] mm/,
    );
    const { code, err } = await told('heigth >= 15 mm');
    expect(code).toBe(2);
    expect(err).toContain('did you mean `height`?');
    expect(err).toContain('^^^^^^');
  });
});

it('the card of a resting rig names why and the three nearest remedies', async () => {
  const io = testIo({ cwd, columns: 160 });
  expect(await card('rest.yaml', { design: null, json: false, html: false }, io)).toBe(0);
  const text = io.out().replace(/\s+/g, ' ');
  expect(text).toMatch(/why it rests It rests: .* lift-off needs/);
  expect(text).toMatch(
    /remedy 1 .*: floats .* remedy 2 plate\.thickness 0\.8 mm -> 3 mm: floats .* remedy 3 /,
  );
});
