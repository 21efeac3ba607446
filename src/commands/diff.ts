import { kneeRow } from '../front/landmarks.ts';
import type { Objective } from '../model/program.ts';
import { column } from '../model/rows.ts';
import { findResult } from '../session/find-result.ts';
import { EXIT, type Io } from '../session/io.ts';
import { type MatchedDesign, matchDesigns } from '../session/match-designs.ts';
import { type ResultFront, resultFront } from '../session/result-front.ts';
import { studyDifferences } from '../study/study-differences.ts';
import { grouped } from '../text/grouped.ts';
import { listing, widthOf } from '../text/listing.ts';
import { measure } from '../text/significant.ts';
import { count } from '../words/describe-plan.ts';

/** Matched designs that are listed. */
const LISTED = 10;

/** `eddylift diff`: two results side by side: what in the study differs, how the fronts differ, the designs of both. */
export async function diff(places: readonly [string, string], io: Io): Promise<number> {
  const [one, other] = [await findResult(places[0], io), await findResult(places[1], io)];
  if (!one || !other) return EXIT.usage;
  const [a, b] = [await resultFront(one, places[0], io), await resultFront(other, places[1], io)];
  if (!a || !b) return EXIT.interrupted;
  const width = widthOf(io.stdout);
  const differences = studyDifferences(one.study.text, other.study.text);
  const rows = differences.map(({ path, one: left, other: right }) => [path, left ?? '-', right ?? '-']);
  const heads = ['', places[0], places[1]];
  io.stdout.write(
    rows.length === 0
      ? 'The studies are the same but for layout and comments.\n'
      : `What differs in the study\n${listing([heads, ...rows], width)}`,
  );
  const counted = [
    ['designs', a.designs, b.designs],
    ['feasible', a.feasible, b.feasible],
    ['on the front', frontCount(a), frontCount(b)],
  ].map((cells) => cells.map((cell) => (typeof cell === 'number' ? grouped(cell) : cell)));
  io.stdout.write(`\nWhat came of it\n${listing([heads, ...counted, ...landmarkRows(a, b)], width)}`);
  if (frontCount(a) === 0 || b.designs === 0) return EXIT.done;
  const matched = await matchDesigns(a, { ...b, folder: other.folder }, io.signal);
  if (io.signal.aborted) return EXIT.interrupted;
  io.stdout.write(`\n${matchedText(a, b, matched, places, width)}`);
  return EXIT.done;
}

function frontCount({ study, front }: ResultFront): number {
  return study.objectives.length === 0 ? 0 : front.count;
}

/** The objectives that both studies have, with their place in each. */
function shared(a: ResultFront, b: ResultFront): (readonly [Objective, number, number])[] {
  return a.study.objectives.flatMap((objective, i) => {
    const j = b.study.objectives.findIndex(
      ({ text, sense }) => text === objective.text && sense === objective.sense,
    );
    return j < 0 ? [] : [[objective, i, j] as const];
  });
}

/** Per shared objective the best of each front, then the compromise of each. */
function landmarkRows(a: ResultFront, b: ResultFront): string[][] {
  const valueText = ({ front }: ResultFront, o: number, row: number, { unit }: Objective) =>
    front.count === 0
      ? '-'
      : `${measure(column(front, front.objectives, o)[row]!, unit)} (design ${front.designs[row]})`;
  const best = ({ front }: ResultFront, o: number, { sense }: Objective) => {
    const values = column(front, front.objectives, o);
    const sign = sense === 'maximise' ? -1 : 1;
    return values.reduce((least, value, row) => (sign * value < sign * values[least]! ? row : least), 0);
  };
  const knee = ({ study, front }: ResultFront) =>
    front.count === 0
      ? 0
      : kneeRow(
          study.objectives.map((_, o) => column(front, front.objectives, o)),
          study.objectives.map(({ sense }) => sense),
        );
  return shared(a, b).flatMap(([objective, i, j]) => [
    [
      `best: ${objective.sense} ${objective.text}`,
      valueText(a, i, best(a, i, objective), objective),
      valueText(b, j, best(b, j, objective), objective),
    ],
    ...(a.study.objectives.length > 1
      ? [
          [
            `compromise: ${objective.text}`,
            valueText(a, i, knee(a), objective),
            valueText(b, j, knee(b), objective),
          ],
        ]
      : []),
  ]);
}

function matchedText(
  a: ResultFront,
  b: ResultFront,
  matched: readonly MatchedDesign[],
  [first, second]: readonly [string, string],
  width: number,
): string {
  const onBoth = matched.filter(({ design }) => b.front.designs.includes(design)).length;
  const infeasible = matched.filter(({ feasible }) => !feasible).length;
  const heading = `Of ${count(a.front.count, 'design')} on the front of ${first}, ${matched.length} are in ${second}, too: ${onBoth} on its front, ${infeasible} not feasible there.`;
  const objectives = shared(a, b);
  if (matched.length === 0 || objectives.length === 0) return `${heading}\n`;
  const rows = matched.slice(0, LISTED).map(({ row, design, objectives: values, feasible }) => [
    String(a.front.designs[row]!),
    String(design),
    objectives
      .map(([objective, i, j]) => {
        const [was, is] = [column(a.front, a.front.objectives, i)[row]!, values[j]!];
        return `${objective.text}: ${measure(was, objective.unit)} -> ${measure(is, objective.unit)}`;
      })
      .join('; ') + (feasible ? '' : ' (not feasible)'),
  ]);
  const which = matched.length > LISTED ? `, the first ${LISTED}` : '';
  return `${heading}\nDesigns of ${first} and ${second} with the same values of what varies${which}:\n${listing(rows, width)}`;
}
