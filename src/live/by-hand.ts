import { bandImageForce, heightOfForce, wireImageForce } from '../kernel/image-forces.ts';
import { FLOATS, SLOT } from '../model/inputs.ts';
import { Q } from '../model/quantities.ts';
import { UNITS } from '../model/units.ts';
import { html, type Markup } from '../report/text/html.ts';
import { createCoil } from '../rig/coil.ts';
import { measureText, numberText } from '../text/number-text.ts';
import type { RigView } from './compute-view.ts';
import type { LiveStudy } from './live-data.ts';

const HIGHEST = 10;

/** The exact answer beside the hand formulas, and why they differ. */
export function byHand({ rig }: Pick<LiveStudy, 'rig'>, { slots, results }: RigView): Markup {
  const current = results[Q.current]!;
  const coil = createCoil(rig.windings);
  if (Number.isNaN(current)) return html`<p>There is no answer to compare with.</p>`;
  coil.fill(slots);
  if (coil.windings.length > 1) return html`<p>The hand formulas are for a coil of one winding.</p>`;
  const { section, input } = coil.windings[0]!;
  const { turns } = input;
  const radius = (section.innerRadius + section.outerRadius) / 2;
  const width = section.outerRadius - section.innerRadius;
  const middle = section.height / 2;
  const standoff = slots[SLOT.standoff]!;
  const exact = results[Q.lift_force]!;
  const liftoff = results[Q.liftoff_current]!;
  const floats = slots[SLOT.floats] !== FLOATS.nothing;
  const weight = exact * (liftoff / current) ** 2;
  const lifts = {
    wire: (gap: number) => wireImageForce(turns * current, radius, gap + middle),
    band: (gap: number) => bandImageForce(turns * current, radius, width, gap + middle),
  };
  const row = (lift: (gap: number) => number) => {
    const gap = heightOfForce(lift, weight, standoff, HIGHEST);
    return {
      lift: lift(standoff),
      liftoff: current * Math.sqrt(weight / lift(standoff)),
      height: Number.isNaN(gap) ? 0 : gap - standoff,
    };
  };
  const rows: [string, { lift: number; liftoff: number; height: number }][] = [
    ['field equations', { lift: exact, liftoff, height: results[Q.height]! }],
    ['thin wire over its image', row(lifts.wire)],
    ['flat band over its image', row(lifts.band)],
  ];
  const skin = results[Q.skin_depth]!;
  const many = results[Q.thickness_in_skin_depths]!;
  return html`<div class="scroll" tabindex="0" role="region" aria-label="By hand and by field equations"><table><thead><tr><th scope="col" class="text">computed by</th><th scope="col">lift at rest</th>${floats ? [html`<th scope="col">lift-off</th>`, html`<th scope="col">height</th>`] : null}</tr></thead><tbody>${rows.map(
    ([name, { lift, liftoff: current0, height }]) =>
      html`<tr><th scope="row" class="text">${name}</th><td>${measureText(lift, UNITS.N)}</td>${floats ? [html`<td>${measureText(current0, UNITS.A)}</td>`, html`<td>${measureText(height, UNITS.mm)}</td>`] : null}</tr>`,
  )}</tbody></table></div>
<p><b>Thin wire:</b> F = µ₀ (N I)² R / (2 h), all turns in one wire of mean radius R = ${measureText(radius, UNITS.mm)} at h = ${measureText(standoff + middle, UNITS.mm)}, the middle of the winding. <b>Flat band:</b> the turns spread over a width w = ${measureText(width, UNITS.mm)}, F = 2 R µ₀ (N I)² / w² · (w arctan(w/d) − (d/2) ln(1 + w²/d²)) with d = 2 h.</p>
<p><b>Why they differ:</b> both take a plate without resistance, whose currents flow at its face and return a whole image of the coil. ${skinWords(skin, many)} Both also take the turn as straight, which holds while h is small beside R. The thin wire has all turns at one place: close to the plate that is too strong, because turns apart from each other press less. Close up the band is better, far away both agree.</p>`;
}

function skinWords(skin: number, many: number): string {
  const depth = `Here the currents go ${measureText(skin, UNITS.mm)} deep (skin depth), so the image lies deeper and is weaker.`;
  return many < 2
    ? `${depth} The plate is only ${numberText(many)} skin depths thick: part of the field gets through it.`
    : `${depth} The plate is ${numberText(many)} skin depths thick: nearly nothing gets through it.`;
}
