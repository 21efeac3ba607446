import { describe, expect, it } from 'vitest';
import { watchedOf } from '../../src/words/watched.ts';
import { studyFrom } from '../support/finished-study.ts';

function study(limits: string, objectives: string, floats = 'coil') {
  return studyFrom(`
study: What is watched?
rig:
  floats: ${floats}
  coil: {metal: aluminium, wire: 2 mm, insulation: grade 2, turns: 440, layers: 8, inner_radius: 50 mm}
  plate: {metal: aluminium-1050, thickness: 12 mm}
  standoff: 2 mm
  supply: {frequency: 50 Hz}
drive: {current: 12 A}
tolerance: {standoff: 0.3 mm}
vary: {coil.turns: [400, 440]}
derive: {margin: 'p05(height) - 10 mm'}
limits: ${limits}
objectives: ${objectives}
plan: {grid: {}}
`);
}

const labels = (...args: Parameters<typeof study>) => watchedOf(study(...args)).map(({ label }) => label);

describe('watchedOf', () => {
  it('begins with what a builder asks first, of a floating rig and of a clamped one', () => {
    expect(labels('[]', '[{maximise: height}]')).toEqual([
      'lift-off current',
      'height',
      'voltage',
      'coil temperature',
    ]);
    expect(labels('[]', '[{maximise: plate_loss}]', 'nothing')[0]).toBe('plate loss');
  });

  it('goes on with objectives and with what limits name, each once, a statistic for its quantity', () => {
    expect(
      labels(
        '[current_density <= 5 A/mm^2, probability(limits) >= 0.9, p95(power) <= 600 W, margin >= 1 mm]',
        '[{maximise: height / current}, {minimise: p95(coil_mass)}]',
      ).slice(4),
    ).toEqual(['height / current', 'coil mass', 'current density', 'power']);
  });

  it('knows where limits hold a quantity against a number, whichever side it stands on', () => {
    const watched = watchedOf(
      study('[height >= 17 mm, 120 V >= voltage, height <= gap]', '[{maximise: height}]'),
    );
    const boundsOf = (label: string) => watched.find((each) => each.label === label)!.bounds;
    expect(boundsOf('height')).toEqual([{ comparison: '>=', value: 0.017 }]);
    expect(boundsOf('voltage')).toEqual([{ comparison: '<=', value: 120 }]);
    expect(boundsOf('lift-off current')).toEqual([]);
  });
});
