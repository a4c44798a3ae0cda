import type { Command, Option } from 'commander';

/** An option as completion sees it. */
export interface OptionShape {
  /** As typed: `-h`, `--help`. */
  readonly flags: readonly string[];
  readonly about: string;
  /** The name of its value, such as `dir`; null where it takes none. */
  readonly value: string | null;
  /** Whether it may stand without its value. */
  readonly optional: boolean;
  readonly choices: readonly string[];
  readonly repeatable: boolean;
}

export interface ArgumentShape {
  readonly name: string;
  readonly variadic: boolean;
  readonly choices: readonly string[];
}

/** A command with all below it. */
export interface CommandShape {
  readonly name: string;
  readonly about: string;
  readonly options: readonly OptionShape[];
  readonly arguments: readonly ArgumentShape[];
  readonly commands: readonly CommandShape[];
}

const optionShape = (option: Option): OptionShape => ({
  flags: [option.short, option.long].filter((flag) => flag !== undefined && flag !== null),
  about: option.description,
  value: /[<[]([^.\]>]+)/u.exec(option.flags)?.[1] ?? null,
  optional: option.optional,
  choices: option.argChoices ?? [],
  repeatable: option.variadic || Array.isArray(option.defaultValue),
});

/** The shape of a command as its help tells it, so that what is hidden there is hidden here. */
export const shapeOf = (command: Command): CommandShape => {
  const help = command.createHelp();
  return {
    name: command.name(),
    about: help.subcommandDescription(command),
    options: help.visibleOptions(command).map(optionShape),
    arguments: command.registeredArguments.map((argument) => ({
      name: argument.name(),
      variadic: argument.variadic,
      choices: argument.argChoices ?? [],
    })),
    commands: help.visibleCommands(command).map(shapeOf),
  };
};
