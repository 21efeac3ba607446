import { axisField } from '../kernel/axis-field.ts';
import type { CoilWinding } from '../kernel/disc/coil-source.ts';
import { VisitorField } from '../kernel/visitor-field.ts';
import { SLOT } from '../model/inputs.ts';
import { Q } from '../model/quantities.ts';
import type { RigState } from './state.ts';

/** Working storage of `computeExposure`; one set an evaluator. */
export interface ExposureWork {
  /** One each: what follows from a distance alone is kept from design to design. */
  readonly atVisitor: VisitorField;
  readonly atOperator: VisitorField;
  readonly sections: CoilWinding[];
}

export function createExposureWork(): ExposureWork {
  return { atVisitor: new VisitorField(), atOperator: new VisitorField(), sections: [] };
}

/** The field where a visitor and the operator stand, and in the middle of the coil. */
export function computeExposure(rig: RigState, work: ExposureWork): void {
  const { atVisitor, atOperator, sections } = work;
  const { slots, results, coil } = rig;
  for (let w = 0; w < coil.count; w++) sections[w] = coil.windings[w]!.section;
  const visitor = slots[SLOT.visitorDistance]!;
  if (!Number.isNaN(visitor)) {
    evaluate(atVisitor, rig, sections, visitor);
    results[Q.field_visitor] = rig.current * atVisitor.beside;
    results[Q.field_on_axis] = rig.current * atVisitor.onAxis;
  }
  const operator = slots[SLOT.operatorDistance]!;
  if (!Number.isNaN(operator)) {
    evaluate(atOperator, rig, sections, operator);
    results[Q.field_operator] = rig.current * atOperator.beside;
    results[Q.field_on_axis_operator] = rig.current * atOperator.onAxis;
  }
  results[Q.field_at_coil] = rig.current * fieldInside(rig);
}

function evaluate(
  field: VisitorField,
  rig: RigState,
  sections: readonly CoilWinding[],
  distance: number,
): void {
  field.evaluate(sections, rig.coil.count, rig, rig.gap, distance);
}

/** T/A on the axis in the coil's mid-plane; what windings of opposite sense cancel there they do not cancel nearby. */
function fieldInside({ coil }: RigState): number {
  let sum = 0;
  for (let w = 0; w < coil.count; w++) {
    const { section } = coil.windings[w]!;
    sum += Math.abs(axisField(section, coil.height / 2 - section.offset - section.height / 2));
  }
  return sum;
}
