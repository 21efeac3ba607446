import { INPUTS, METAL_SLOTS } from '../model/inputs.ts';
import { METALS } from '../model/metals.ts';
import type { LiveStudy } from './live-data.ts';

/** One rig as the controls have it. Defaults that follow from other inputs are not filled in yet. */
export interface RigState {
  /** SI, NaN where not given. */
  readonly slots: Float64Array;
  /** What choices are called, by path: `coil.metal`: `copper`. */
  readonly texts: Readonly<Record<string, string>>;
}

export type Settings = readonly (readonly [slot: number, value: number])[];

/** A design of the study as the page begins with it. */
export function stateOfDesign({ rig, vary }: LiveStudy, values: ArrayLike<number>): RigState {
  const slots = rig.slots.slice();
  const texts: Record<string, string> = { ...rig.texts };
  vary.forEach((varied, i) => {
    const value = values[i]!;
    if (varied.kind === 'number') slots[varied.slot] = value;
    else {
      const { label, settings } = varied.levels[value]!;
      for (const [slot, setting] of settings) slots[slot] = setting;
      texts[varied.path] = label;
    }
  });
  return { slots, texts };
}

/** Another state; the first stays as it is. */
export function withSettings(
  state: RigState,
  settings: Settings,
  texts: Readonly<Record<string, string>> = {},
): RigState {
  const slots = state.slots.slice();
  for (const [slot, value] of settings) slots[slot] = value;
  return { slots, texts: { ...state.texts, ...texts } };
}

export function isSameState(a: RigState, b: RigState): boolean {
  return a.slots.every((value, slot) => Object.is(value, b.slots[slot]));
}

/** A metal to choose: its numbers in the order of its slots. */
export interface NamedMetal {
  readonly label: string;
  readonly numbers: readonly number[];
}

export const CATALOGUE: readonly NamedMetal[] = METALS.map((metal) => {
  const numbers: number[] = [];
  for (const key of Object.keys(METAL_SLOTS) as (keyof typeof METAL_SLOTS)[])
    numbers[METAL_SLOTS[key]] = metal[key]?.value ?? Number.NaN;
  return { label: metal.name, numbers };
});

export const METAL_NUMBERS = Object.keys(METAL_SLOTS).length;

export function metalAt(slots: Float64Array, slot: number): number[] {
  return [...slots.subarray(slot, slot + METAL_NUMBERS)];
}

export function isSameMetal(a: readonly number[], b: readonly number[]): boolean {
  return a.every((number, i) => Object.is(number, b[i]));
}

export function slotOfPath(path: string): number {
  return INPUTS.findIndex((input) => input.path === path);
}
