#!/usr/bin/env node
import { hostname } from 'node:os';
import { Argument, Command, CommanderError, InvalidArgumentError, Option } from 'commander';
import type { Shell } from './cli/completion.ts';
import { helpBelow } from './cli/help-text.ts';
import { UsageError } from './errors.ts';
import { EXIT, type Io, withDocument } from './session/io.ts';
import type { AskedObjective } from './session/study-to-judge.ts';
import { version } from './session/version.ts';

/**
 * argv -> command -> exit code. The only place that touches the process: its streams, clock, signals and end.
 * Commands are loaded when they are called, so that `--help` need not wait for what reads a study.
 * Past 300 lines: one function for each command, with its options and their help.
 */

const MOST_THREADS = 1024;

/** After this the process ends whatever it is at; a clean stop takes a fraction of it. */
const GRACE_MS = 1800;
/** A second signal ends it at once, unless it comes within so many ms: `npx` and `timeout` hand on what the process has heard. */
const AGAIN_MS = 500;
/** How often it is looked what of it is left, ms. */
const GRACE_LOOK_MS = 100;

const stop = new AbortController();

/** With it a bug prints its stack, in terms of the sources. */
const debug = process.env.EDDYLIFT_DEBUG === '1';
if (debug) process.setSourceMapsEnabled(true);

const io: Io = {
  stdout: process.stdout,
  stderr: process.stderr,
  // a stream that nobody reads is not opened
  get stdin() {
    return process.stdin;
  },
  cwd: process.cwd(),
  now: () => Date.now(),
  signal: stop.signal,
  // a dumb terminal cannot go back in its line
  redraws: process.stderr.isTTY === true && process.env.TERM !== 'dumb',
};

/** The world of a command that was called with --json: at its end there is one document on stdout. */
const documented = process.argv.includes('--json') ? withDocument(io) : null;

/** Where a command prints: with --json text for people goes to stderr. */
function worldOf({ json }: { readonly json?: true }): Io {
  return (json && documented) ?? io;
}

function threadCount(text: string): number {
  const count = Number(text);
  if (!/^\d+$/.test(text) || count < 1 || count > MOST_THREADS) {
    throw new InvalidArgumentError(`wanted a whole number from 1 to ${MOST_THREADS}.`);
  }
  return count;
}

const MOST_SHARES = 100_000;

function readShare(text: string) {
  const [, part, of] = /^(\d{1,6})\/(\d{1,6})$/.exec(text)?.map(Number) ?? [];
  if (!part || !of || part > of || of > MOST_SHARES) {
    throw new InvalidArgumentError('wanted which share of how many, such as 3/10.');
  }
  return { part, of };
}

function folderName(text: string): string {
  if (text.trim() === '') throw new InvalidArgumentError('wanted the name of a folder.');
  return text;
}

function fileName(text: string): string {
  if (text.trim() === '') throw new InvalidArgumentError('wanted the name of a file.');
  return text;
}

function designNumber(text: string): number {
  if (!/^\d{1,15}$/.test(text)) throw new InvalidArgumentError('wanted a whole number, 0 or more.');
  return Number(text);
}

interface RunArguments {
  out?: string;
  threads?: number;
  fresh?: true;
  quiet?: true;
  json?: true;
  csv?: true;
  png?: true;
  watch?: true;
  allowHuge?: true;
  queue?: string;
  queueTimeout?: string;
  share?: { part: number; of: number };
}

/** Where a password is not in the list of processes. */
const QUEUE_PASSWORD = 'EDDYLIFT_QUEUE_PASSWORD';

/** Likewise for the secret that work and results are signed with, or the file that holds it. */
const QUEUE_SECRET = 'EDDYLIFT_QUEUE_SECRET';

const QUEUE_TIMEOUT = '10 min';

function refuseQueuePatience(): never {
  throw new InvalidArgumentError("it is now called '--queue-timeout'.");
}

function queueChoice(address: string) {
  const {
    [QUEUE_PASSWORD]: password,
    [QUEUE_SECRET]: secret,
    [`${QUEUE_SECRET}_FILE`]: secretFile,
  } = process.env;
  return { address, password: password ?? null, secret: secret ?? null, secretFile: secretFile ?? null };
}

const DESIGN_NAMES = ['best', 'knee', 'lightest'] as const;
const DESIGN_HELP = `which design: its number, from 0; or of a result ${DESIGN_NAMES.join(', ')}`;

