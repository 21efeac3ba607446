import { describe, expect, it } from 'vitest';
import { REASON } from '../../src/model/status.ts';
import { describeFront } from '../../src/words/describe-front.ts';
import { designWords } from '../../src/words/design-words.ts';
import { type Row, workshopStudy } from '../support/batches.ts';
import { frontOf } from '../support/front.ts';

const study = workshopStudy();

function floating(turns: number, height: number, mass: number): Row {
  return {
    values: [turns % 3 === 0 ? 0 : 1, turns, 0.0011],
    quantities: { height, coil_mass: mass, current: 10, voltage: 66.6666, liftoff_current: 8.7 },
    objectives: [height, mass],
  };
}

const rows = [floating(444, 0.02, 3), floating(400, 0.018, 2), floating(321, 0.0123, 1.9)];

describe('describeFront', () => {
  it('says which design is best in each objective and which is the best compromise, in the words of the trade', () => {
    expect(
      `\n${describeFront(study, frontOf(study, rows), { extremes: [0, 2], knee: 1 })}\n`,
    ).toMatchInlineSnapshot(`
      "
      Floats highest: design 0 - aluminium coil, 444 turns, 1.1 mm plate: floats 20 mm high at 10 A, 66.67 V, coil 3 kg
      Lightest: design 2 - aluminium coil, 321 turns, 1.1 mm plate: floats 12.3 mm high at 10 A, 66.67 V, coil 1.9 kg
      Best compromise: design 1 - copper coil, 400 turns, 1.1 mm plate: floats 18 mm high at 10 A, 66.67 V, coil 2 kg
      "
    `);
  });

  it('says first that no design floats where all on the front rest', () => {
    const resting = rows.map((row): Row => ({ ...row, status: 'rests', reason: REASON.weak }));
    const landmarks = { extremes: [0, 2], knee: 1 };
    expect(describeFront(study, frontOf(study, resting), landmarks).split('\n')[0]).toBe(
      'No design that meets the limits floats: those on the front rest on the plate.',
    );
    expect(describeFront(study, frontOf(study, rows), landmarks)).not.toContain('rest on the plate');
  });

  it('names a design once that is best in several objectives, and says that the knee is a design named before', () => {
    const text = describeFront(study, frontOf(study, rows.slice(0, 2)), { extremes: [1, 1], knee: 1 });
    expect(text).toBe(
      'Floats highest and lightest: design 1 - copper coil, 400 turns, 1.1 mm plate: floats 18 mm high at 10 A, 66.67 V, coil 2 kg\n' +
        'The best compromise is design 1, too',
    );
  });

  it('has no knee to speak of with one objective or one design', () => {
    const single = workshopStudy({ objectives: [study.objectives[1]!] });
    expect(describeFront(single, frontOf(single, rows), { extremes: [0], knee: 0 })).toMatch(
      /^Lightest: [^\n]*$/,
    );
    expect(
      describeFront(study, frontOf(study, rows.slice(0, 1)), { extremes: [0, 0], knee: 0 }),
    ).not.toContain('compromise');
  });

  it('gives the value of an objective that the sentence does not hold anyway', () => {
    const ratio = {
      text: 'height / current',
      sense: 'maximise',
      program: study.derive[0]!.program,
      unit: study.derive[0]!.unit,
    } as const;
    const asked = workshopStudy({ objectives: [ratio] });
    const front = frontOf(asked, [{ ...rows[0]!, objectives: [0.002] }]);
    expect(describeFront(asked, front, { extremes: [0], knee: 0 })).toMatch(
      /^Highest height \/ current \(2 mm\/A\): design 0 - /,
    );
  });
});

describe('designWords', () => {
  const words = (row: Row, changes = {}) => {
    const changed = workshopStudy(changes);
    return designWords(changed, frontOf(changed, [row]), 0);
  };

  it('says what a resting design would need', () => {
    const resting: Row = {
      status: 'rests',
      values: [0, 320, 0.0011],
      quantities: { current: 10, voltage: 50, liftoff_current: 18.7, coil_mass: 2.84 },
    };
    expect(words(resting)).toBe(
      'design 0 - aluminium coil, 320 turns, 1.1 mm plate: rests at 10 A, 50 V, lifts off at 18.7 A, coil 2.84 kg',
    );
  });

  it('says what a clamped design does: it heats', () => {
    const clamped: Row = {
      status: 'clamped',
      values: [0, 320, 0.0011],
      quantities: { current: 10, plate_loss: 400 },
    };
    expect(words(clamped)).toMatch(/: 400 W in the plate at 10 A$/);
  });

  it('leaves empty cells unsaid', () => {
    expect(words({ values: [1, 440, 0.0011] })).toBe(
      'design 0 - copper coil, 440 turns, 1.1 mm plate: floats',
    );
  });

  it('gives the reason of a design that is none', () => {
    const none: Row = { status: 'impossible', reason: REASON.sectionInverted, values: [1, 440, 0.0011] };
    expect(words(none)).toMatch(
      /: impossible: the outer radius of the section is not larger than the inner radius$/,
    );
  });

  it('calls an endless plate thick and leaves the drive current to the operating point', () => {
    const drive = { ...study.vary[1]!, name: 'drive_current' } as (typeof study.vary)[0];
    expect(words({ values: [12, Number.POSITIVE_INFINITY] }, { vary: [drive, study.vary[2]!] })).toBe(
      'design 0 - thick plate: floats',
    );
  });

  it('puts a label in as it is, whatever it holds', () => {
    const metal = {
      ...study.vary[0]!,
      levels: [{ label: '$& # $1', settings: [] }],
    } as (typeof study.vary)[0];
    expect(words({ values: [0] }, { vary: [metal] })).toBe('design 0 - $& # $1 coil: floats');
  });
});
