import { makeCard } from '../card/bench-card.ts';
import { cardJson } from '../card/card-json.ts';
import { cardText } from '../card/card-text.ts';
import { compileLate } from '../run/late-compiling.ts';
import { changeRig } from '../session/change-rig.ts';
import { findDesign } from '../session/find-design.ts';
import { EXIT, type Io } from '../session/io.ts';
import type { DesignChoice } from '../session/named-design.ts';
import { printDocument } from '../session/print-document.ts';
import { version } from '../session/version.ts';
import { inCurrency } from '../text/currency.ts';

export interface CardOptions {
  readonly design: DesignChoice;
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
  compileLate();
  const found = await findDesign(place, design, io);
  if (io.signal.aborted) return EXIT.interrupted;
  if (!found) return EXIT.usage;
  const own = makeCard(found.study, found.design, found.values);
  const changed = set.length === 0 ? null : changeRig(found, set, io);
  if (set.length > 0 && !changed) return EXIT.usage;
  const made = changed
    ? // from stock, of which the one part of this design is left
      makeCard(changed.study, found.design, new Float64Array(changed.study.vary.length), {
        before: own,
        changes: changed.changes,
      })
    : own;
  const print = (text: string) => void io.stdout.write(inCurrency(text, found.study));
  if (html) {
    // charts take half a second to load
    const { cardHtml } = await import('../card/card-html.ts');
    print(await cardHtml(made, version()));
  } else if (json) printDocument(io, 'card', cardJson(made), found.study);
  else print(cardText(made, Math.min(WIDEST, io.stdout.columns ?? WIDEST)));
  return EXIT.done;
}
