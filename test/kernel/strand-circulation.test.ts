import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { StrandCirculation } from '../../src/kernel/strand-circulation.ts';

interface Rig {
  readonly turns: number;
  readonly strands: number;
  readonly layers: number;
  readonly inner: number;
  readonly wire: number;
  readonly pitch: number;
  readonly resistivity: number;
  readonly ratios: Readonly<Record<string, number>>;
}

/** Made by test/fixtures/strand-circulation.py: every turn of every wire a ring. */
const RIGS: readonly Rig[] = JSON.parse(
  readFileSync(new URL('../fixtures/strand-circulation.json', import.meta.url), 'utf8'),
);

function ratioOf(rig: Rig, frequency: number): number {
  const { turns, strands, layers, inner, wire, pitch, resistivity } = rig;
  const width = ((turns * strands) / layers) * pitch;
  const section = { innerRadius: inner, outerRadius: inner + width, height: layers * pitch, turns };
  const length = Math.PI * (2 * inner + width) * turns;
  const resistance = (resistivity * length) / ((strands * Math.PI * wire ** 2) / 4);
  const own = { pitch, radius: wire / 2, length };
  const added = new StrandCirculation().resistance(
    section,
    strands,
    own,
    resistance,
    2 * Math.PI * frequency,
  );
  return 1 + added / resistance;
}

describe('StrandCirculation', () => {
  it('adds what rings add: within 3 % of the resistance while it is under 2.5 times, half of what is added beyond', () => {
    for (const rig of RIGS) {
      for (const [frequency, ratio] of Object.entries(rig.ratios)) {
        const computed = ratioOf(rig, Number(frequency));
        const said = `${rig.turns} x ${rig.strands} at ${frequency} Hz`;
        if (ratio < 2.5) expect(Math.abs(computed / ratio - 1), said).toBeLessThan(0.03);
        else expect(Math.abs((computed - 1) / (ratio - 1) - 1), said).toBeLessThan(0.6);
      }
    }
  });

  it('is 14 % at 1 kHz for two wires of 1.4 mm in hand and nothing at 50 Hz, as the contract has it', () => {
    const two = RIGS.find(({ turns, strands }) => turns === 96 && strands === 2)!;
    expect(ratioOf(two, 1000)).toBeCloseTo(1.14, 1);
    expect(ratioOf(two, 50)).toBeLessThan(1.001);
  });

  it('adds nothing to a single wire', () => {
    expect(ratioOf({ ...RIGS[0]!, strands: 1 }, 20000)).toBe(1);
  });
});
