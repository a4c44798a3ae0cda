// What typing costs: key strokes of the usual sessions, the wait at each question of a long job, and how long `add`
// takes beside `check`.
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { makeJob } from './make-job.mjs';
import { bundleBench } from './run-bundled.mjs';
import { alternate, bin, figure, ratioOf, root, run, told } from './tools.mjs';
import { asFound, asFoundInFull, fresh, longSession, session } from './typing/scripts.mjs';

const now = Date.UTC(2026, 2, 2, 18);

/** Every character and the Enter behind it. */
const keys = (line) => [...line].length + 1;

const sum = (numbers) => numbers.reduce((total, one) => total + one, 0);

const sorted = (numbers) => [...numbers].sort((a, b) => a - b);

/** Runs commands one after the other in a folder, without counting what only a benchmark has to say. */
const runAll = (lines, folder, env) => {
  for (const [index, line] of lines.entries()) {
    const [, ...argv] = line.split(' ');
    run([bin, ...argv, '--quiet', '--as-of', `2026-03-02T09:0${index}`], { cwd: folder, env });
  }
};

/** A conversation with every question, its answer and what the next one waited for. */
const converse = (bundle, folder, argv, answers) => {
  const script = join(folder, 'script.json');
  const env = { XDG_STATE_HOME: join(folder, 'state'), XDG_CACHE_HOME: join(folder, 'cache') };
  writeFileSync(script, JSON.stringify({ argv, cwd: folder, env, now, answers }));
  const { stdout } = run([bundle, script], { cwd: folder, keep: true });
  const { code, turns, printed } = JSON.parse(stdout);
  if (code !== 0) throw new Error(`${argv.join(' ')} ended with ${code}:\n${printed}`);
  return turns;
};

const expectLines = (text, lines) => {
  const missing = lines.filter((line) => !text.includes(line));
  if (missing.length > 0) throw new Error(`not in the file: ${missing.join('; ')}\n${text}`);
};

/** The key strokes of `new`, `add` and `fill` on a short job. */
const keyStrokes = (bundle, folder) => {
  console.log('\nKey strokes, Enter included');
  const rules = ['--rules', join(root, 'rules')];
  const place = (name) => {
    const made = join(folder, name);
    mkdirSync(made);
    return made;
  };
  const begun = place('new');
  const asked = converse(bundle, begun, ['new', 's7.yaml', ...rules], fresh.answers);
  expectLines(readFileSync(join(begun, 's7.yaml'), 'utf8'), fresh.says);
  const ofNew = keys(fresh.command) + sum(asked.map(({ answer }) => keys(answer)));
  figure('new, with its command', ofNew, { limit: 75, aim: 75, unit: ' keys' });

  const text =
    'vehicle: {name: Shuttle 7, layout: four-corner-air, battery: agm, charging: fixed}\nopened: 2026-03-02T08:00\nzone: UTC\n';
  const written = [asFound, asFoundInFull].map((lines, index) => {
    const own = place(`add-${index}`);
    writeFileSync(join(own, 's7.yaml'), text);
    runAll(lines, own, { XDG_STATE_HOME: join(own, 'state') });
    return readFileSync(join(own, 's7.yaml'), 'utf8');
  });
  if (written[0] !== written[1]) throw new Error(`short and long forms differ:\n${written.join('\n')}`);
  console.log(`  as found by add, every name in full: ${sum(asFoundInFull.map(keys))} keys`);
  figure('as found by add', sum(asFound.map(keys)), { limit: 330, aim: 330, unit: ' keys' });

  const filled = place('fill');
  writeFileSync(join(filled, 's7.yaml'), text);
  const turns = converse(bundle, filled, ['fill', 's7.yaml', ...rules], session);
  expectLines(readFileSync(join(filled, 's7.yaml'), 'utf8'), [
    'conditions: {floor: level, load: empty}',
    'position: {LF: 2.48 V, RF: 2.55 V, LR: 2.51 V, RR: 2.61 V}',
    'lamp: off',
    'state: running\n    conditions: {air: 8 °C}',
  ]);
  const isChoice = ({ question }) => /\(1 /u.test(question);
  const isKept = ({ question }) => /\]:$/u.test(question);
  const readings = turns.filter((turn) => !isChoice(turn) && !isKept(turn) && /^\d/u.test(turn.answer));
  const beyond = readings.map(({ answer }) => keys(answer) - answer.replace(/[^\d.-]/gu, '').length);
  figure('fill, a reading beyond its digits', Math.max(...beyond), { limit: 1, aim: 1, unit: ' key' });
  figure(
    'fill, a default that is kept',
    Math.max(...turns.filter(isKept).map(({ answer }) => keys(answer))),
    {
      limit: 1,
      aim: 1,
      unit: ' key',
    },
  );
  figure('fill, a choice', Math.max(...turns.filter(isChoice).map(({ answer }) => keys(answer))), {
    limit: 2,
    aim: 2,
    unit: ' keys',
  });
  console.log(
    `  as found by fill: ${keys('cornerwise fill s7.yaml') + sum(turns.map(({ answer }) => keys(answer)))} keys`,
  );
};

