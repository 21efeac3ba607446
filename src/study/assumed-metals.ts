import type { MetalValue } from './schema.ts';

/**
 * A sentence for each metal of a rig or of `vary` that is known in part, of what its family stands in for.
 * @param parts parts of a study whose shape is right
 */
export function assumedMetals(...parts: readonly unknown[]): string[] {
  const sentences = new Set<string>();
  for (const part of parts) collect(part, sentences);
  return [...sentences];
}

function collect(value: unknown, sentences: Set<string>): void {
  if (typeof value !== 'object' || value === null) return;
  if ('numbers' in value && 'label' in value) {
    const { label, assumed } = value as MetalValue;
    if (assumed) {
      const what = assumed.keys.map((key) => key.replaceAll('_', ' ')).join(', ');
      sentences.add(
        `Metal '${label}': ${what} as usual of ${assumed.family}, not measured or from a data sheet.`,
      );
    }
    return;
  }
  for (const inner of Object.values(value)) collect(inner, sentences);
}
