import { describe, expect, it } from 'vitest';
import { controlsOf } from '../../src/live/controls.ts';
import { type RigState, stateOfDesign, withSettings } from '../../src/live/rig-state.ts';
import { valueAt } from '../../src/live/sensible-range.ts';
import { studyText } from '../../src/live/study-text.ts';
import { createRandom } from '../../src/math/random.ts';
import { INPUTS } from '../../src/model/inputs.ts';
import { createDesignReader } from '../../src/rig/design.ts';
import { readStudy } from '../../src/study/read-study.ts';
import { demoStudy, liveData } from './rigs.ts';

const STUDIES = ['metal-and-turns', 'highest-float', 'plate-radius', 'plate-thickness', 'pan-heater'];

/** The rig that a study file of one design describes, by path; inputs that it leaves out are not there. */
function rigOf(text: string): Record<string, number> {
  const reading = readStudy(text);
  if ('problems' in reading) throw new Error(`${JSON.stringify(reading.problems, null, 1)}\n${text}`);
  const { study } = reading;
  const reader = createDesignReader(study);
  reader.read(
    Float64Array.from(study.vary, (varied) => (varied.kind === 'number' ? varied.levels[0]! : 0)),
    0,
  );
  return byPath(reader.slots);
}

function byPath(slots: Float64Array): Record<string, number> {
  return Object.fromEntries(
    INPUTS.filter(({ slot }) => !Number.isNaN(slots[slot]!)).map(({ path, slot }) => [path, slots[slot]!]),
  );
}

function withDefaults(study: ReturnType<typeof demoStudy>, state: RigState): Record<string, number> {
  const reader = createDesignReader({ ...study, vary: [], rig: { ...study.rig, slots: state.slots } });
  reader.read(new Float64Array(0), 0);
  return byPath(reader.slots);
}

/** Each control is moved once, one after the other. */
function moved(study: ReturnType<typeof demoStudy>, start: RigState, seed: number): RigState {
  const random = createRandom(seed, 1);
  let state = start;
  for (const { id } of controlsOf(study, start)) {
    const control = controlsOf(study, state).find((each) => each.id === id);
    if (!control || random.unit() < 0.5) continue;
    if (control.kind === 'number') {
      state = withSettings(state, [
        [control.input.slot, valueAt(random.below(1001), control.range, control.input)],
      ]);
    } else {
      const option = control.options[random.below(control.options.length)]!;
      state = withSettings(
        state,
        option.settings,
        control.path === null ? {} : { [control.path]: option.label },
      );
    }
  }
  return state;
}

describe('the study file of a live page', () => {
  it.each(STUDIES)('describes the same rig to the last bit: %s', (name) => {
    const study = demoStudy(name);
    const data = liveData(study, 0);
    const state = stateOfDesign(study, data.values);
    expect(rigOf(studyText(data, state))).toEqual(withDefaults(study, state));
  });

  it.each(STUDIES)('still does when the controls have been moved: %s', (name) => {
    const study = demoStudy(name);
    const data = liveData(study, 0);
    const start = stateOfDesign(study, data.values);
    let tried = 0;
    for (let seed = 1; seed <= 20; seed++) {
      const state = moved(study, start, seed);
      const text = studyText(data, state);
      const reading = readStudy(text);
      // some combinations are no rig, such as a fuse on a line without a voltage: then the reader says so
      if ('problems' in reading) continue;
      tried++;
      expect(rigOf(text)).toEqual(withDefaults(study, state));
    }
    expect(tried).toBeGreaterThan(4);
  });

  it('keeps limits, derived quantities and objectives as the study wrote them', () => {
    const study = demoStudy('metal-and-turns');
    const data = liveData(study, 3);
    const reading = readStudy(studyText(data, stateOfDesign(study, data.values)));
    if ('problems' in reading) throw new Error('problems');
    expect(reading.study.limits).toEqual(study.limits);
    expect(reading.study.derive).toEqual(study.derive);
    expect(reading.study.objectives).toEqual(study.objectives);
    expect(reading.study.title).toBe(study.title);
  });
});
