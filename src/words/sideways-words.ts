import { FLOATS, SLOT } from '../model/inputs.ts';
import { Q } from '../model/quantities.ts';
import { UNITS } from '../model/units.ts';
import { sidesOf } from '../rig/plate-outline.ts';
import { USUAL_SHIFT } from '../rig/sideways.ts';
import { whyNoSideways } from '../rig/sideways-plates.ts';
import { measure, significant } from '../text/significant.ts';

/** Squares up to this half side, in coil radii, push like their disc within 12 % (test/kernel/plate-outline.test.ts). */
const CHECKED_SQUARE = 0.9;

/** Below this part of the weight nothing is pushed anywhere that a breath of air would not push it. */
const NOTHING = 1e-3;

/**
 * What happens sideways, in parts: `pushed off: 0.19 of its weight at 40 mm`, `guide posts with 2 mm of play take 0.4 N`,
 * `leans back with 0.11 N·m/°`. Empty where nothing floats or nothing is known.
 * @param results with what is computed on request, SI
 */
export function sidewaysWords(slots: Float64Array, results: Float64Array): string[] {
  const stiffness = results[Q.sideways_stiffness]!;
  const force = results[Q.sideways_force]!;
  if (slots[SLOT.floats] === FLOATS.nothing) {
    return force > 0
      ? [`the plate is pushed off: ${measure(force, UNITS.N)} at ${shiftText(slots, results)}`]
      : [];
  }
  if (Number.isNaN(stiffness) || Number.isNaN(force)) {
    const why = results[Q.height]! > 0 ? whyNoSideways(results[Q.coil_outer_radius]!, slots) : null;
    return why === null ? [] : [`not judged: ${why}`];
  }
  const overWeight = force / (results[Q.fall_energy]! / results[Q.height]!);
  const weighed = `${significant(Math.abs(overWeight))} of its weight at ${shiftText(slots, results)}`;
  const tilt = results[Q.tilt_stiffness]!;
  const centring = results[Q.centring_stiffness]!;
  const parts =
    Math.abs(overWeight) < NOTHING
      ? ['nothing pushes it sideways, and nothing holds it']
      : stiffness < 0
        ? [`pushed off: ${weighed}`]
        : [`${force < 0 ? 'centres itself' : 'centres itself near the axis'}: ${weighed}`];
  if (stiffness > 0 && centring < 0) parts.push('but slides off once it is free to lean');
  parts.push(tilt > 0 ? `leans back with ${measure(tilt, UNITS.N_m_per_deg)}` : 'tips over by itself');
  const posts = results[Q.post_force]!;
  if (!Number.isNaN(posts)) {
    parts.push(
      `guide posts with ${measure(slots[SLOT.guidesPlay]!, UNITS.mm)} of play take ${measure(posts, UNITS.N)}`,
    );
  }
  const sides = sidesOf(slots);
  if (sides && stiffness !== 0) {
    const isChecked = sides[0] <= 2 * CHECKED_SQUARE * results[Q.coil_outer_radius]!;
    const how = isChecked ? 'within 12 %' : 'which is not checked for so large a square';
    parts.push(`computed as over the disc that lifts alike, ${how}`);
  }
  return parts;
}

function shiftText(slots: Float64Array, results: Float64Array): string {
  const shift = slots[SLOT.sidewaysShift]!;
  return measure(Number.isNaN(shift) ? USUAL_SHIFT * results[Q.coil_outer_radius]! : shift, UNITS.mm);
}
