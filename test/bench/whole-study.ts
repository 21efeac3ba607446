import { spawn, spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { performance } from 'node:perf_hooks';
import { fileURLToPath } from 'node:url';

const CLI = fileURLToPath(new URL('../../program/cli.js', import.meta.url));
const PEAK_MEMORY = new URL('./peak-memory.js', import.meta.url).href;

/**
 * Every input that a quantity needs is given, and every design's coil differs from its neighbour's, so that little is
 * shared between neighbours. 1000 coils for each thickness and current.
 */
function study([currents, thicknesses]: readonly [number, number]): string {
  return `study: Foyer tables, ${currents} currents, ${thicknesses} plates
rig:
  floats: coil
  coil: {wire: 2 mm, insulation: grade 2, layers: 8, extra_mass: 150 g, thermal_class: 130}
  plate: {metal: aluminium-1050, radius: 350 mm, edge: ignored}
  standoff: {thickness: 2 mm, breakdown: 20 kV/mm}
  supply: {frequency: 50 Hz, line_voltage: 230 V, max_voltage: 230 V, max_current: 16 A, series_resistance: 0.1 ohm,
           fuse: {rating: 16 A, kind: gG, side: line}}
  surroundings: {temperature: 22 degC, visitor_distance: 0.6 m}
vary:
  coil.metal: [aluminium, copper]
  drive.current: {from: 10 A, to: 16 A, count: ${currents}}
  plate.thickness: {from: 1 mm, to: 12 mm, count: ${thicknesses}, spacing: log}
  coil.turns: {from: 300, to: 545, step: 5}
  coil.inner_radius: {from: 40 mm, to: 58 mm, step: 2 mm}
limits: [voltage <= 230 V, current_density <= 5 A/mm^2]
objectives: [{maximise: height / current}, {minimise: coil_mass}]
`;
}

/** Designs, and currents and thicknesses that make as many of 1000 coils. */
const SIZES = {
  10000: [5, 2],
  100000: [5, 20],
  1000000: [50, 20],
  3000000: [50, 60],
  10000000: [50, 200],
} as const;

export type Size = keyof typeof SIZES;

export interface Ended {
  /** From the start of the process to its end. */
  readonly seconds: number;
  readonly peakMemoryMB: number;
}

/** The built command line on whole studies, each run in a process of its own. */
export interface WholeStudies {
  /**
   * Evaluates a study of so many designs and writes its tables, CSV included; its result stays until `remove`. With a
   * queue's address its workers evaluate.
   */
  run(designs: Size, threads: number, queue?: string): Promise<Ended>;
  /** Evaluates a study of so many designs and leaves its rows on disk, without tables. */
  evaluate(designs: Size, threads: number): Promise<Ended>;
  /** `run` with one thread and one core for all of it: evaluation, tables, disk, V8's collector and compiler. */
  runOnOneCore(designs: Size): Promise<Ended>;
  /** The front of a result under another limit and other objectives. */
  front(designs: Size, threads: number): Promise<Ended>;
  remove(designs: Size): void;
  end(): void;
}

/** Whether a process can be kept to one core here: with util-linux's tool. */
export const canPin = spawnSync('taskset', ['-c', '0', process.execPath, '--version']).status === 0;

export function createWholeStudies(): WholeStudies {
  const folder = mkdtempSync(join(tmpdir(), 'eddylift-bench-'));
  const run = (designs: Size, threads: number, options: readonly string[], pinned = false) => {
    remove(designs);
    writeFileSync(join(folder, 'study.yaml'), study(SIZES[designs]));
    const place = ['--out', `${designs}`, '--threads', `${threads}`];
    return timed(folder, ['run', 'study.yaml', '--quiet', ...place, ...options], pinned);
  };
  const remove = (designs: Size) => rmSync(join(folder, `${designs}`), { recursive: true, force: true });
  return {
    run: (designs, threads, queue) =>
      run(designs, threads, ['--csv', ...(queue === undefined ? [] : ['--queue', queue])]),
    evaluate: (designs, threads) => run(designs, threads, ['--share', '1/1']),
    runOnOneCore: (designs) => run(designs, 1, ['--csv'], true),
    front(designs, threads) {
      const asked = ['--limit', 'current <= 14 A', '--maximise', 'height', '--minimise', 'power'];
      return timed(folder, ['front', `${designs}`, ...asked, '--threads', `${threads}`]);
    },
    remove,
    end: () => rmSync(folder, { recursive: true, force: true }),
  };
}

function timed(folder: string, args: readonly string[], pinned = false): Promise<Ended> {
  const command = [...(pinned ? ['taskset', '-c', '0'] : []), process.execPath, '--import', PEAK_MEMORY, CLI];
  const began = performance.now();
  const child = spawn(command[0]!, [...command.slice(1), ...args], {
    cwd: folder,
    stdio: ['ignore', 'ignore', 'inherit', 'pipe'],
  });
  let peak = '';
  child.stdio[3]!.on('data', (chunk) => {
    peak += String(chunk);
  });
  return new Promise((resolve, reject) => {
    child.on('close', (code) => {
      if (code !== 0) reject(new Error(`eddylift ${args[0]} ended with exit code ${code}`));
      else resolve({ seconds: (performance.now() - began) / 1000, peakMemoryMB: Number(peak) / 1024 });
    });
  });
}
