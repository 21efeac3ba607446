/** What help shows below the options: command lines to begin with, and what exit codes mean. */

const EXIT_CODES = `Exit codes:
  0    done
  2    the study or the command line is wrong; nothing was written
  3    done, but some designs failed
  130  interrupted; the same command continues
  1    unexpected error`;

/** Of the program, then by command. */
export const EXAMPLES: Readonly<Record<string, readonly string[]>> = {
  '': [
    'eddylift new coil.yaml',
    "eddylift card coil.yaml --set 'coil.turns=300'",
    'eddylift run coil.yaml --out results/coil',
    'eddylift card results/coil --design best',
  ],
  new: ['eddylift new coil.yaml', 'eddylift new coil.yaml --yes'],
  check: ['eddylift check coil.yaml', 'eddylift check studies/*.yaml --json'],
  run: [
    'eddylift run coil.yaml',
    'eddylift run coil.yaml pan.yaml --out results/tonight --quiet',
    'eddylift run - --json < coil.yaml',
  ],
  worker: ['eddylift worker redis://localhost:6379 --threads 4'],
  front: ["eddylift front results/coil --limit 'coil_mass <= 2 kg' --maximise height"],
  card: [
    'eddylift card coil.yaml',
    'eddylift card results/coil --design best --html > card.html',
    "eddylift card coil.yaml --set 'plate.thickness=8 mm' --json",
  ],
  improve: ["eddylift improve coil.yaml --aim 'height >= 15 mm'"],
  live: ['eddylift live results/coil --design best --out live.html'],
  motion: ['eddylift motion coil.yaml --switch-on 96V --for 5s'],
  warm: ['eddylift warm coil.yaml --for 20min'],
  compare: ['eddylift compare coil.yaml points.csv --free standoff,plate.metal.resistivity'],
  waveform: ["eddylift waveform scope.csv --voltage 'CH1*100' --current 'CH2*10'"],
  results: ['eddylift results', 'eddylift results results --json'],
  show: ['eddylift show results/coil'],
  diff: ['eddylift diff results/coil results/coil-2'],
  quantities: ['eddylift quantities', 'eddylift quantities --json'],
  metals: ['eddylift metals'],
  schema: ['eddylift schema > study.schema.json', 'eddylift schema documents'],
  completion: [
    'source <(eddylift completion bash)',
    'eddylift completion fish > ~/.config/fish/completions/eddylift.fish',
  ],
};

export function helpBelow(command: string): string {
  const lines = (EXAMPLES[command] ?? []).map((line) => `  ${line}`);
  const examples = lines.length > 0 ? `\nExamples:\n${lines.join('\n')}\n` : '';
  return command === '' ? `${examples}\n${EXIT_CODES}` : examples.trimEnd();
}