function readDesignChoice(text: string): number | (typeof DESIGN_NAMES)[number] {
  const name = DESIGN_NAMES.find((each) => each === text);
  if (name !== undefined) return name;
  if (!/^\d{1,15}$/.test(text)) {
    throw new InvalidArgumentError(`wanted a whole number, 0 or more, or ${DESIGN_NAMES.join(', ')}.`);
  }
  return Number(text);
}

/** A command about one design of a study or of a result. */
function oneDesignCommand(program: Command, name: string, description: string): Command {
  return program
    .command(name)
    .description(description)
    .argument('<study or result>', 'a study file, or the folder of a result');
}

function designOption(): Option {
  return new Option('--design <which>', DESIGN_HELP).argParser(readDesignChoice);
}

function threadsOption(): Option {
  return new Option(
    '--threads <n>',
    'worker threads; default: at most as many as the machine has cores',
  ).argParser(threadCount);
}

/** For machines, in place of words. */
function jsonOption(): Option {
  return new Option('--json', 'print one JSON document on stdout, and text for people on stderr');
}

function pngOption(): Option {
  return new Option('--png', 'write each figure as PNG beside its SVG, for programs that take no SVG');
}

/** Of an option that may be repeated: all that were given. */
function gathered(text: string, before: readonly string[] = []): readonly string[] {
  return [...before, text];
}

interface LiveArguments {
  design: number | (typeof DESIGN_NAMES)[number];
  out: string;
  limit?: readonly string[];
  limits: boolean;
}

interface ImproveArguments {
  design?: number | (typeof DESIGN_NAMES)[number];
  aim?: string;
  json?: true;
}

interface CardArguments {
  design?: number | (typeof DESIGN_NAMES)[number];
  set?: readonly string[];
  json?: true;
  html?: true;
}

interface CompareArguments {
  column?: readonly string[];
  design?: number;
  free?: readonly string[];
  out?: string;
  json?: true;
  html?: true;
}

interface WarmArguments {
  design?: number | (typeof DESIGN_NAMES)[number];
  for?: string;
  out?: string;
  png?: true;
  json?: true;
}

interface MotionCommandArguments {
  design?: number | (typeof DESIGN_NAMES)[number];
  switchOn?: string;
  ramp?: string;
  cutAt?: string;
  phase?: string;
  for?: string;
  step?: string;
  out?: string;
  png?: true;
  json?: true;
}

interface WaveformArguments {
  time?: string;
  voltage?: string;
  current?: string;
  voltageError?: string;
  currentError?: string;
  delayError?: string;
  csv?: true;
}

interface FrontArguments {
  limit?: readonly string[];
  limits: boolean;
  threads?: number;
  json?: true;
}

/** The exit code of the command that was called. */
let code: number = EXIT.done;

function addNew(program: Command): void {
  program
    .command('new')
    .description('write a study that works, with comments, to begin with')
    .argument('[file]', 'the study file; default: coil.yaml', fileName)
    .option('--yes', 'take every default: a coil of 440 turns on a 12 mm plate')
    .action(async (file: string | undefined, { yes }: { yes?: true }) => {
      const { newStudy } = await import('./commands/new.ts');
      code = await newStudy(file ?? null, { yes: yes === true }, io);
    });
}

function addCheck(program: Command): void {
  program
    .command('check')
    .description('read studies: every problem, or what a run would do')
    .argument('<study...>', 'study files (YAML)')
    .option('--allow-huge', 'accept a grid of more than 50 million designs')
    .addOption(jsonOption())
    .action(async (files: string[], options: { allowHuge?: true; json?: true }) => {
      const world = worldOf(options);
      const { check } = await import('./commands/check.ts');
      const { allowHuge, json } = options;
      code = await check(files, { allowHuge: allowHuge === true, json: json === true }, world);
    });
}

