import { makeCard } from '../card/bench-card.ts';
import { cardJson } from '../card/card-json.ts';
import { cardText } from '../card/card-text.ts';
import { changeRig } from '../session/change-rig.ts';
import { findDesign } from '../session/find-design.ts';
import { EXIT, type Io } from '../session/io.ts';
import type { AskedDesign } from '../session/named-design.ts';
import { version } from '../session/version.ts';

export interface CardOptions {
  readonly design: AskedDesign;
  /** Inputs to change, each as `path=value`. */
  readonly set?: readonly string[];
  readonly json: boolean;
  /** A page to print instead of text. */
  readonly html: boolean;
}

/** Widest card: it is printed and hung up at the bench. */
const WIDEST = 80;

/** `eddylift card`: the bench card of one design of a study, or of the study of a result folder. */
export async function card(
  place: string,
  { design, set = [], json, html }: CardOptions,
  io: Io,
): Promise<number> {
  const found = await findDesign(place, design, io);
  if (io.signal.aborted) return EXIT.interrupted;
  if (!found) return EXIT.usage;
  const own = makeCard(found.study, found.design, found.values);
  const changed = set.length === 0 ? null : changeRig(found, set, io);
  if (set.length > 0 && !changed) return EXIT.usage;
  const made = changed
    ? makeCard(changed.study, found.design, new Float64Array(0), { before: own, changes: changed.changes })
    : own;
  if (html) {
    // charts take half a second to load
    const { cardHtml } = await import('../card/card-html.ts');
    io.stdout.write(await cardHtml(made, version()));
  } else if (json) io.stdout.write(`${JSON.stringify(cardJson(made))}\n`);
  else io.stdout.write(cardText(made, Math.min(WIDEST, io.stdout.columns ?? WIDEST)));
  return EXIT.done;
}