/** What somebody waits for between two questions of a job with 200 snapshots, and between two prompts of a short one. */
const waits = (bundle, folder) => {
  console.log('\nFrom an answer to the next question, 200 snapshots');
  const own = join(folder, 'waits');
  mkdirSync(own);
  writeFileSync(join(own, 's7.yaml'), makeJob(200));
  const rules = ['--rules', join(root, 'rules')];
  const turns = converse(bundle, own, ['fill', 's7.yaml', '--all', '--new', ...rules], longSession);
  // The last question of a session is followed by its report, and by no other question.
  const saved = turns.slice(0, -1).filter(({ answer }) => answer !== '');
  const skipped = turns.slice(0, -1).filter(({ answer }) => answer === '');
  const middle = (of) => sorted(of)[Math.floor(of.length / 2)] ?? 0;
  for (const [what, of] of [
    ['saved and judged', saved],
    ['skipped', skipped],
  ]) {
    const wall = of.map(({ waited }) => waited);
    const cpu = of.map((turn) => turn.cpu);
    console.log(
      `  ${what}: ${of.length} answers, median ${middle(wall).toFixed(0)} ms, slowest ${Math.max(...wall).toFixed(0)} ms; CPU median ${middle(cpu).toFixed(0)} ms, slowest ${Math.max(...cpu).toFixed(0)} ms`,
    );
  }
  // Of CPU time, since a machine that others use makes everything wait.
  figure('an answer that is saved, CPU', middle(saved.map(({ cpu }) => cpu)), {
    limit: 60,
    aim: 30,
    unit: ' ms',
  });
  figure('an answer that is skipped, CPU', middle(skipped.map(({ cpu }) => cpu)), {
    limit: 10,
    aim: 5,
    unit: ' ms',
  });
};

/** `add` against `check` on one file of 200 snapshots; `add` begins with the same file every time. */
const addBesideCheck = (folder, rounds) => {
  const text = makeJob(200);
  const file = join(folder, 's7.yaml');
  const env = { XDG_STATE_HOME: join(folder, 'state') };
  const asOf = ['--as-of', '2026-03-02T18:00'];
  const reading = ['battery=14.2', 'LF=2.48', 'RF=2.55', 'LR=2.41', 'RR=2.62'];
  const timed = (args) => {
    writeFileSync(file, text);
    return run([bin, ...args, ...asOf], { cwd: folder, env });
  };
  console.log(`\nA job of 200 snapshots, ${Math.round(text.length / 1024)} KiB, ${rounds} rounds`);
  const times = alternate(
    {
      check: () => timed(['check', 's7.yaml', '--fail-on', 'never']),
      add: () => timed(['add', 's7.yaml', 'running', ...reading]),
    },
    rounds,
  );
  told(times);
  figure('add / check', ratioOf(times, 'add', 'check'), { limit: 2, aim: 1.5 });
};

export const typing = async (folder, rounds) => {
  const bundle = join(folder, 'typing.mjs');
  await bundleBench('typing/main.ts', bundle);
  keyStrokes(bundle, folder);
  waits(bundle, folder);
  addBesideCheck(folder, rounds);
};
