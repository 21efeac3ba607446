import { describe, expect, it } from 'vitest';
import type { CoilWinding } from '../../../src/kernel/disc/coil-source.ts';
import { DiscCoupling } from '../../../src/kernel/disc/disc-coupling.ts';
import { createDiscPlate } from '../../../src/kernel/disc/disc-plate.ts';
import {
  type DiscResolution,
  resolveBelowCut,
  resolveDisc,
  resolveRig,
} from '../../../src/kernel/disc/disc-resolution.ts';
import type { SplitCoupling } from '../../../src/kernel/disc/split-coupling.ts';
import type { GapCoupling } from '../../../src/kernel/gap-coupling.ts';
import { WidePlate } from '../../../src/rig/wide-plate.ts';
import { computeDisc, type DiscCase, discSpec, relative, winding } from '../../support/disc.ts';
import { coilOf } from '../../support/wide-plate.ts';
import { widePlateReference } from '../../support/wide-plate-reference.ts';

interface Rig {
  name: string;
  disc: DiscCase;
  coil: CoilWinding[];
  gap: number;
}

/** A wide plate knows nothing of rims: the coarse part alone does. */
function split({ disc, coil, gap }: Rig, resolution: DiscResolution): SplitCoupling {
  const spec = discSpec(disc);
  const wide = new WidePlate();
  const layers = spec.layers.map((layer) => ({ ...layer, relativePermeability: 1 }));
  const whole = coilOf(coil);
  const stack = { layers, layerCount: layers.length, omega: spec.angularFrequency };
  wide.prepare(whole, stack, gap, 2.5 * whole.outerRadius);
  const coarse = new DiscCoupling(createDiscPlate(spec, resolution));
  coarse.fill(coil);
  return wide.split(coarse);
}

function belowCut({ disc, coil, gap }: Rig, locality?: number): DiscResolution {
  return resolveBelowCut(discSpec(disc), coil, gap, locality)!;
}

const RIGS: readonly Rig[] = [
  {
    name: 'hoop over a wide disc, mains',
    disc: { radius: 0.413, layers: [[4e-3, 2.9e-8]], frequency: 60 },
    coil: [winding(0.25, 0.257, 0.004, 12)],
    gap: 1.64e-3,
  },
  {
    name: 'hoop of one layer, ten skin depths of plate',
    disc: { radius: 0.2, layers: [[6e-3, 2.9e-8]], frequency: 2e4 },
    coil: [winding(0.11, 0.114, 0.002, 4)],
    gap: 1.5e-3,
  },
  {
    name: 'disc with a hole',
    disc: { radius: 0.263, innerRadius: 0.046, layers: [[8e-3, 2.9e-8]], frequency: 77 },
    coil: [winding(0.113, 0.118, 0.004, 20)],
    gap: 1.8e-3,
  },
  {
    name: 'two layers and two windings, one wound against the other',
    disc: {
      radius: 0.3,
      layers: [
        [1e-3, 7e-7],
        [5e-3, 2.9e-8],
      ],
      frequency: 400,
    },
    coil: [winding(0.17, 0.174, 0.003, 10), winding(0.05, 0.09, 0.006, 60, { offset: 0.002, sense: -1 })],
    gap: 2e-3,
  },
];

const NAMES = ['inductanceRe', 'inductanceIm', 'slopeRe', 'slopeIm'] as const;

function errors(one: GapCoupling, other: GapCoupling): number[] {
  return NAMES.map((name) => relative(one[name], other[name]));
}

