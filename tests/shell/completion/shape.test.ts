import { Argument, Command, Option } from 'commander';
import { describe, expect, it } from 'vitest';
import { shapeOf } from '../../../src/shell/completion/shape.ts';

describe('the shape of a program', () => {
  const program = new Command('cornerwise').description('A program.');
  program
    .command('weigh')
    .summary('Short.')
    .description('Long.')
    .addArgument(new Argument('<how>', 'how').choices(['wet', 'dry']))
    .argument('[FILES...]')
    .addOption(new Option('-f, --format <format>', 'how to print it').choices(['table', 'json']))
    .addOption(new Option('--rules <dir>', 'a folder').default([], 'none'))
    .addOption(new Option('--found [outcome]', 'what it found'))
    .addOption(new Option('--secret').hideHelp());
  program.command('inner', { hidden: true });
  const shape = shapeOf(program);
  const weigh = shape.commands.find(({ name }) => name === 'weigh');

  it('has the commands that the help shows, and no hidden one', () => {
    expect(shape.commands.map(({ name }) => name)).toEqual(['weigh', 'help']);
    expect(weigh?.about).toBe('Short.');
  });

  it('has arguments with their choices', () => {
    expect(weigh?.arguments).toEqual([
      { name: 'how', variadic: false, choices: ['wet', 'dry'] },
      { name: 'FILES', variadic: true, choices: [] },
    ]);
  });

  it('has options with their values, and no hidden one', () => {
    expect(weigh?.options.map(({ flags }) => flags)).toEqual([
      ['-f', '--format'],
      ['--rules'],
      ['--found'],
      ['-h', '--help'],
    ]);
    expect(weigh?.options[0]).toMatchObject({
      value: 'format',
      choices: ['table', 'json'],
      repeatable: false,
    });
    expect(weigh?.options[1]).toMatchObject({ value: 'dir', optional: false, repeatable: true });
    expect(weigh?.options[2]).toMatchObject({ value: 'outcome', optional: true });
    expect(weigh?.options[3]).toMatchObject({ value: null });
  });
});
