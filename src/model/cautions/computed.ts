import { UNITS } from '../units.ts';
import type { CautionRule } from './caution-rule.ts';

/** What the numbers leave out. */
export const COMPUTED_RULES: readonly CautionRule[] = [
  {
    id: 'saturation',
    hazard: 'model',
    brief: 'the steel saturates',
    topic: 'saturation of the plate',
    rule: 'the steel saturates: a linear plate is optimistic',
    value: 'plateFluxDensity',
    raisedWhen: 'above',
    threshold: 1.5,
    only: 'plateIsMagnetic',
    unit: UNITS.T,
    source: 'saturation of plain steel begins near 1.5 T (from memory)',
    advice:
      'Take a thicker sheet, a larger gap or less current, or expect less heat than computed and measure.',
  },
  {
    id: 'packing',
    hazard: 'model',
    brief: 'packed closer than hand winding can',
    topic: 'packing of the wires',
    rule: 'wires packed closer than hand winding can: more than pi/4 of the section',
    value: 'packing',
    raisedWhen: 'above',
    threshold: Math.PI / 4,
    unit: UNITS.one,
    source: 'square order fills pi/4, the hexagonal one 0.9069 (geometry)',
    advice: 'Allow a larger section, or plan on winding layer into layer with care.',
  },
  {
    id: 'strands-circulate',
    hazard: 'model',
    brief: 'currents between wires in hand',
    topic: 'currents between wires in hand',
    rule: 'currents circulate between wires in hand that do not change places',
    value: 'strandCirculation',
    raisedWhen: 'above',
    threshold: 0.05,
    unit: UNITS.one,
    source: 'the flux between wires side by side, against rings solved one by one (computed)',
    advice:
      'Twist or transpose the wires (litz) and write `transposed: yes`; with `transposed: no` the resistance includes this, else it does not.',
  },
  {
    id: 'small-magnetic-plate',
    hazard: 'model',
    brief: 'edge of the magnetic plate left out',
    topic: 'edge of a magnetic plate',
    rule: 'a magnetic plate hardly wider than the coil is computed as infinitely wide',
    value: 'plateOverCoilRadius',
    raisedWhen: 'below',
    threshold: 2,
    only: 'plateIsMagnetic',
    unit: UNITS.one,
    source: 'the finite disc is solved for plates that are not magnetic only',
    advice: 'Take the numbers as a guide and measure; the rim of the plate is left out.',
  },
];