describe('the coarse part of a field over the disc, the fine part over a wide plate', () => {
  it.each(RIGS)('$name: as the disc asked about all of it', (rig) => {
    const { disc, coil, gap } = rig;
    const below = belowCut(rig);
    const parts = split(rig, below);
    const { coupling, plate } = computeDisc(disc, coil, gap, 1e-3);
    expect(below.smooth).toBeLessThan(0.6 * plate.resolution.smooth);
    for (const at of [gap, 2 * gap, 0.1]) {
      parts.evaluate(at);
      coupling.evaluate(at);
      // a coarse part resolved to 5e-3 at worst (seen 4e-4), and what the rims change of the fine part
      expect(Math.max(...errors(parts, coupling)), `at ${at}`).toBeLessThan(3e-3);
    }
  });

  it('comes closer as the rims are farther away in wavelengths of the cut', () => {
    const rig = RIGS[0]!;
    const { coupling } = computeDisc(rig.disc, rig.coil, rig.gap, 1e-4);
    coupling.evaluate(rig.gap);
    const [near, far] = [4, 20].map((locality) => {
      const parts = split(rig, belowCut(rig, locality));
      parts.evaluate(rig.gap);
      return relative(parts.slopeRe, coupling.slopeRe);
    }) as [number, number];
    expect(far).toBeLessThan(near / 4);
    expect(far).toBeLessThan(3e-4);
  });

  it('is the wide plate where the disc is wide, for a hoop that would take more than a hundred polynomials', () => {
    const rig: Rig = {
      name: '',
      disc: { radius: 0.9, layers: [[0.4e-3, 3e-8]], frequency: 400 },
      coil: [winding(0.298, 0.302, 0.002, 5)],
      gap: 2.5e-3,
    };
    expect(resolveDisc(discSpec(rig.disc), rig.coil, rig.gap).smooth).toBeGreaterThan(128);
    const resolution = resolveRig(discSpec(rig.disc), rig.coil, rig.gap);
    expect(resolution.adequate).toBe(true);
    expect(resolution.smooth).toBeLessThan(40);
    const parts = split(rig, resolution);
    parts.evaluate(rig.gap);
    const wide = widePlateReference({
      innerRadius: 0.298,
      outerRadius: 0.302,
      height: 0.002,
      turns: 5,
      gap: 2.5e-3,
      thickness: 0.4e-3,
      resistivity: 3e-8,
      angularFrequency: 2 * Math.PI * 400,
    });
    // a rim at three coil radii; the reference ends at k = 530 / m, where e^{-2 k gap} is 0.07
    expect(relative(parts.slopeRe, wide.slope[0])).toBeLessThan(2e-3);
    expect(relative(parts.inductanceIm, wide.inductance[1])).toBeLessThan(2e-3);
  });

  it('is not offered where an edge of a section lies beside the disc or at its rim', () => {
    const disc: DiscCase = { radius: 0.245, innerRadius: 0.144, layers: [[4e-3, 3e-8]], frequency: 2055 };
    const below = (...coil: CoilWinding[]) => resolveBelowCut(discSpec(disc), coil, 1e-3);
    expect(below(winding(0.19, 0.194, 0.003, 5))).not.toBeNull();
    expect(below(winding(0.122, 0.125, 0.003, 5))).toBeNull();
    expect(below(winding(0.24, 0.25, 0.003, 5))).toBeNull();
    expect(below(winding(0.19, 0.245, 0.003, 5))).toBeNull();
  });

  it('has derivatives that are the slopes of what is below them', () => {
    const rig = RIGS[1]!;
    const parts = split(rig, belowCut(rig));
    const step = 1e-6;
    const at = (gap: number) => {
      parts.evaluate(gap);
      const { inductanceRe, slopeRe, curvatureRe, jerkRe, inductanceIm, slopeIm } = parts;
      return [inductanceRe, slopeRe, curvatureRe, inductanceIm, slopeRe, curvatureRe, jerkRe, slopeIm];
    };
    const [above, under, here] = [rig.gap + step, rig.gap - step, rig.gap].map(at) as [
      number[],
      number[],
      number[],
    ];
    for (let i = 0; i < 4; i++) {
      // central differences: (step / gap)^2 and rounding
      expect(relative((above[i]! - under[i]!) / (2 * step), here[4 + i]!)).toBeLessThan(1e-5);
    }
  });
});
