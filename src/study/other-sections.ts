import { parseDocument } from 'yaml';

/** What a study states of its rig and its designs; the rest is about judging them. */
const OF_DESIGNS = ['study', 'notes', 'rig', 'drive', 'vary', 'plan', 'calibrated', 'stock', 'keep'];

/**
 * A study's text (known to be sound) without what describes rig and designs: derived quantities, limits, objectives,
 * tolerances as they were written.
 */
export function otherSections(text: string): string {
  const document = parseDocument(text);
  for (const section of OF_DESIGNS) document.delete(section);
  document.commentBefore = null;
  return document.toString({ lineWidth: 0 });
}
