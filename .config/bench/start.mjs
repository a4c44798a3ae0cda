// How long the program takes to start, beside Node alone and Node with one library.
import { join } from 'node:path';
import { alternate, bin, figure, ratioOf, root, run, told } from './tools.mjs';

export const start = (rounds) => {
  console.log(`\nStart, ${rounds} rounds`);
  const example = join(root, 'examples/shuttle-07-left-rear-low.yaml');
  const check = [bin, 'check', example, '--as-of', '2026-03-02T18:00', '--fail-on', 'never'];
  const times = alternate(
    {
      'node -e 0 (Y0)': () => run(['-e', '0']),
      'cornerwise --version': () => run([bin, '--version']),
      'cornerwise --help': () => run([bin, '--help']),
      'node importing yaml (Y1)': () => run(['--input-type=module', '-e', "import 'yaml'"]),
      'cornerwise check, one job': () => run(check),
    },
    rounds,
  );
  told(times);
  figure('--version / Y0', ratioOf(times, 'cornerwise --version', 'node -e 0 (Y0)'), {
    limit: 1.5,
    aim: 1.25,
  });
  figure('--help / Y0', ratioOf(times, 'cornerwise --help', 'node -e 0 (Y0)'), { limit: 2, aim: 1.25 });
  figure('check of one job / Y1', ratioOf(times, 'cornerwise check, one job', 'node importing yaml (Y1)'), {
    limit: 7,
    aim: 1.25,
  });
};
