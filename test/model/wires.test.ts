import { describe, expect, it } from 'vitest';
import { ENAMEL_INCREASE } from '../../src/model/enamel-table.ts';
import { awgDiameter, ENAMELLED, enamelThickness, parseAwg } from '../../src/model/wires.ts';

describe('awgDiameter', () => {
  it('reproduces the inches that ASTM B258 tabulates', () => {
    // ASTM B258 as tabulated by wp.1728.org, rounded there to 0.1 mil: hence 4 digits.
    const rows: [number, number][] = [
      [-3, 0.46],
      [0, 0.3249],
      [4, 0.2043],
      [8, 0.1285],
      [10, 0.1019],
      [12, 0.0808],
      [14, 0.0641],
      [18, 0.0403],
      [24, 0.0201],
      [30, 0.01],
      [36, 0.005],
    ];
    for (const [gauge, inches] of rows)
      expect(awgDiameter(gauge) / 0.0254, `AWG ${gauge}`).toBeCloseTo(inches, 4);
  });

  it('steps by the 39th root of 92', () => {
    expect(awgDiameter(9) / awgDiameter(10)).toBeCloseTo(1.1229322, 7);
  });
});

describe('parseAwg', () => {
  it('reads the ways people write a gauge', () => {
    const texts = ['AWG 10', 'awg10', 'AWG 0', 'AWG 1/0', 'AWG 4/0', 'AWG 0000', 'AWG 50'];
    expect(texts.map(parseAwg)).toEqual([10, 10, 0, 0, -3, -3, 50]);
  });

  it('refuses what is not a gauge', () => {
    for (const text of ['AWG', 'AWG 51', 'AWG -1', 'AWG 5/0', 'AWG 10.5', '10', 'AWG 00000', '2 mm'])
      expect(parseAwg(text), text).toBeNull();
  });
});

describe('enamelThickness', () => {
  it('gives the overall diameters of IEC 60317-0-1', () => {
    // IEC 60317-0-1 Table 1 as quoted by makers' sheets: nominal, grade 1, grade 2, mm.
    const rows = [
      [0.2, 0.226, 0.239],
      [0.25, 0.281, 0.297],
      [0.315, 0.349, 0.367],
      [0.4, 0.439, 0.459],
      [0.5, 0.544, 0.566],
      [0.63, 0.679, 0.704],
      [0.8, 0.855, 0.884],
      [1, 1.062, 1.094],
      [1.12, 1.184, 1.217],
      [1.25, 1.316, 1.349],
      [1.4, 1.468, 1.502],
      [1.6, 1.67, 1.706],
      [1.8, 1.872, 1.909],
      [2, 2.074, 2.112],
      [2.5, 2.578, 2.618],
      [2.8, 2.88, 2.922],
    ] as const;
    for (const [mm, ...overall] of rows)
      overall.forEach((d, i) => {
        // To rounding: the table is exact in um.
        expect(mm + 2e3 * enamelThickness(mm * 1e-3, i + 1), `${mm} grade ${i + 1}`).toBeCloseTo(d, 9);
      });
  });

  it('gives grade 3 of the gauge sizes that IS 13730-0-1 lists', () => {
    // IS 13730-0-1 (SWG sizes) as a maker prints it: bare, grade 3 overall, mm.
    const rows = [
      [0.254, 0.319],
      [0.315, 0.384],
      [0.457, 0.544],
      [0.61, 0.708],
      [0.914, 1.038],
      [1.219, 1.35],
      [1.829, 1.977],
      [2.337, 2.493],
      [2.946, 3.112],
    ] as const;
    for (const [mm, overall] of rows)
      expect(mm + 2e3 * enamelThickness(mm * 1e-3, 3), `${mm}`).toBeCloseTo(overall, 9);
  });

  it('gives an intermediate size the increase of the next larger nominal', () => {
    expect(enamelThickness(2.0001e-3, 2)).toBe(enamelThickness(2.24e-3, 2));
    expect(enamelThickness(2.24e-3, 2)).toBe(57.5e-6);
    expect(enamelThickness((0.1 + 0.2) * 1e-3 * 10, 1)).toBe(enamelThickness(3e-3, 1));
  });

  it('takes a nominal size for itself however it was computed', () => {
    for (const [mm, g1] of ENAMEL_INCREASE) {
      for (const factor of [1, 1 - 1e-15, 1 + 1e-15])
        expect(enamelThickness(mm * 1e-3 * factor, 1)).toBe(g1 / 2e6);
    }
  });

  it('grows with wire and with grade', () => {
    for (const [i, row] of ENAMEL_INCREASE.entries()) {
      expect(row[2]).toBeGreaterThan(row[1]);
      expect(row[3]).toBeGreaterThan(row[2]);
      for (const k of [0, 1, 2, 3] as const) expect(row[k]).toBeGreaterThan(ENAMEL_INCREASE[i - 1]?.[k] ?? 0);
    }
  });

  it('knows no enamel outside the standard', () => {
    expect(enamelThickness(0.07e-3, 1)).toBeNaN();
    expect(enamelThickness(5.01e-3, 2)).toBeNaN();
    expect(enamelThickness(1e-3, 4)).toBeNaN();
    expect(enamelThickness(1e-3, 1.5)).toBeNaN();
    expect(enamelThickness(Number.NaN, 1)).toBeNaN();
    expect(enamelThickness(ENAMELLED.thinnest, 1)).toBe(6.5e-6);
    expect(enamelThickness(ENAMELLED.thickest, 3)).toBe(93e-6);
  });
});
