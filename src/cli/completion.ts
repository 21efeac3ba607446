import type { Argument, Command, Option } from 'commander';

/** Completion for shells, made of the very definitions that read the command line. */

const SHELLS = ['bash', 'zsh', 'fish'] as const;
export type Shell = (typeof SHELLS)[number];

/** What may stand in a place. */
type Kind = 'study' | 'folder' | 'study or folder' | 'file' | 'nothing' | readonly string[];

interface Place {
  readonly name: string;
  readonly kind: Kind;
}

interface CompletedOption {
  readonly flags: readonly string[];
  readonly help: string;
  /** Null for an option that takes nothing. */
  readonly takes: Place | null;
}

interface CompletedCommand {
  readonly name: string;
  readonly help: string;
  readonly options: readonly CompletedOption[];
  readonly takes: Place | null;
}

/** By what an argument is called in help. */
const KINDS: Readonly<Record<string, Kind>> = {
  study: 'study',
  'study or result': 'study or folder',
  result: 'folder',
  other: 'folder',
  folder: 'folder',
  file: 'file',
  measured: 'file',
  scope: 'file',
};

export function completionScript(program: Command, shell: Shell): string {
  const commands = program.commands.filter((command) => !isHidden(command)).map(describe);
  const general = program.options.map(describeOption);
  const scripts = { bash: bashScript, zsh: zshScript, fish: fishScript };
  return scripts[shell](program.name(), commands, [...general, HELP]);
}

const HELP: CompletedOption = { flags: ['-h', '--help'], help: 'print help', takes: null };

function isHidden(command: Command): boolean {
  return (command as unknown as { _hidden?: boolean })._hidden === true;
}

function describe(command: Command): CompletedCommand {
  const [first] = command.registeredArguments;
  return {
    name: command.name(),
    help: command.description(),
    options: [...command.options.map(describeOption), HELP],
    takes: first ? { name: first.name(), kind: first.argChoices ?? kindOf(first) } : null,
  };
}

function kindOf(argument: Argument): Kind {
  return KINDS[argument.name()] ?? 'nothing';
}

function describeOption(option: Option): CompletedOption {
  const name = /[<[]([^>\]]+)[>\]]/.exec(option.flags)?.[1];
  // names that may stand in place of a number
  const names = option.long === '--design' && name === 'which' ? ['best', 'knee', 'lightest'] : null;
  return {
    flags: [option.short, option.long].filter((flag) => flag !== undefined && flag !== null),
    help: option.description,
    takes: name === undefined ? null : { name, kind: option.argChoices ?? names ?? KINDS[name] ?? 'nothing' },
  };
}

/** Safe between single quotes of a shell. */
function quoted(text: string, apostrophe = "'\\''"): string {
  return `'${text.replaceAll("'", apostrophe)}'`;
}

function bashScript(
  program: string,
  commands: readonly CompletedCommand[],
  general: readonly CompletedOption[],
): string {
  const words = (list: readonly string[]) =>
    `_${program}_words ${list.map((word) => quoted(word)).join(' ')}`;
  const offer = (kind: Kind): string => {
    if (kind === 'study') return `_${program}_files yaml`;
    if (kind === 'study or folder') return `_${program}_files yaml`;
    if (kind === 'folder') return `_${program}_files folder`;
    if (kind === 'file') return `_${program}_files any`;
    return kind === 'nothing' ? ':' : words(kind);
  };
  const values = commands.flatMap(({ name, options }) =>
    options.flatMap(({ flags, takes }) =>
      takes === null
        ? []
        : [`    ${flags.map((flag) => `${name}:${flag}`).join('|')}) ${offer(takes.kind)}; return ;;`],
    ),
  );
  const flagsOf = (options: readonly CompletedOption[]) => options.flatMap(({ flags }) => flags);
  const names = commands.map(({ name }) => name);
  return `# bash completion for ${program}
_${program}_words() {
  local IFS=$'\\n'
  COMPREPLY=($(compgen -W "$(printf '%s\\n' "$@")" -- "$word"))
}
_${program}_files() {
  local IFS=$'\\n' path
  compopt -o filenames 2>/dev/null
  COMPREPLY=()
  for path in $(compgen -f -- "$word"); do
    if [[ -d $path || $1 == any || ( $1 == yaml && $path == *.@(yaml|yml) ) ]]; then COMPREPLY+=("$path"); fi
  done
}
_${program}() {
  local word=\${COMP_WORDS[COMP_CWORD]} before=\${COMP_WORDS[COMP_CWORD-1]} command='' i
  for ((i = 1; i < COMP_CWORD; i++)); do
    if [[ \${COMP_WORDS[i]} != -* ]]; then command=\${COMP_WORDS[i]}; break; fi
  done
  case $command:$before in
${values.join('\n')}
  esac
  if [[ $word == -* ]]; then
    case $command in
${commands.map(({ name, options }) => `      ${name}) ${words(flagsOf(options))} ;;`).join('\n')}
      '') ${words(flagsOf(general))} ;;
    esac
    return
  fi
  case $command in
${commands
  .filter(({ takes }) => takes !== null && takes.kind !== 'nothing')
  .map(({ name, takes }) => `    ${name}) ${offer(takes!.kind)} ;;`)
  .join('\n')}
    '') ${words(names)} ;;
  esac
}
shopt -s extglob
complete -F _${program} ${program}
`;
}

