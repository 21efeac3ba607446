import { spawnSync } from 'node:child_process';
import { mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { EXAMPLES } from '../../src/cli/help-text.ts';
import { cli, scratchFolder } from '../support/cli.ts';

const folder = scratchFolder();
afterAll(() => rmSync(folder, { recursive: true, force: true }));

beforeAll(async () => {
  for (const shell of ['bash', 'zsh', 'fish']) {
    writeFileSync(join(folder, shell), (await cli(['completion', shell], folder)).out);
  }
  mkdirSync(join(folder, 'results dir'));
  for (const name of ['coil.yaml', 'pan.yml', 'notes.txt']) writeFileSync(join(folder, name), '');
});

const has = (shell: string) => spawnSync(shell, ['-c', 'true']).status === 0;

/** What a shell offers for a command line whose last word is being typed. */
const OFFERS = {
  bash: (words: readonly string[], _wanted?: string) =>
    run('bash', [
      '-c',
      `source ./bash; COMP_WORDS=("$@"); COMP_CWORD=$(($# - 1)); _eddylift; printf '%s\\n' "\${COMPREPLY[@]}"`,
      'bash',
      ...words,
    ]),
  fish: (words: readonly string[], _wanted?: string) =>
    run('fish', ['--no-config', '-c', `source ./fish; complete -C "${words.join(' ')}"`]).map((line) =>
      line.replace(/\t.*/, '').replaceAll('\\ ', ' '),
    ),
  // its completion runs in its line editor alone
  zsh: (words: readonly string[], wanted = '') => {
    const script = [
      'zmodload zsh/zpty',
      `zpty z "TERM=dumb zsh -f -i"`,
      `zpty -w z "PS1=; autoload -U compinit; compinit -u -d $PWD/.dump; source ./zsh; LISTMAX=1000; print REA''DY"`,
      `zpty -r z seen '*READY*' || true`,
      `sleep 1; zpty -w -n z $'${words.join(' ')}\\t\\t'; seen=`,
      // however busy the machine is
      `for i in {1..200}; do sleep 0.1; while zpty -r -t z more; do seen+=$more; done; [[ $seen == *${wanted}* ]] && break; done`,
      'print -r -- $seen',
    ].join('\n');
    return run('zsh', ['-f', '-c', script]).flatMap((line) => line.trim().split(/\s+/));
  },
} as const;

function run(shell: string, args: readonly string[]): string[] {
  const { stdout, stderr, status } = spawnSync(shell, args, {
    cwd: folder,
    encoding: 'utf8',
    timeout: 300_000,
  });
  expect(status, stderr).toBe(0);
  return stdout.split(/\r?\n/).filter((line) => line !== '');
}

describe.each(['bash', 'fish', 'zsh'] as const)('completion in %s', (shell) => {
  const offers = OFFERS[shell];

  it.skipIf(!has(shell))('offers commands, options, values and files', () => {
    expect(offers(['eddylift', 'co'], 'completion').join(' ')).toMatch(/\bcompare\b.*\bcompletion\b/);
    expect(offers(['eddylift', 'run', '--'], '--allow-huge').join(' ')).toContain('--allow-huge');
    if (shell === 'zsh') return;
    expect(offers(['eddylift', 'completion', 'f'])).toEqual(['fish']);
    expect(offers(['eddylift', 'card', '--design', 'b'])).toEqual(['best']);
    const files = offers(['eddylift', 'check', '']).map((file) => file.replace(/\/$/, ''));
    expect(files).toEqual(expect.arrayContaining(['coil.yaml', 'pan.yml', 'results dir']));
    expect(files).not.toContain('notes.txt');
    const folders = offers(['eddylift', 'run', 'coil.yaml', '--out', '']);
    expect(folders.map((name) => name.replace(/\/$/, ''))).toEqual(['results dir']);
  });
});

describe('help', () => {
  it('has examples for every command, whose options the command has', async () => {
    const { out } = await cli(['--help'], folder);
    expect(out).toContain('Exit codes:\n  0 ');
    const commands = [...out.matchAll(/^ {2}([a-z]+) {2,}/gm)].map(([, name]) => name!);
    expect(commands).toContain('completion');
    expect(commands.filter((name) => name !== 'help' && !EXAMPLES[name])).toEqual([]);
    for (const name of commands.filter((each) => each !== 'help')) {
      const help = (await cli([name, '--help'], folder)).out;
      expect(help).toContain('Examples:');
      for (const example of EXAMPLES[name]!) {
        expect(help).toContain(example);
        const [, ...options] = example.split(/ (?=--)/);
        for (const option of options) expect(help).toContain(option.split(/[ =]/)[0]);
      }
    }
  });
});
