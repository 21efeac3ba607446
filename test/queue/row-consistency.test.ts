import { expect, it } from 'vitest';
import { REASON, STATUS } from '../../src/model/status.ts';
import { createPlan } from '../../src/plan/create-plan.ts';
import { contradiction } from '../../src/queue/row-consistency.ts';
import { createEvaluator } from '../../src/rig/evaluate.ts';
import { readStudy } from '../../src/study/read-study.ts';

const STUDY = `study: Foyer coils at a weak outlet
rig:
  floats: coil
  coil: {metal: aluminium, wire: 2 mm, insulation: grade 2, layers: 8, inner_radius: 50 mm}
  plate: {metal: aluminium-1050, thickness: 12 mm}
  standoff: 2 mm
  supply: {frequency: 50 Hz, max_voltage: 120 V}
drive: {current: 12 A}
vary:
  coil.turns: {from: 300, to: 540, step: 40}
objectives: [{maximise: height}]
`;

it('rows agree with themselves where a design lifts that its supply cannot feed', () => {
  const reading = readStudy(STUDY);
  if ('problems' in reading) throw new Error(reading.problems[0]!.found);
  const work = createPlan(reading.study).next()!;
  if ('from' in work) throw new Error('a grid has batches');
  const rows = createEvaluator(reading.study)(work);
  const beyond = Array.from(rows.status, (status, i) => [status, rows.reason[i]]);
  expect(beyond).toContainEqual([STATUS.lifts, REASON.beyondVoltage]);
  expect(contradiction(rows)).toBeNull();
  const odd = rows.reason.map((reason) => (reason === REASON.beyondVoltage ? REASON.weak : reason));
  expect(contradiction({ ...rows, reason: odd })).toMatch(/lifts with a reason not to/);
});