function addRun(program: Command): void {
  program
    .command('run')
    .description('evaluate every design of each study; write tables and the front')
    .argument('<study...>', 'study files (YAML)')
    .option(
      '--out <folder>',
      'where results go; with several studies, the folder for their folders',
      folderName,
    )
    .addOption(threadsOption())
    .option('--fresh', 'run again into a new folder, even if the result is there')
    .option('--quiet', 'for a log file: a line a minute and one a study')
    .addOption(jsonOption())
    .option('--csv', 'write designs.csv even beyond a million rows')
    .addOption(pngOption().conflicts('share'))
    .addOption(
      new Option('--watch', 'run again whenever the study file changes, until interrupted').conflicts([
        'out',
        'share',
        'queue',
        'fresh',
        'json',
      ]),
    )
    .option('--allow-huge', 'accept a grid of more than 50 million designs')
    .option(
      '--queue <address>',
      `let the workers at a queue evaluate (redis://HOST:PORT; password in ${QUEUE_PASSWORD}, secret in ${QUEUE_SECRET})`,
    )
    .option(
      '--queue-timeout <time>',
      `how long to wait for a queue from which nothing comes back before this machine goes on by itself; default: ${QUEUE_TIMEOUT}`,
    )
    .addOption(new Option('--queue-patience <time>').argParser(refuseQueuePatience).hideHelp())
    .addOption(
      new Option('--share <i/n>', 'evaluate every n-th batch only, for an array job; no tables')
        .argParser(readShare)
        .conflicts(['queue', 'csv']),
    )
    .action(async (files: string[], options: RunArguments) => {
      const world = worldOf(options);
      // before much is loaded, which takes some of them
      const { checkResources, readResources } = await import('./session/check-resources.ts');
      checkResources(readResources());
      const { run } = await import('./commands/run.ts');
      const {
        out = null,
        threads = null,
        fresh,
        quiet,
        json,
        csv,
        png,
        watch,
        allowHuge,
        queue,
        queueTimeout,
        share = null,
      } = options;
      if (queueTimeout !== undefined && queue === undefined) {
        throw new UsageError('--queue-timeout is for a run with --queue');
      }
      const act = watch === true ? (await import('./commands/run.ts')).runOnChange : run;
      code = await act(
        files,
        {
          out,
          threads,
          fresh: fresh === true,
          quiet: quiet === true,
          json: json === true,
          csv: csv === true,
          png: png === true,
          allowHuge: allowHuge === true,
          share,
          queue:
            queue === undefined ? null : { ...queueChoice(queue), timeout: queueTimeout ?? QUEUE_TIMEOUT },
        },
        world,
      );
    });
}

function addWorker(program: Command): void {
  program
    .command('worker')
    .description(
      'evaluate for the studies that are run with --queue, on this or other machines, until interrupted',
    )
    .argument(
      '<address>',
      `where the queue is: redis://HOST:PORT (password in ${QUEUE_PASSWORD}, secret in ${QUEUE_SECRET})`,
    )
    .addOption(threadsOption())
    .action(async (address: string, { threads }: { threads?: number }) => {
      const { worker } = await import('./commands/worker.ts');
      code = await worker(
        { ...queueChoice(address), threads: threads ?? null, id: `${hostname()}:${process.pid}` },
        io,
      );
    });
}

function addServeQueue(program: Command): void {
  program
    .command('serve-queue', { hidden: true })
    .allowUnknownOption()
    .allowExcessArguments()
    .action(() => {
      throw new UsageError("'serve-queue' is now called 'worker': eddylift worker redis://HOST:PORT");
    });
}

/** Limits and objectives other than the study's own; the objectives are put into the list in their order. */
function withCriteria(command: Command, objectives: AskedObjective[]): Command {
  const objective = (sense: AskedObjective['sense']) => (text: string) =>
    void objectives.push({ sense, text });
  return command
    .option(
      '--limit <comparison>',
      "a limit beside the study's own, such as 'current <= 10 A'; may be repeated",
      gathered,
    )
    .option('--no-limits', "leave the study's own limits out")
    .option(
      '--maximise <expression>',
      "an objective instead of the study's own; may be repeated, also beside --minimise, the first one first",
      objective('maximise'),
    )
    .option('--minimise <expression>', 'likewise', objective('minimise'));
}

function addFront(program: Command): void {
  const objectives: AskedObjective[] = [];
  const command = program
    .command('front')
    .description(
      'the front of a finished result under other limits and objectives, without evaluating anything',
    )
    .argument('<result>', 'the folder of a result');
  withCriteria(command, objectives)
    .addOption(threadsOption())
    .addOption(jsonOption())
    .action(async (place: string, options: FrontArguments) => {
      const world = worldOf(options);
      const { front } = await import('./commands/front.ts');
      const { limit = [], limits, threads = null, json } = options;
      code = await front(
        place,
        { limits: limit, ownLimits: limits, objectives, threads, json: json === true },
        world,
      );
    });
}

