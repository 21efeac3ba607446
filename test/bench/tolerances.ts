import { performance } from 'node:perf_hooks';
import { QUANTITIES } from '../../src/model/quantities.ts';
import type { Study } from '../../src/model/study.ts';
import { createGrid } from '../../src/plan/grid.ts';
import { createDesignReader } from '../../src/rig/design.ts';
import { createEvaluator } from '../../src/rig/evaluate.ts';
import { createTries } from '../../src/rig/tries.ts';
import { readStudy } from '../../src/study/read-study.ts';
import { type Spread, spreadOf } from './statistics.ts';

export interface ToleranceTimes {
  readonly name: string;
  /** ms a design, statistics and limits included. */
  readonly taken: Spread;
  /** How many times as long it takes to evaluate every law of every rig. */
  readonly gain: Spread;
  readonly target: string;
}

/** A foyer coil whose workshop leaves open what `studies/bench/next-design.yaml` does. */
function study(plate: string, tolerance: string, limit = ''): string {
  return `study: Foyer coils within tolerances
rig:
  floats: coil
  coil: {metal: aluminium, wire: 2 mm, insulation: grade 2, inner_radius: 50 mm, extra_mass: 150 g, thermal_class: 130}
  plate: {metal: aluminium-1050, thickness: 12 mm${plate}}
  standoff: 2.8 mm
  supply: {frequency: 50 Hz}
  surroundings: {temperature: 22 degC}
drive: {current: 12 A}
tolerance:
  standoff: 0.16 mm
  coil.extra_mass: 20 g
  coil.wire: 0.5 %
  coil.turns: {size: 2, spread: uniform}
  drive.current: 1 %
${tolerance}
vary:
  coil.turns: {from: 380, to: 560, step: 20}
  coil.layers: [6, 8, 10, 12]
limits: [height >= 17 mm, voltage <= 120 V${limit}, probability(limits) >= 0.95]
objectives: [{maximise: p05(height)}, {minimise: coil_mass}]
`;
}

/** Rounds that nobody counts: V8 compiles the loops over rigs anew until it has seen them all. */
const WARMING = 8;
/** Designs whose rigs are evaluated one by one in a round. */
const PLAIN = 5;

const PLATE = '  plate.metal.resistivity: 7.4e-10 ohm m';

/** Designs with their statistics, and the same rigs one by one, in turns. */
export function benchTolerances(rounds = 9): ToleranceTimes[] {
  const disc = ', radius: 200 mm';
  return [
    time('a wide plate', study('', PLATE), '<= 1.5 ms', rounds),
    time('the same, and the winding’s heat', study('', PLATE, ', coil_temperature <= 90 degC'), '', rounds),
    time('a shared disc', study(disc, ''), '<= 6 ms', rounds),
    time('a disc with tolerances of its own', study(disc, PLATE), '', 1),
  ];
}

function time(name: string, text: string, target: string, rounds: number): ToleranceTimes {
  const read = readStudy(text);
  if ('problems' in read) throw new Error(read.problems[0]!.found);
  const { study: task } = read;
  const batch = createGrid(task.vary).next()!;
  const evaluate = createEvaluator(task);
  const plainly = evaluatePlainly(task);
  const few = Math.min(PLAIN, batch.count);
  const taken: number[] = [];
  const plain: number[] = [];
  // the first rounds compile, and factorise what designs share
  for (let round = rounds > 1 ? -WARMING : -1; round < rounds; round++) {
    const fast = timed(() => evaluate(batch), batch.count);
    const slow = timed(() => plainly(batch.values, few), few);
    if (round < 0) continue;
    taken.push(fast);
    plain.push(slow);
  }
  return { name, taken: spreadOf(taken), gain: spreadOf(plain.map((slow, i) => slow / taken[i]!)), target };
}

/** Every law of every rig of the first few designs. */
function evaluatePlainly(task: Study): (values: Float64Array, designs: number) => void {
  const every = new Set(QUANTITIES.filter(({ effort }) => effort === 0).map(({ index }) => index));
  const tries = createTries(task, task.tolerance!, [], every, false);
  const reader = createDesignReader(task);
  return (values, designs) => {
    for (let i = 0; i < designs; i++) {
      reader.read(values, i * task.vary.length);
      tries.run(reader.slots);
    }
  };
}

/** ms a design. */
function timed(run: () => void, designs: number): number {
  const began = performance.now();
  run();
  return (performance.now() - began) / designs;
}
