import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { LiveData } from '../../src/live/live-data.ts';
import { INPUTS } from '../../src/model/inputs.ts';
import type { Study } from '../../src/model/study.ts';
import { createPlan } from '../../src/plan/create-plan.ts';
import { otherSections } from '../../src/study/other-sections.ts';
import { readStudy } from '../../src/study/read-study.ts';
import type { Design } from '../support/design.ts';
import { slotsOf } from '../support/design.ts';
import { PROJECT } from '../support/source-files.ts';

export function demoStudy(name: string): Study {
  const reading = readStudy(readFileSync(join(PROJECT, 'studies', `${name}.yaml`)));
  if ('problems' in reading) throw new Error(`${name} has problems`);
  return reading.study;
}

/** Varied inputs of a design of a grid. */
export function valuesOfDesign(study: Study, design: number): Float64Array {
  const plan = createPlan(study);
  const width = study.vary.length;
  for (let work = plan.next(); work && !('from' in work); work = plan.next()) {
    const at = design - work.first;
    if (at < work.count) return work.values.slice(at * width, (at + 1) * width);
  }
  throw new Error(`no design ${design}`);
}

/** @param design null for a study whose rig is its one design */
export function liveData(study: Study, design: number | null): LiveData {
  return {
    study,
    design: design ?? 0,
    values: design === null ? new Float64Array(0) : valuesOfDesign(study, design),
    otherSections: study.text === '' ? '' : otherSections(study.text),
    version: '0',
  };
}

/** A study of one random rig, with nothing to judge it by. */
export function studyOfRig(rig: Design): Study {
  const count = (pattern: RegExp) => Object.keys(rig).filter((path) => pattern.test(path)).length;
  const slots = slotsOf(rig);
  // what a study without a word on it means
  for (const [path, value] of Object.entries({
    'coil.strands': 1,
    'coil.extra_mass': 0,
    'supply.isolated': 0,
    'supply.beyond': 1,
    'coil.winding': 0,
    'plate.load.cover': 0,
    'standoff.restitution': 0.3,
    'guides.drag': 0,
  })) {
    const { slot } = INPUTS.find((input) => input.path === path)!;
    if (Number.isNaN(slots[slot]!)) slots[slot] = value;
  }
  return {
    title: 'A random rig',
    notes: '',
    rig: {
      slots,
      plateLayers: count(/^plate\.layers\.\d\.thickness$/),
      windings: count(/^coil\.windings\.\d\.turns$/),
      texts: {},
    },
    vary: [],
    derive: [],
    limits: [],
    objectives: [],
    plan: { kind: 'grid' },
    keep: null,
    text: '',
    hash: '0'.repeat(64),
  };
}
