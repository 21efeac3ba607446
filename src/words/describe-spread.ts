import { FLOATS, SLOT } from '../model/inputs.ts';
import type { Study } from '../model/study.ts';
import { createSpreadProfiler, type SpreadProfile, varies } from '../rig/spread-profile.ts';
import {
  probabilityWords,
  spreadWords,
  toleranceName,
  toleranceSize,
  varianceSharesNote,
} from './spread-words.ts';
import { type Watched, watchedOf } from './watched.ts';

/** How a design turns out within its study's tolerances, in numbers and words. */
export interface DescribedSpread {
  readonly watched: readonly Watched[];
  readonly profile: SpreadProfile;
  /** `standoff ± 0.16 mm, ...` */
  readonly allowed: string;
  /** A line a topic: the probabilities, each quantity that varies. */
  readonly rows: readonly (readonly [topic: string, words: string])[];
  /** How to read them; null where there is nothing to read. */
  readonly note: string | null;
}

/** From a design's inputs, SI with their defaults; null for one without an answer, or a study without tolerances. */
export function createSpreadDescriber(study: Study): (slots: Float64Array) => DescribedSpread | null {
  const { tolerance = [] } = study;
  const watched = watchedOf(study);
  const profiler = createSpreadProfiler(
    study,
    watched.map(({ program }) => program),
  );
  return (slots) => {
    const profile = profiler?.(slots) ?? null;
    if (profile === null) return null;
    const floats = slots[SLOT.floats] !== FLOATS.nothing;
    const names = allowedFor(study);
    const allowed = tolerance.map((each, t) => `${names[t]} ${toleranceSize(each)}`).join(', ');
    const probabilities = probabilityWords(profile, floats);
    const quantities = watched.flatMap((each, i) => {
      const spread = profile.quantities[i]!;
      return varies(spread) ? [[each.label, spreadWords(each, spread, tolerance)] as const] : [];
    });
    return {
      watched,
      profile,
      allowed,
      rows: [...(probabilities === '' ? [] : [['probability', probabilities] as const]), ...quantities],
      note: varianceSharesNote(profile),
    };
  };
}

/** What the tolerances of a study are of, in its order: `standoff`. */
export function allowedFor({ tolerance = [] }: Pick<Study, 'tolerance'>): string[] {
  return tolerance.map((each) => toleranceName(each).replace(/^the /, ''));
}
