import type { PartName } from '../store/part-name.ts';
import { covering, listParts } from '../store/parts.ts';
import type { FoundResult } from './find-result.ts';

/** The parts of all rows of a finished result: of a few alone the front would be another one. */
export async function wholeParts({ folder, record }: FoundResult): Promise<readonly PartName[]> {
  const parts = await listParts(folder);
  const last = parts.at(-1);
  return covering(folder, parts, 0, record.designs ?? (last ? last.first + last.count : 0));
}
