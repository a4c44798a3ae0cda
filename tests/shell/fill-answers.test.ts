import { describe, expect, it } from 'vitest';
import { emptyJob, type Folder, makeFolder } from '../support/folder.ts';

const newPacks = `packs: [position-signals@2, body-heights@1, supply-charging@2, air-supply@2, module-replacement@1, handover@2, corner-suspects@2]
zone: Europe/Dublin
`;

const job = (text = emptyJob, shop?: string): Promise<Folder> =>
  makeFolder({ 's4.yaml': text, ...(shop === undefined ? {} : { 'cornerwise.yaml': shop }) });

const at = (clock: string): readonly string[] => ['--as-of', `2026-03-02T${clock}`];

const fill = async (folder: Folder, lines: readonly string[], clock = '18:00', person = true) => {
  const outcome = await folder.run(['fill', 's4.yaml', ...at(clock)], {
    stdin: lines.map((line) => `${line}\n`).join(''),
    person,
  });
  return { ...outcome, text: await folder.read('s4.yaml') };
};

const read = (readings: string, conditions = ''): string => `snapshots:
  - id: as-found
    at: 2026-03-02T08:40
    state: key-on
${conditions}    readings: {${readings}}
    lamp: off
    codes: []
`;

const signals =
  'supply: 12.40 V, battery: 12.45 V, tank: 130 psi, position: {LF: 2.50 V, RF: 2.52 V, LR: 2.48 V, RR: 2.51 V}';

describe('an old answer', () => {
  it('is shown in brackets, and Enter keeps it', async () => {
    const folder = await job();
    const { stdout, text } = await fill(folder, ['level', '<', '', 'empty', '<', '']);
    expect(stdout).toContain('floor (1 level, 2 sloped; level is wanted) [level]: \n');
    expect(stdout).toContain('load (1 empty, 2 loaded; empty is wanted) [empty]: \n');
    expect(text).toContain('conditions: {floor: level, load: empty}\n');
  });

  it('gives way to what is typed, and is never put before it', async () => {
    const { text } = await fill(await job(), ['level', 'empty', 'off', '2.61', '<', '2.48', '2.52']);
    expect(text).toContain('position: {LF: 2.48 V, RF: 2.52 V}');
  });

  it('is left out with a dash', async () => {
    const { text } = await fill(await job(), ['level', '<', '-', 'empty']);
    expect(text).toContain('conditions: {load: empty}\n');
  });

  it('of another snapshot a short while ago is shown for a condition', async () => {
    const folder = await job();
    await folder.run(['add', 's4.yaml', 'key-on', 'level', 'empty', '8C', 'supply=12.2', ...at('17:50')]);
    const { stdout, text } = await fill(folder, ['', '', '', '', '', '', '', '', '', '', '']);
    expect(stdout).toContain('air (air temperature), °C [8 °C]: ');
    expect(text).toContain('state: cranking\n    conditions: {air: 8 °C}');
  });

  it('that is asked for again after a mistake is not in the line', async () => {
    const { stdout, text } = await fill(await job(), ['level', 'empty', 'off', '2.4x', '', '2.52']);
    expect(stdout).toContain('"x" is not a known unit');
    expect(stdout).not.toContain('[2.4x]');
    expect(text).toContain('position: {RF: 2.52 V}');
  });
});

describe('a choice', () => {
  it.each([
    ['1', '2', '3'],
    ['l', 'lo', 'fl'],
    ['LEVEL', 'Loaded', 'Flashing'],
  ])('%s, %s, %s are understood on a terminal', async (...answers) => {
    const { text } = await fill(await job(), answers);
    expect(text).toContain('conditions: {floor: level, load: loaded}\n');
    expect(text).toContain('lamp: flashing\n');
  });

  it('is not made by a number that no word has, nor by what two words begin with', async () => {
    const { stdout } = await fill(await job(), ['3', '-', '', 'o', 'on']);
    expect(stdout).toContain('"3" is not a word for floor');
    expect(stdout).toContain('"o" is not a state of the lamp');
  });

  it('is made by whole words alone where nobody sees how it was understood', async () => {
    const { code, stderr } = await fill(await job(), ['1'], '18:00', false);
    expect(code).toBe(2);
    expect(stderr).toContain('"1" is not a word for floor');
  });
});

