import { resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { createRandom } from '../../src/math/random.ts';
import type { MeasuredPoint } from '../../src/model/measured.ts';
import { Q } from '../../src/model/quantities.ts';
import { createPredictor } from '../../src/rig/predict.ts';
import { FOYER, slotsOf } from '../support/design.ts';
import { gaussian } from '../support/gaussian.ts';

/**
 * Makes `studies/bench/measured.csv`, what an invented bench measured of the foyer coil:
 * `npm run build && node dist/test/bench/measured-points.js > studies/bench/measured.csv`.
 */

/** How the rig that was built differs from the drawing. */
export const BUILT: Readonly<Record<string, number>> = {
  // between pure sheet and an alloy
  'plate.layers.0.metal.resistivity': 3.1e-8,
  // the winding bulges
  standoff: 2.6e-3,
  // longer leads and more ties
  'coil.extra_mass': 0.21,
};

const SEED = 20;
const CURRENTS = [9.5, 10, 10.5, 11, 11.5, 12, 13, 14];
/** Standard uncertainties: a steel rule over a humming coil, a panel meter, a kitchen scale. */
const NOISE = { height: 0.3e-3, voltage: 0.3, mass: 0.005 };

export function measuredCsv(): string {
  const random = createRandom(SEED);
  const predictor = createPredictor({ plateLayers: 1, windings: 0 }, slotsOf({ ...FOYER, ...BUILT }));
  const noisy = (value: number, sigma: number) => value + sigma * gaussian(random);
  const rows = CURRENTS.map((current) => {
    const point: MeasuredPoint = {
      line: 0,
      drive: { kind: 'current', value: current },
      driveUncertainty: 0,
      settings: [],
      readings: [],
    };
    const results = predictor.evaluate(point, []);
    const height = noisy(results[Q.height]!, NOISE.height) * 1e3;
    const voltage = noisy(results[Q.voltage]!, NOISE.voltage);
    const mass = current === CURRENTS[0] ? noisy(results[Q.coil_mass]!, NOISE.mass).toFixed(3) : '';
    const scale = mass === '' ? '' : String(NOISE.mass);
    return `${current},${height.toFixed(1)},${NOISE.height * 1e3},${voltage.toFixed(1)},${NOISE.voltage},${mass},${scale}`;
  });
  return [
    '# Invented: the model of a slightly different rig plus noise, by test/bench/measured-points.ts.',
    '# _u: standard uncertainty. Current set by a meter that is far better than the rest.',
    'current_A,height_mm,height_mm_u,voltage_V,voltage_V_u,coil_mass_kg,coil_mass_kg_u',
    ...rows,
    '',
  ].join('\n');
}

if (process.argv[1] !== undefined && resolve(process.argv[1]) === fileURLToPath(import.meta.url)) {
  process.stdout.write(measuredCsv());
}