function addCard(program: Command): void {
  oneDesignCommand(
    program,
    'card',
    'print the bench card of one design: currents, heights, heat, winding, cautions',
  )
    .addOption(designOption())
    .option(
      '--set <path=value>',
      "an input to change, such as 'coil.turns=300'; may be repeated: the card lists what changed",
      gathered,
    )
    .addOption(jsonOption().conflicts('html'))
    .option(
      '--html',
      'print an HTML page instead, both sides of a sheet of A4, with a drawing and the lift curve',
    )
    .action(async (place: string, options: CardArguments) => {
      const world = worldOf(options);
      const { card } = await import('./commands/card.ts');
      const { design = null, set = [], json = false, html = false } = options;
      code = await card(place, { design, set, json, html }, world);
    });
}

function addImprove(program: Command): void {
  oneDesignCommand(
    program,
    'improve',
    'what would make one design lift, or reach an aim: one change at a time, and the best two',
  )
    .addOption(designOption())
    .option('--aim <comparison>', "what to reach, such as 'height >= 15 mm'; default: that it lifts")
    .addOption(jsonOption())
    .action(async (place: string, options: ImproveArguments) => {
      const world = worldOf(options);
      const { improveDesign } = await import('./commands/improve.ts');
      const { design = null, aim = null, json = false } = options;
      code = await improveDesign(place, { design, aim, json }, world);
    });
}

function addLive(program: Command): void {
  const objectives: AskedObjective[] = [];
  const command = oneDesignCommand(
    program,
    'live',
    'write a page that computes one design while you change it, offline',
  )
    .option('--design <which>', `${DESIGN_HELP}; default: 0`, readDesignChoice, 0)
    .option('--out <file>', 'where the page goes; default: live.html', fileName, 'live.html');
  withCriteria(command, objectives).action(
    async (place: string, { design, out, limit = [], limits }: LiveArguments) => {
      const { live } = await import('./commands/live.ts');
      code = await live(place, { design, out, limits: limit, ownLimits: limits, objectives }, io);
    },
  );
}

function addMotion(program: Command): void {
  oneDesignCommand(program, 'motion', 'one design in time: the jump at switch-on, the bounce, the landing')
    .addOption(designOption())
    .option('--switch-on <level>', 'switch on at once, rms: 96V, or 12A given; default: its supply voltage')
    .option('--ramp <from..to/time>', 'raise the drive evenly: 0V..120V/3s')
    .option('--cut-at <time>', 'break the circuit then: 2s')
    .option('--phase <angle>', 'of the mains at switch-on, after a zero: 90deg; default: worst')
    .option('--for <time>', 'how long to watch: 5s')
    .option('--step <time>', 'time step; default: a two-hundredth of a period')
    .option('--out <folder>', 'where motion.csv and its figure go', folderName)
    .addOption(pngOption())
    .addOption(jsonOption())
    .action(async (place: string, options: MotionCommandArguments) => {
      const world = worldOf(options);
      const { motion } = await import('./commands/motion.ts');
      const {
        design = null,
        switchOn = null,
        ramp = null,
        cutAt = null,
        phase = null,
        step = null,
      } = options;
      const { for: seconds = null, out = null, json = false, png = false } = options;
      code = await motion(
        place,
        { design, switchOn, ramp, cutAt, phase, seconds, step, out, json, png },
        world,
      );
    });
}

function addWarm(program: Command): void {
  oneDesignCommand(program, 'warm', 'one design in time as it warms: the drive set cold and then left alone')
    .addOption(designOption())
    .option('--for <time>', 'how long to follow it: 20min; default: until it is steady, a day at most')
    .option('--out <folder>', 'where warm.csv and its figure go', folderName)
    .addOption(pngOption())
    .addOption(jsonOption())
    .action(async (place: string, options: WarmArguments) => {
      const world = worldOf(options);
      const { warm } = await import('./commands/warm.ts');
      const { design = null, for: seconds = null, out = null, json = false, png = false } = options;
      code = await warm(place, { design, seconds, out, json, png }, world);
    });
}