describe('an answer far outside of anything possible', () => {
  it('is asked about, and typed anew', async () => {
    const { stdout, text } = await fill(await job(), ['level', 'empty', 'off', '2482.61', '2.48']);
    expect(stdout).toContain('    2482.61 V? 2.48261 V, 2482.61 mV or ! to keep it\n');
    expect(text).toContain('position: {LF: 2.48 V}');
  });

  it('is kept with an exclamation mark', async () => {
    const { text } = await fill(await job(), ['level', 'empty', 'off', '248', '!']);
    expect(text).toContain('position: {LF: 248 V}');
  });

  it('ends a session that nobody sits at, and says how to insist', async () => {
    const { code, stderr, text } = await fill(
      await job(),
      ['level', 'empty', 'off', '248', '2.5'],
      '18:00',
      false,
    );
    expect(code).toBe(2);
    expect(stderr.replace(/\s+/gu, ' ')).toContain(
      'Write 248! to keep it; it is judged once it was read twice',
    );
    expect(text).not.toContain('position');
  });
});

describe('what can be answered without another reading', () => {
  it('is asked first: a condition that nobody stated, put where it belongs, and what it brings', async () => {
    const folder = await job(emptyJob + read(signals.replace('LR: 2.48', 'LR: 4.10')));
    const { stdout, text } = await fill(folder, ['-', '1', '1'], '09:30');
    expect(stdout).toContain('When as-found was read, 2026-03-02 08:40: 2 that nobody stated\n');
    expect(stdout).toMatch(/load \(.*\): 1\n[\s\S]*OUT look\s+Signal near the middle at ride\s+height LR/u);
    expect(text).toContain('conditions: {floor: level, load: empty}\n    readings: {supply');
  });

  it('is asked of readings at the top of the file, too', async () => {
    const folder = await job(
      'vehicle: Shuttle 7\nopened: 2026-03-02T08:40\nreadings: {supply: 12.4, LF: 2.50, RF: 2.52, LR: 2.48, RR: 2.51}\n',
    );
    const { stdout, text } = await fill(folder, ['1', '1'], '09:30');
    expect(stdout).toContain('When key-on was read');
    expect(text).toContain('conditions: {floor: level, load: empty}\n');
  });

  it('is not asked where work has made the readings stale', async () => {
    const folder = await job(
      `${emptyJob}${read(signals)}log:\n  - {at: 2026-03-02T09:00, did: replaced, what: control-module}\n`,
    );
    const { stdout } = await fill(folder, [''], '09:30');
    expect(stdout).not.toContain('When as-found was read');
  });

  it('is not asked for again under another name where it was skipped', async () => {
    const { stdout } = await fill(await job(), [
      '',
      '',
      'off',
      '2.5',
      '2.5',
      '2.5',
      '2.5',
      '12.4',
      'none',
      '12.4',
      '130',
      '',
      '10.9',
    ]);
    expect(stdout).not.toContain('When key-on was read');
  });

  it('is a fact of the vehicle that a check wants', async () => {
    const bare = emptyJob.replace('  battery: flooded   # by its label\n  charging: fixed\n', '');
    const folder = await job(bare);
    await folder.run(['add', 's4.yaml', 'running', 'battery=14.2', '8C', ...at('17:50')]);
    const { stdout, text } = await fill(folder, ['1']);
    expect(stdout).toContain('The vehicle: 1 to ask for\n  charging (1 fixed, 2 managed): 1\n');
    expect(stdout).toMatch(/charging \(.*\): 1\n {4}fixed\n {4}close Charging voltage: 14\.2 V/u);
    expect(text).toContain('  layout: four-corner-air\n  charging: fixed\n');
  });

  it('is put to a vehicle that is only named', async () => {
    const folder = await job('vehicle: Shuttle 7\nopened: 2026-03-02T08:00\n');
    await folder.run(['add', 's4.yaml', 'running', 'battery=14.2', '8C', ...at('17:50')]);
    const { text } = await fill(folder, ['managed']);
    expect(text).toContain('vehicle: {name: Shuttle 7, charging: managed}\n');
  });

  it('is the sense of the sensors where something is out that may only look so', async () => {
    const folder = await job(
      emptyJob +
        read(signals.replace('LR: 2.48', 'LR: 4.10'), '    conditions: {floor: level, load: empty}\n'),
    );
    const { stdout, text } = await fill(folder, ['3'], '09:30');
    expect(stdout).toContain(
      'sensor-sense (volts as the body rises; 1 rising, 2 falling, 3 left-rising, 4 right-rising): 3',
    );
    expect(text).toContain('sensor-sense: {LF: rising, RF: falling, LR: rising, RR: falling}');
  });

  it('comes last where it comes up on the way', async () => {
    const lines = ['level', 'empty', 'off', '2.5', '2.5', '4.1', '2.5', '12.4', 'none', '12.4', '130'];
    const { stdout } = await fill(await job(), lines);
    expect(stdout.indexOf('tank (')).toBeGreaterThan(0);
    expect(stdout).not.toContain('sensor-sense');
    const whole = await fill(await job(), [...lines, '8', '10.9', '', '14.2', 'rising']);
    expect(whole.text).toContain('sensor-sense: {LF: rising, RF: rising, LR: rising, RR: rising}');
  });
});

