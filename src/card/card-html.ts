import { Q } from '../model/quantities.ts';
import { buildCard } from '../report/build-card.ts';
import type { CardSection } from '../report/card-input.ts';
import { floatingCurve } from '../report/floating-curve.ts';
import { createPlateHeatProfiles } from '../rig/plate-heat-profile.ts';
import { sidewaysPoint } from '../rig/sideways-curve.ts';
import { designMotion } from '../words/design-motion.ts';
import { designWarming } from '../words/design-warming.ts';
import { SENSITIVITY_TITLE } from '../words/sensitivity-words.ts';
import type { BenchCard } from './bench-card.ts';
import { CHANGE_TITLE, changeRows } from './card-change.ts';
import { curveColumns, curveTitle } from './card-curve.ts';
import {
  limitRows,
  operatingTopics,
  SPREAD_TITLE,
  spreadRows,
  windingTitle,
  windingTopics,
} from './card-topics.ts';

/** The curve goes on beyond the table's last current by this, so that its end can be seen. */
const BEYOND = 1.05;

/** Quantities whose sensitivities fit below the cautions; the card as text has them all. */
const MOST_CHANGES = 3;

/** A card as a page that prints on both sides of one sheet: drawing, table and lift curve on the front, cautions on the back. */
export function cardHtml(card: BenchCard, version: string): Promise<string> {
  const { study, design, values, slots, point, curve, windings, limits, cautions, status, reason } = card;
  const answered = curve.length > 0;
  // the long one last: two columns then come out about even
  const sections: CardSection[] = [
    { heading: 'The rig', rows: card.rig },
    ...windings.map((guide, w) => ({ heading: windingTitle(card, w), rows: windingTopics(card, guide) })),
    ...(limits.length > 0 ? [{ heading: 'Limits of the study', rows: limitRows(limits) }] : []),
    answered
      ? { heading: 'At its own drive', rows: operatingTopics(card) }
      : { heading: `No answer: ${status}`, rows: [[reason]] },
  ];
  const heat = createPlateHeatProfiles(study)(values);
  // every column of a page has a name, for those who hear it read
  const columns = curveColumns(card).map((column) => ({ ...column, label: column.label || 'state' }));
  const top = Math.max(...curve.map(({ current }) => current));
  return buildCard({
    study,
    design,
    name: card.name,
    drawn: answered
      ? { values, slots, results: point.results, heat, sideways: sidewaysPoint(slots, point.results) }
      : null,
    sections,
    wide: card.change
      ? { heading: CHANGE_TITLE, rows: changeRows(card, card.change) }
      : card.spread && { heading: SPREAD_TITLE, rows: spreadRows(card) },
    last: card.sensitivities && {
      heading: SENSITIVITY_TITLE,
      rows: card.sensitivities.rows.slice(0, MOST_CHANGES),
    },
    table: answered ? { heading: curveTitle(card), columns } : null,
    lift: answered
      ? floatingCurve(study.rig, slots, BEYOND * Math.max(top, point.current), point.current)
      : [],
    motion: answered ? designMotion(study.rig, slots) : null,
    warming: answered ? designWarming(study.rig, slots) : null,
    operating: answered ? { current: point.current, height: point.results[Q.height]! } : null,
    cautions,
    version,
  });
}
