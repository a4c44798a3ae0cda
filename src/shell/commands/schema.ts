import { Argument, type Command } from 'commander';
import { type SchemaName, schemaNames } from '../../input/schema/schema-names.ts';
import type { Shell } from '../shell.ts';

const help = `
For an editor that knows YAML schemas, keep the output in a file and name it
in the first line of the job:
  cornerwise schema job > job.schema.json
  # yaml-language-server: $schema=./job.schema.json`;

/** `cornerwise schema NAME`: the JSON Schemas of everything that is read or written. */
export const addSchema = (program: Command, { io }: Shell): void => {
  program
    .command('schema')
    .description('Print the JSON Schema of job files, rule packs, the shop file, or the machine output.')
    .addArgument(new Argument('<name>', 'which one').choices([...schemaNames]))
    .addHelpText('after', help)
    .action(async (name: SchemaName) => {
      const { schemaText } = await import('../actions/actions.ts');
      io.stdout.write(schemaText(name));
    });
};
