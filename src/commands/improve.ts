import type { DocumentBody } from '../documents/document-shapes.ts';
import { compileLimit, inputsOf } from '../expression/compile.ts';
import { inItsCurrency } from '../expression/currency.ts';
import { INPUTS } from '../model/inputs.ts';
import type { Limit } from '../model/program.ts';
import { QUANTITIES } from '../model/quantities.ts';
import { STATUS, STATUSES } from '../model/status.ts';
import type { Study } from '../model/study.ts';
import { createDesignReader } from '../rig/design.ts';
import { type Improvement, type Improvements, improve } from '../rig/improve.ts';
import { findDesign } from '../session/find-design.ts';
import { EXIT, type Io } from '../session/io.ts';
import type { DesignChoice } from '../session/named-design.ts';
import { printDocument } from '../session/print-document.ts';
import { reportProblems } from '../session/report-problems.ts';
import { inCurrency } from '../text/currency.ts';
import { listing, widthOf, wrap } from '../text/listing.ts';
import { leverWords, outcomeWords, remedyRows, restingWords } from '../words/improvement-words.ts';

export interface ImproveOptions {
  readonly design: DesignChoice;
  /** A limit such as `height >= 15 mm`; null: that it lifts. */
  readonly aim: string | null;
  readonly json: boolean;
}

/** `eddylift improve`: what would make one design reach an aim, one change at a time, and the best two together. */
export async function improveDesign(
  place: string,
  { design: choice, aim: written, json }: ImproveOptions,
  io: Io,
): Promise<number> {
  const found = await findDesign(place, choice, io);
  if (io.signal.aborted) return EXIT.interrupted;
  if (!found) return EXIT.usage;
  const { study, design, values } = found;
  const reader = createDesignReader(study);
  reader.read(values, 0);
  const { slots } = reader;
  const aim = written === null ? null : readAim(written, study, slots, io);
  if (written !== null && aim === null) return EXIT.usage;
  const improvements = improve(study, slots, aim, true);
  const name = study.vary.length === 0 ? 'The rig' : `Design ${design}`;
  if (json) printDocument(io, 'improve', report(study, slots, design, aim, improvements), study);
  else {
    const text = describe(study, slots, name, aim, improvements, widthOf(io.stdout));
    io.stdout.write(inCurrency(text, study));
  }
  return EXIT.done;
}

/** A limit that every design could be judged by; null, printed on stderr, where it is none. */
function readAim(text: string, study: Study, slots: Float64Array, io: Io): Limit | null {
  const refuse = (code: string, found: string, wanted: string, offset = 0, length = text.length): null => {
    const problem = { code, found, wanted, offset, length: Math.max(1, Math.min(length, text.length)) };
    reportProblems(io, '--aim', text, [problem]);
    return null;
  };
  // statistics take many rigs a design
  const derive = study.derive.filter(({ statistic }) => statistic === undefined);
  const known = derive.length === study.derive.length ? study.derive : [];
  const read = inItsCurrency(text, study.stock?.currency ?? null, (plain) => compileLimit(plain, known));
  if (!read.ok) {
    const { code, found, wanted, at, length } = read.flaw;
    return refuse(code, found, wanted, at, length);
  }
  const absent = [...read.value.left, ...read.value.right].find(
    (one) =>
      one.op === 'quantity' && QUANTITIES[one.index]!.effort > 0 && !study.requested?.includes(one.index),
  );
  if (absent?.op === 'quantity') {
    const { name: quantity } = QUANTITIES[absent.index]!;
    return refuse(
      'on-request',
      `\`${quantity}\`, which this study did not request`,
      'a quantity that it computes, or name it under keep',
    );
  }
  const lacking = [read.value.left, read.value.right]
    .flatMap(inputsOf)
    .find((slot) => Number.isNaN(slots[slot]!));
  if (lacking === undefined) return read.value;
  return refuse(
    'absent-input',
    `\`${INPUTS[lacking]!.name}\`, which the study does not give`,
    'an input that it has',
  );
}

function aimText(aim: Limit | null): string {
  return aim ? aim.text : 'it lifts';
}

function describe(
  study: Study,
  slots: Float64Array,
  name: string,
  aim: Limit | null,
  improvements: Improvements,
  width: number,
): string {
  const { now, met, single, pair } = improvements;
  const lines = [...wrap(`${name} of: ${study.title}`, width)];
  lines.push(...wrap(`As it is: ${outcomeWords(study, now, now)}.`, width));
  if (now.status === STATUS.rests) lines.push(...wrap(restingWords(slots, now.results), width));
  if (met) return `${[...lines, '', `It meets the aim: ${aimText(aim)}.`].join('\n')}\n`;
  const rows = (which: Pick<Improvements, 'single' | 'pair'>) =>
    listing(remedyRows(study, slots, { now, met, ...which }), width);
  const alone =
    single.length === 0
      ? `No single change within a factor of eight makes it so that ${aimText(aim)}.\n`
      : `One change, as far as needed until ${aimText(aim)}, the best first:\n${rows({ single, pair: null })}`;
  const together = pair ? `\nThe best two together:\n${rows({ single: [], pair })}` : '';
  const hint =
    'Try one: eddylift card … --set path=value. Every change is computed with the rest of the rig as it is; local codes and a licensed electrician decide what may be built.';
  return `${lines.join('\n')}\n\n${alone}${together}\n${wrap(hint, width).join('\n')}\n`;
}

function report(
  study: Study,
  slots: Float64Array,
  design: number,
  aim: Limit | null,
  { now, met, single, pair }: Improvements,
): DocumentBody<'improve'> {
  const json = (one: Improvement) => ({
    change: leverWords(one.changes, slots),
    status: STATUSES[one.status]!,
    outcome: outcomeWords(study, now, one),
    breaks: one.broken.map((i) => study.limits[i]!.text),
  });
  return {
    design,
    aim: aimText(aim),
    met,
    now: json(now),
    why: now.status === STATUS.rests ? restingWords(slots, now.results) : null,
    single: single.map(json),
    pair: pair && json(pair),
  };
}
