import { describe, expect, it } from 'vitest';
import { emptyExpressions } from '../../src/rig/empty-expressions.ts';
import { studyFrom } from '../support/finished-study.ts';

const study = (more: string, supply = '', drive = '{current: 12 A}') =>
  studyFrom(`
study: What can be judged
rig:
  floats: coil
  coil: {metal: aluminium, wire: 2.0 mm, insulation: grade 2, layers: 8, inner_radius: 50 mm}
  plate: {metal: aluminium-1050, thickness: 12 mm}
  standoff: 2 mm
  supply: {frequency: 50 Hz${supply}}
drive: ${drive}
vary: {coil.turns: [440, 560]}
${more}`);

describe('emptyExpressions', () => {
  it('finds a margin of a fuse that the study does not have, also through a derived quantity', () => {
    expect(emptyExpressions(study('limits: [fuse_margin >= 1]\nobjectives: [{maximise: height}]'))).toEqual([
      { kind: 'limits', index: 0, quantity: 'fuse_margin' },
    ]);
    const derived = 'derive: {room: fuse_margin - 1}\nobjectives: [{minimise: coil_mass}, {maximise: room}]';
    expect(emptyExpressions(study(derived))).toEqual([
      { kind: 'objectives', index: 1, quantity: 'fuse_margin' },
    ]);
    expect(emptyExpressions(study(derived, ', fuse: 16 A'))).toEqual([]);
  });

  it('does not take what is empty for want of current, or for too much of it, for always empty', () => {
    // at 1 A nothing floats, at 300 A no winding settles
    const named = 'objectives: [{maximise: natural_frequency}, {minimise: coil_temperature}]';
    expect(emptyExpressions(study(named, '', '{current: 1 A}'))).toEqual([]);
    expect(emptyExpressions(study(named, '', '{current: 300 A}'))).toEqual([]);
  });

  it('looks at numbers from one end of what varies to the other', () => {
    const named = (turns: number) => `objectives: [{maximise: 'sqrt(coil_turns - ${turns})'}]`;
    expect(emptyExpressions(study(named(500)))).toEqual([]);
    expect(emptyExpressions(study(named(600)))).toEqual([{ kind: 'objectives', index: 0, quantity: null }]);
  });

  it('finds a combination that has no value though its parts do', () => {
    expect(emptyExpressions(study('objectives: [{maximise: sqrt(0 - coil_mass / coil_mass)}]'))).toEqual([
      { kind: 'objectives', index: 0, quantity: null },
    ]);
  });
});
