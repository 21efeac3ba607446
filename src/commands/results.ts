import { RESULTS } from '../session/choose-folder.ts';
import { EXIT, type Io } from '../session/io.ts';
import { type ListedResult, listResults } from '../session/list-results.ts';
import { printDocument } from '../session/print-document.ts';
import { reportMistake } from '../session/report-problems.ts';
import { grouped } from '../text/grouped.ts';
import { listing, widthOf } from '../text/listing.ts';
import { count } from '../words/describe-plan.ts';

/** `eddylift results`: which results there are, of what, and how far each is. */
export async function results(
  place: string | null,
  { json }: { readonly json: boolean },
  io: Io,
): Promise<number> {
  const folder = place ?? RESULTS;
  const { results: found, unread } = await listResults(folder, io.cwd);
  for (const what of unread) reportMistake(io, { message: what });
  if (json) {
    printDocument(io, 'results', { folder, results: found.map(jsonOf) });
    return EXIT.done;
  }
  if (found.length === 0) {
    io.stdout.write(`no results in ${folder}\n`);
    return EXIT.done;
  }
  const heads = ['folder', 'when', 'designs', 'feasible', 'front', 'state', 'study'];
  io.stdout.write(listing([heads, ...found.map(row)], Math.max(120, widthOf(io.stdout)), 0));
  return EXIT.done;
}

function row({ folder, summary, designs }: ListedResult): string[] {
  const { title, started, counts, finished, kept } = summary;
  const numberText = (value: number | null | undefined) =>
    value === null || value === undefined ? '-' : grouped(value);
  const far = designs === null ? count(kept, 'design') : `${numberText(kept)} of ${numberText(designs)}`;
  return [
    folder,
    started === null ? '-' : when(started),
    numberText(designs),
    numberText(counts?.feasible),
    numberText(counts?.front),
    finished === null ? far : 'finished',
    title,
  ];
}

/** To the minute, in the time of this machine. */
function when(iso: string): string {
  const date = new Date(iso);
  if (Number.isNaN(date.getTime())) return '-';
  const two = (value: number) => String(value).padStart(2, '0');
  return `${date.getFullYear()}-${two(date.getMonth() + 1)}-${two(date.getDate())} ${two(date.getHours())}:${two(date.getMinutes())}`;
}

function jsonOf({ folder, summary, designs }: ListedResult) {
  const { title, started, finished, counts, kept, seconds } = summary;
  return {
    folder,
    study: title,
    started,
    finished,
    seconds,
    designs,
    evaluated: kept,
    feasible: counts?.feasible ?? null,
    front: counts?.front ?? null,
  };
}