function addCompare(program: Command): void {
  oneDesignCommand(program, 'compare', 'measured points against the model, and what they show of its inputs')
    .argument('<measured>', 'a table of measured points (CSV), its columns named as in current_A, height_mm')
    .option('--design <n>', 'which design was built, as the tables number them, from 0', designNumber)
    .option(
      '--free <inputs>',
      "inputs to fit, such as 'plate.metal.resistivity,standoff=2mm±0.3mm,coil.extra_mass=0g..300g'",
      gathered,
    )
    .option(
      '--column <name=column>',
      "what a column of the table holds, such as 'Höhe (mm)=height_mm'; may be repeated",
      gathered,
    )
    .option('--out <file>', 'write what was fitted to a file that a study can include', fileName)
    .addOption(jsonOption().conflicts('html'))
    .option('--html', 'print an HTML page instead, with charts of measured and model')
    .action(async (place: string, measured: string, options: CompareArguments) => {
      const world = worldOf(options);
      const { compare } = await import('./commands/compare.ts');
      const {
        column: columns = [],
        design = null,
        free = [],
        out = null,
        json = false,
        html = false,
      } = options;
      code = await compare(place, measured, { columns, design, free, out, json, html }, world);
    });
}

function addWaveform(program: Command): void {
  program
    .command('waveform')
    .description("what a meter would read of an oscilloscope's voltage and current, as a row for compare")
    .argument('<scope>', 'samples of time, voltage and current (CSV)')
    .option('--time <column>', 'the column of times; default: the first')
    .option('--voltage <column>', "the column of the voltage, times what one of it is in V: 'CH1*100'")
    .option('--current <column>', "the column of the current, times what one of it is in A: 'CH2*10'")
    .option('--voltage-error <share>', "standard uncertainty of the voltage's gain, such as '2 %'")
    .option('--current-error <share>', "likewise of the current's")
    .option(
      '--delay-error <time>',
      "standard uncertainty of one channel's delay against the other, such as '1 us'",
    )
    .option('--csv', 'print the row alone')
    .action(async (file: string, options: WaveformArguments) => {
      const { waveform } = await import('./commands/waveform.ts');
      const { time = null, voltage = null, current = null, csv = false } = options;
      const { voltageError = null, currentError = null, delayError = null } = options;
      code = await waveform(
        file,
        { time, voltage, current, voltageError, currentError, delayError, csv },
        io,
      );
    });
}

function addResults(program: Command): void {
  program
    .command('results')
    .description('list results: of what, when, how many designs, finished or how far')
    .argument('[folder]', 'where to look; default: results', folderName)
    .addOption(jsonOption())
    .action(async (folder: string | undefined, options: { json?: true }) => {
      const world = worldOf(options);
      const { results } = await import('./commands/results.ts');
      code = await results(folder ?? null, { json: options.json === true }, world);
    });
}

function addShow(program: Command): void {
  program
    .command('show')
    .description('what a result holds, as its run printed it')
    .argument('<result>', 'the folder of a result')
    .action(async (place: string) => {
      const { show } = await import('./commands/show.ts');
      code = await show(place, io);
    });
}

function addDiff(program: Command): void {
  program
    .command('diff')
    .description('two results side by side: studies, fronts, and the designs that both have')
    .argument('<result>', 'the folder of a result')
    .argument('<other>', 'the folder of another')
    .action(async (one: string, other: string) => {
      const { diff } = await import('./commands/diff.ts');
      code = await diff([one, other], io);
    });
}

function addQuantities(program: Command): void {
  program
    .command('quantities')
    .description('list what expressions may name: quantities and inputs')
    .addOption(jsonOption())
    .action(async (options: { json?: true }) => {
      const world = worldOf(options);
      const { quantities } = await import('./commands/quantities.ts');
      code = quantities(world, { json: options.json === true });
    });
}

function addMetals(program: Command): void {
  program
    .command('metals')
    .description('list the metals that a study may name, with sources')
    .addOption(jsonOption())
    .action(async (options: { json?: true }) => {
      const world = worldOf(options);
      const { metals } = await import('./commands/metals.ts');
      code = metals(world, { json: options.json === true });
    });
}

const SCHEMAS = ['study', 'documents'] as const;

function addSchema(program: Command): void {
  program
    .command('schema')
    .description('print a JSON Schema: of study files, for editors, or of what --json prints')
    .addArgument(new Argument('[of]', 'of what; default: study').choices(SCHEMAS))
    .action(async (of: (typeof SCHEMAS)[number] = 'study') => {
      const { schema } = await import('./commands/schema.ts');
      code = schema(of, io);
    });
}

