import { describe, expect, it } from 'vitest';
import { type LoopField, loopField } from '../../src/kernel/loops.ts';
import { MagneticFlux } from '../../src/kernel/magnetic-flux.ts';
import type { PlateLayer } from '../../src/kernel/plate-reflection.ts';
import { spectrumNodes } from '../../src/kernel/spectrum-nodes.ts';
import { layer } from '../support/wide-plate.ts';

const section = { innerRadius: 0.05, outerRadius: 0.166, height: 0.017, turns: 440 };
const gap = 0.004;
const omega = 2 * Math.PI * 50;
const nodes = spectrumNodes(1 - 0.05 / 0.166, 1e-3, 60, true);
const thick = Number.POSITIVE_INFINITY;

/** Largest |B| of the bare winding, 1 A, over the radii at the depth of the plate's face: filaments, elliptic integrals. */
function bareWinding(): number {
  const loop: LoopField = { radial: 0, axial: 0 };
  let largest = 0;
  const n = 40;
  for (let radius = 0.055; radius < 0.163; radius += 0.003) {
    let radial = 0;
    let axial = 0;
    for (let i = 0; i < n; i++) {
      for (let j = 0; j < 6; j++) {
        const a = section.innerRadius + ((i + 0.5) / n) * (section.outerRadius - section.innerRadius);
        loopField(a, radius, gap + ((j + 0.5) / 6) * section.height, loop);
        radial += (loop.radial * section.turns) / (6 * n);
        axial += (loop.axial * section.turns) / (6 * n);
      }
    }
    largest = Math.max(largest, Math.hypot(radial, axial));
  }
  return largest;
}

const stack = (layers: PlateLayer[]) => ({ layers, layerCount: layers.length, omega });

describe('MagneticFlux', () => {
  it('is 2 mu / (mu + 1) times the bare field in iron that carries no currents (image of a winding in iron)', () => {
    for (const mu of [10, 1000]) {
      const iron = [layer(1e-6, thick, mu)];
      const peak = new MagneticFlux().peak(section, stack(iron), 0, nodes, 0.166, gap);
      const image = Math.SQRT2 * ((2 * mu) / (mu + 1)) * bareWinding();
      // few radii and the cut tail: the 5 % claimed
      expect(Math.abs(peak / image - 1)).toBeLessThan(0.05);
    }
  });

  it('is the same behind a sheet of nothing', () => {
    const steel = layer(7e6, 0.002, 200);
    const bare = new MagneticFlux().peak(section, stack([steel]), 0, nodes, 0.166, gap);
    const behind = new MagneticFlux().peak(
      section,
      stack([layer(1e-3, 0.001), steel]),
      1,
      nodes,
      0.166,
      gap - 0.001,
    );
    expect(Math.abs(behind / bare - 1)).toBeLessThan(1e-3);
  });

  it('is shielded by a good conductor in front', () => {
    const steel = layer(7e6, 0.002, 200);
    const bare = new MagneticFlux().peak(section, stack([steel]), 0, nodes, 0.166, gap);
    const shielded = new MagneticFlux().peak(
      section,
      stack([layer(3.5e7, 0.02), steel]),
      1,
      nodes,
      0.166,
      gap,
    );
    expect(shielded / bare).toBeLessThan(0.5);
  });

  it('does not know a sheet from the two halves it is cut into', () => {
    const steel = layer(7e6, 0.002, 200);
    const half = layer(3.5e7, 0.004);
    const whole = stack([layer(3.5e7, 0.008), steel]);
    const halves = stack([half, half, steel]);
    const peak = new MagneticFlux().peak(section, whole, 1, nodes, 0.166, gap);
    const cut = new MagneticFlux().peak(section, halves, 2, nodes, 0.166, gap);
    expect(Math.abs(cut / peak - 1)).toBeLessThan(1e-9);
  });
});