function zshScript(
  program: string,
  commands: readonly CompletedCommand[],
  general: readonly CompletedOption[],
): string {
  const plain = (text: string) => text.replace(/[[\]:\\]/g, '\\$&');
  const action = (kind: Kind): string => {
    if (kind === 'study' || kind === 'study or folder') return '_files -g "*.(yaml|yml)(-.)"';
    if (kind === 'folder') return '_files -/';
    if (kind === 'file') return '_files';
    return kind === 'nothing' ? ' ' : `(${kind.join(' ')})`;
  };
  const option = ({ flags, help, takes }: CompletedOption) =>
    flags.map((flag) => {
      const value = takes === null ? '' : `:${plain(takes.name)}:${action(takes.kind)}`;
      return quoted(`*${flag}[${plain(help)}]${value}`);
    });
  const argumentsOf = ({ options, takes }: CompletedCommand) => [
    ...options.flatMap(option),
    ...(takes === null ? [] : [quoted(`*:${plain(takes.name)}:${action(takes.kind)}`)]),
  ];
  return `#compdef ${program}
_${program}() {
  local -a names
  local context state state_descr line
  names=(
${commands.map(({ name, help }) => `    ${quoted(`${name}:${plain(help)}`)}`).join('\n')}
  )
  _arguments -C ${general.flatMap(option).join(' ')} '1:command:->command' '*::argument:->argument'
  case $state in
    command) _describe command names ;;
    argument)
      case $words[1] in
${commands.map((command) => `        ${command.name}) _arguments ${argumentsOf(command).join(' ')} ;;`).join('\n')}
      esac ;;
  esac
}
if [ "$funcstack[1]" = "_${program}" ]; then _${program} "$@"; else compdef _${program} ${program}; fi
`;
}

function fishScript(
  program: string,
  commands: readonly CompletedCommand[],
  general: readonly CompletedOption[],
): string {
  const safe = (text: string) => quoted(text.replaceAll('\\', '\\\\'), "\\'");
  const offer = (kind: Kind): string => {
    if (kind === 'study' || kind === 'study or folder') {
      return '-a \'(__fish_complete_path | string match -r -- "^.*(?:/|\\.ya?ml)(?=\\t|\\z)")\'';
    }
    if (kind === 'folder') return "-a '(__fish_complete_directories)'";
    if (kind === 'file') return '-F';
    return kind === 'nothing' ? '' : `-a ${safe(kind.join(' '))}`;
  };
  const option = ({ flags, help, takes }: CompletedOption) => {
    const letters = flags.map((flag) =>
      flag.startsWith('--') ? `-l ${flag.slice(2)}` : `-s ${flag.slice(1)}`,
    );
    // nothing else than what it takes: files come only where they may
    const value =
      takes === null ? '' : ` ${takes.kind === 'file' ? '-r' : '-x'} ${offer(takes.kind)}`.trimEnd();
    return `${letters.join(' ')}${value} -d ${safe(help)}`;
  };
  const lines = [
    `complete -c ${program} -f`,
    ...general.map((each) => `complete -c ${program} -n __fish_use_subcommand ${option(each)}`),
    ...commands.flatMap(({ name, help, options, takes }) => {
      const here = `complete -c ${program} -n '__fish_seen_subcommand_from ${name}'`;
      return [
        `complete -c ${program} -n __fish_use_subcommand -a ${name} -d ${safe(help)}`,
        ...options.map((each) => `${here} ${option(each)}`),
        ...(takes === null || takes.kind === 'nothing' ? [] : [`${here} ${offer(takes.kind)}`]),
      ];
    }),
  ];
  return `# fish completion for ${program}\n${lines.join('\n')}\n`;
}
