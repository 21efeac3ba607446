import { INPUTS, SLOT } from '../model/inputs.ts';
import type { Choice, Task } from '../model/study.ts';
import { fillEqualDisc } from './plate-outline.ts';

/** Room temperature where a study gives none: 20 degC, in K (the reference of ISO 1). */
const DEFAULT_SURROUNDINGS = 293.15;

/**
 * Turns a design of a batch into one full set of input numbers. The returned function writes into the one array
 * that it owns, so a million designs allocate nothing.
 */
export function createDesignReader(task: Pick<Task, 'rig' | 'vary'>): DesignReader {
  const { rig, vary } = task;
  const slots = new Float64Array(INPUTS.length);
  const choices = vary.map((varied) => (varied.kind === 'choice' ? varied.levels.map(toFlat) : null));
  return {
    slots,
    read(values: Float64Array, at: number): void {
      slots.set(rig.slots);
      for (let v = 0; v < vary.length; v++) {
        const varied = vary[v]!;
        const value = values[at + v]!;
        if (varied.kind === 'number') {
          slots[varied.slot] = value;
        } else {
          const { at, set } = choices[v]![value]!;
          for (let i = 0; i < at.length; i++) slots[at[i]!] = set[i]!;
        }
      }
      fillDefault(SLOT.surroundings, DEFAULT_SURROUNDINGS);
      fillDefault(SLOT.coilTemperature, slots[SLOT.surroundings]!);
      fillDefault(SLOT.plateTemperature, slots[SLOT.surroundings]!);
      fillEqualDisc(slots);
    },
  };

  function fillDefault(slot: number, value: number): void {
    if (Number.isNaN(slots[slot])) slots[slot] = value;
  }
}

/** A choice's settings: which slots, and their values. */
function toFlat({ settings }: Choice): { readonly at: Int32Array; readonly set: Float64Array } {
  return {
    at: Int32Array.from(settings, ([slot]) => slot),
    set: Float64Array.from(settings, ([, value]) => value),
  };
}

export interface DesignReader {
  /** The inputs of the design last read, SI; NaN where the study gives nothing. */
  readonly slots: Float64Array;
  /** Reads the design whose varied values start at `values[at]`. */
  read(values: Float64Array, at: number): void;
}