describe('heights by tape', () => {
  const standing = '    conditions: {floor: level, load: empty, levelling: disabled}\n';
  const low = signals.replace('LR: 2.48', 'LR: 1.12');

  it('are asked for where a signal is out, since they tell whether the body stands so', async () => {
    const folder = await job(emptyJob + read(low, standing), newPacks);
    const { stdout, text } = await fill(folder, ['-', '412', '411', '372', '413'], '08:50');
    expect(stdout).toContain('Key on, engine off: 4 to ask for; going on with as-found\n');
    expect(stdout).toContain('height.LF (height by tape), mm: 412\n');
    expect(text).toContain('height: {LF: 412 mm, RF: 411 mm, LR: 372 mm, RR: 413 mm}');
  });

  it('are asked for together with the signals where those were read long ago', async () => {
    const folder = await job(emptyJob + read(low, standing), newPacks);
    const { stdout } = await fill(folder, [...Array.from({ length: 20 }, () => '')], '12:00');
    expect(stdout).toMatch(/LR \(position signal[\s\S]*height\.LR \(height by tape\)/u);
  });

  it('are not asked for where nothing is out, nor once they could not be taken', async () => {
    const healthy = await job(emptyJob + read(signals, standing), newPacks);
    expect((await fill(healthy, [''], '08:50')).stdout).not.toContain('height.LF');
    const none = await job(
      emptyJob +
        read(
          `${low}, height: {LF: {why: no tape}, RF: {why: no tape}, LR: {why: no tape}, RR: {why: no tape}}`,
          standing,
        ),
      newPacks,
    );
    expect((await fill(none, [''], '08:50')).stdout).not.toContain('height.LF (');
  });
});

describe('a vehicle that the limits are not for', () => {
  it('is told so below a reading that nothing judges', async () => {
    const folder = await job(emptyJob.replace('  battery:', '  system: 24 V\n  battery:'), newPacks);
    // Up to the battery in the list of all that can be read with the key on.
    const asked = await folder.run(['fill', 's4.yaml', '--all', ...at('18:00')], {
      stdin: '\n'.repeat(60),
      person: true,
    });
    const prompts = asked.stdout.split('\n').filter((line) => /^ {2}[A-Za-z][\w.-]* ?.*: $/u.test(line));
    const place = prompts.findIndex((line) => line.startsWith('  battery ('));
    expect(place).toBeGreaterThan(0);
    const { stdout } = await folder.run(['fill', 's4.yaml', '--all', ...at('18:00')], {
      stdin: `${'\n'.repeat(place)}24.4\n`,
      person: true,
    });
    expect(stdout.replace(/\s+/gu, ' ')).toContain(
      ', V: 24.4 24.40 V; not judged: these limits are for system 12 V, and this vehicle has 24 V',
    );
  });
});
