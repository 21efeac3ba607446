import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { type Spread, spreadOf } from './statistics.ts';

/** Processor time of whole commands, from the start of the process to its end, all threads. */
export interface StartUp {
  readonly what: string;
  readonly measured: Spread;
  readonly target: string;
}

/** The row that tells how fast the machine starts anything in this minute, and how the others begin. */
export const NODE_ALONE = 'processor time of node alone';
export const START_UP = 'processor time of eddylift ';

const PROJECT = fileURLToPath(new URL('../../../', import.meta.url));
const CLI = fileURLToPath(new URL('../../program/cli.js', import.meta.url));
const STUDY = 'studies/metal-and-turns.yaml';

/** A rig of the workshop, nothing varied. */
const ONE_DESIGN = `study: One design
rig:
  floats: coil
  coil: {metal: aluminium, wire: 2 mm, insulation: grade 2, turns: 440, layers: 8, inner_radius: 50 mm}
  plate: {metal: aluminium-1050, thickness: 12 mm}
  standoff: 2 mm
  supply: {frequency: 50 Hz}
drive: {current: 12 A}
`;

/** Prints what the process has used when it exits. */
const METER =
  'data:text/javascript,process.on("exit",()=>{const{user,system}=process.cpuUsage();process._rawDebug("used "+(user+system)/1e6)})';

export function benchStartUp(rounds: number): StartUp[] {
  const commands = [
    ['--help', ['--help'], '< 0.15 s'],
    ['check, a grid of 1,488 designs', ['check', STUDY], '< 0.5 s'],
    ['card of one of them', ['card', STUDY, '--design', '496'], '< 0.5 s'],
  ] as const;
  const alone = Array.from({ length: 2 * rounds }, () => secondsOf(['-e', '0']));
  const rows: StartUp[] = [{ what: NODE_ALONE, measured: spreadOf(alone), target: '' }];
  for (const [what, args, target] of commands) {
    rows.push({
      what: START_UP + what,
      measured: spreadOf(Array.from({ length: rounds }, () => secondsOf([CLI, ...args]))),
      target,
    });
  }
  const folder = mkdtempSync(join(tmpdir(), 'eddylift-bench-'));
  try {
    const study = join(folder, 'one.yaml');
    writeFileSync(study, ONE_DESIGN);
    const run = (round: number) =>
      secondsOf([CLI, 'run', study, '--quiet', '--out', join(folder, `${round}`)]);
    rows.push({
      what: `${START_UP}run, one design, report and all`,
      measured: spreadOf(Array.from({ length: rounds }, (_, round) => run(round))),
      target: '< 1 s',
    });
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
  return rows;
}

function secondsOf(args: readonly string[]): number {
  const { stderr, status } = spawnSync(process.execPath, ['--import', METER, ...args], {
    cwd: PROJECT,
    encoding: 'utf8',
  });
  const used = /^used ([\d.]+)$/m.exec(stderr)?.[1];
  if (status !== 0 || used === undefined) throw new Error(`node ${args.join(' ')} failed: ${stderr}`);
  return Number(used);
}
