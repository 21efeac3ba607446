import { spawn } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { performance } from 'node:perf_hooks';
import { fileURLToPath } from 'node:url';
import { type Spread, spreadOf } from './statistics.ts';

const CLI = fileURLToPath(new URL('../../src/cli.js', import.meta.url));
const PEAK_MEMORY = new URL('./peak-memory.js', import.meta.url).href;

/** Every design's coil differs from its neighbour's, so that nothing is shared between neighbours. */
const STUDY = `study: One hundred thousand foyer tables
rig:
  floats: coil
  coil: {wire: 2 mm, insulation: grade 2, layers: 8, extra_mass: 150 g}
  plate: {metal: aluminium-1050}
  standoff: 2 mm
  supply: {frequency: 50 Hz}
vary:
  coil.metal: [aluminium, copper]
  drive.current: {from: 10 A, to: 16 A, count: 5}
  plate.thickness: {from: 1 mm, to: 12 mm, count: 20, spacing: log}
  coil.turns: {from: 300, to: 545, step: 5}
  coil.inner_radius: {from: 40 mm, to: 58 mm, step: 2 mm}
limits: [voltage <= 230 V, current_density <= 5 A/mm^2]
objectives: [{maximise: height / current}, {minimise: coil_mass}]
`;

export const WHOLE_STUDY_DESIGNS = 100_000;

export interface WholeStudy {
  readonly threads: number;
  /** From the start of the process to its end, tables written. */
  readonly seconds: Spread;
  readonly peakMemoryMB: Spread;
}

/** Runs the built command line on 100,000 designs in a process of its own, several times. */
export async function benchWholeStudy(threads: number, rounds: number): Promise<WholeStudy> {
  const folder = mkdtempSync(join(tmpdir(), 'eddylift-bench-'));
  try {
    writeFileSync(join(folder, 'study.yaml'), STUDY);
    const seconds: number[] = [];
    const megabytes: number[] = [];
    for (let round = 0; round < rounds; round++) {
      const run = await runOnce(folder, threads, `result-${round}`);
      seconds.push(run.seconds);
      megabytes.push(run.peakKB / 1024);
    }
    return { threads, seconds: spreadOf(seconds), peakMemoryMB: spreadOf(megabytes) };
  } finally {
    rmSync(folder, { recursive: true });
  }
}

function runOnce(folder: string, threads: number, out: string): Promise<{ seconds: number; peakKB: number }> {
  const args = ['--import', PEAK_MEMORY, CLI, 'run', 'study.yaml', '--quiet', '--out', out];
  const began = performance.now();
  const child = spawn(process.execPath, [...args, '--threads', String(threads)], {
    cwd: folder,
    stdio: ['ignore', 'ignore', 'inherit', 'pipe'],
  });
  let peak = '';
  child.stdio[3]!.on('data', (chunk) => {
    peak += String(chunk);
  });
  return new Promise((resolve, reject) => {
    child.on('close', (code) => {
      if (code !== 0) reject(new Error(`the study ended with exit code ${code}`));
      else resolve({ seconds: (performance.now() - began) / 1000, peakKB: Number(peak) });
    });
  });
}