function addCompletion(program: Command): void {
  program
    .command('completion')
    .description('print what makes a shell complete commands, options and files')
    .addArgument(new Argument('<shell>', 'which shell').choices(['bash', 'zsh', 'fish']))
    .action(async (shell: Shell) => {
      const { completionScript } = await import('./cli/completion.ts');
      io.stdout.write(completionScript(program, shell));
    });
}

/** In the order of `--help`. */
const COMMANDS = [
  addNew,
  addCheck,
  addRun,
  addWorker,
  addServeQueue,
  addFront,
  addCard,
  addImprove,
  addLive,
  addMotion,
  addWarm,
  addCompare,
  addWaveform,
  addResults,
  addShow,
  addDiff,
  addQuantities,
  addMetals,
  addSchema,
  addCompletion,
] as const;

/** Runs a command line; the exit code. */
async function main(argv: readonly string[]): Promise<number> {
  const program = new Command('eddylift')
    .description(
      'Parametric studies of AC coil-over-plate rigs: lift-off, float height, heat and trade-offs.',
    )
    .version(version(), '-V, --version', 'print the version')
    .helpOption('-h, --help', 'print help')
    .exitOverride()
    // what each takes stands in its own help: names alone leave room for what they do
    .configureHelp({ subcommandTerm: (command) => command.name(), minWidthToWrap: 20 })
    .configureOutput({ outputError: (text, write) => write(text.replace(/^error: /, 'eddylift: ')) });
  for (const add of COMMANDS) add(program);
  for (const command of [program, ...program.commands]) {
    command.addHelpText('after', helpBelow(command === program ? '' : command.name()));
  }

  try {
    await program.parseAsync([...argv], { from: 'user' });
  } catch (error) {
    code = explain(error);
  }
  if (documented && !documented.document.printed && code !== EXIT.done) {
    const { printDocument } = await import('./session/print-document.ts');
    printDocument(documented, 'error', { exit_code: code });
  }
  return code;
}

/** Prints what went wrong in one line: a mistake as it is, a bug with a request to report it. */
function explain(error: unknown): number {
  if (error instanceof CommanderError) {
    if (error.exitCode === 0) return EXIT.done;
    keepForDocument(error.message.replace(/^error: /, ''));
    return EXIT.usage;
  }
  const message = error instanceof Error ? error.message : String(error);
  if (debug && error instanceof Error) io.stderr.write(`${error.stack}\n`);
  const isUsage = error instanceof UsageError;
  const line = isUsage ? message : `unexpected error, please report it: ${message.split('\n')[0]}`;
  io.stderr.write(`eddylift: ${line}\n`);
  keepForDocument(line);
  return isUsage ? EXIT.usage : EXIT.unexpected;
}

function keepForDocument(message: string): void {
  const nowhere = { file: null, line: null, column: null, length: null, code: null };
  documented?.document.problems.push({ severity: 'error', message, ...nowhere });
}

/** When the first signal came, ms of a clock that nobody sets. */
let interrupted = 0;

function interrupt(): void {
  if (stop.signal.aborted) {
    if (performance.now() - interrupted >= AGAIN_MS) process.exit(EXIT.interrupted);
    return;
  }
  interrupted = performance.now();
  stop.abort();
  let left = GRACE_MS;
  let time = interrupted;
  let used = process.cpuUsage();
  setInterval(() => {
    const { user, system } = process.cpuUsage(used);
    // of a time in which the process was not let run, a look's is its own
    left -= Math.min(performance.now() - time, Math.max(GRACE_LOOK_MS, (user + system) / 1000));
    if (left <= 0) process.exit(EXIT.interrupted);
    time = performance.now();
    used = process.cpuUsage();
  }, GRACE_LOOK_MS).unref();
}

for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP', 'SIGQUIT'] as const) process.on(signal, interrupt);
// Node would open its debugger to everybody on this machine
process.on('SIGUSR1', () => {});
for (const stream of [process.stdout, process.stderr]) {
  // the reader of a pipe has enough, as `head` does, or the terminal is gone: go on in silence
  stream.on('error', (error: NodeJS.ErrnoException) => {
    if (error.code !== 'EPIPE' && error.code !== 'EIO') process.exit(EXIT.unexpected);
  });
}

process.exit(await main(process.argv.slice(2)));
