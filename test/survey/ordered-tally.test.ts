import { describe, expect, it } from 'vitest';
import { createFrontArchive } from '../../src/front/front-archive.ts';
import { createSurvey } from '../../src/survey/survey.ts';
import { batchesOf, type Row, workshopStudy } from '../support/batches.ts';

const study = workshopStudy();
const thicknesses = [0.0011, 0.000123];

/** Every combination, with a lift-off and a height of its own; the thin copper ones never lift. */
function rows(): Row[] {
  return [0, 1].flatMap((metal) =>
    [320, 440].flatMap((turns) =>
      thicknesses.map((thickness): Row => {
        const lifts = metal === 0 || thickness > 0.001;
        return {
          values: [metal, turns, thickness],
          objectives: [1, 1],
          quantities: {
            liftoff_current: lifts ? 9 + metal - turns / 1000 - thickness : Number.NaN,
            height: lifts ? thickness * turns : 0,
          },
        };
      }),
    ),
  );
}

function ordered(changed = study, sizes = [3]) {
  const tally = createSurvey(changed, () => createFrontArchive(changed.objectives.map(({ sense }) => sense)));
  for (const batch of batchesOf(changed, rows(), sizes)) tally.add(batch);
  return tally.survey([new Float64Array(0), new Float64Array(0)]).ordered;
}

describe('lift-off and height against an ordered input', () => {
  it('come thickness first, a line for each metal, the least and the greatest of any other input', () => {
    const effects = ordered();
    expect(effects.map(({ input }) => study.vary[input]!.path)).toEqual(['plate.thickness', 'coil.turns']);
    const [{ lines, metal, bins }] = effects as [(typeof effects)[0], ...typeof effects];
    expect(metal).toBe(0);
    expect(bins.labels).toEqual(['0.123', '1.1']);
    expect(lines.map(({ label }) => label)).toEqual(['aluminium', 'copper']);
    expect([...lines[0]!.liftoff]).toEqual([9 - 0.44 - 0.000123, 9 - 0.44 - 0.0011]);
    expect([...lines[1]!.liftoff]).toEqual([Number.NaN, 10 - 0.44 - 0.0011]);
    expect([...lines[0]!.height]).toEqual([0.000123 * 440, 0.0011 * 440]);
    expect([...lines[1]!.height]).toEqual([0, 0.0011 * 440]);
  });

  it('do not depend on how rows come in batches', () => {
    const lines = (sizes: number[]) => ordered(study, sizes).map((effect) => effect.lines);
    expect(lines([1])).toEqual(lines([8]));
  });

  it('leave drives to the lift curves', () => {
    const drive = { ...study.vary[1]!, path: 'drive.current' };
    const changed = workshopStudy({ vary: [study.vary[0]!, drive, study.vary[2]!] });
    expect(ordered(changed).map(({ input }) => changed.vary[input]!.path)).toEqual(['plate.thickness']);
  });
});
