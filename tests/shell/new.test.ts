import { mkdir } from 'node:fs/promises';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { makeFolder, refusal } from '../support/folder.ts';

const now = ['--as-of', '2026-03-02T18:00'];
const given = ['--vehicle', 'Shuttle 4', '--layout', 'four-corner-air'];

describe('a fresh job from options', () => {
  it('is a whole file that check takes, with what is not known as comments', async () => {
    const folder = await makeFolder();
    const { code, stdout, stderr } = await folder.run([
      'new',
      's4.yaml',
      ...given,
      '--complaint',
      'Sits low: left rear. Since Monday #2.',
      ...now,
    ]);
    expect([code, stderr]).toEqual([0, '']);
    expect(stdout).toContain('s4.yaml: Shuttle 4, four-corner-air, written');
    expect(stdout).toContain('cornerwise fill s4.yaml');
    const text = await folder.read('s4.yaml');
    expect(text.split('\n')[0]).toMatch(/^# yaml-language-server: \$schema=.*job\.json$/u);
    expect(text).toContain(
      'job: s4\ntitle: "Sits low: left rear"\nopened: 2026-03-02T18:00\nzone: Europe/Dublin\n',
    );
    expect(text).toContain('complaint: "Sits low: left rear. Since Monday #2."');
    expect(text).toContain('# packs: [position-signals@1, supply-charging@1,');
    expect(text).toContain('  # battery: flooded, agm, efb, gel or lithium');
    expect((await folder.run(['check', 's4.yaml', '--fail-on', 'never', ...now])).code).toBe(0);
    expect((await folder.run(['add', 's4.yaml', 'key-on', 'supply=12.2', ...now])).code).toBe(0);
  });

  it('says all that was given', async () => {
    const folder = await makeFolder();
    const flags = {
      system: '24',
      battery: 'AGM',
      charging: 'managed',
      'sensor-signal': 'pwm',
      'sensor-sense': 'right-rising',
      symptoms: 'hiss LR',
      'recent-work': 'air-line.lr',
      distance: '148200',
      job: 'S04-0001',
      title: 'Leans: to the left',
      packs: 'position-signals@1, air-supply@1, handover@1',
      zone: 'America/St_Johns',
    };
    const argv = Object.entries(flags).flatMap(([name, value]) => [`--${name}`, value]);
    expect((await folder.run(['new', 's4.yaml', ...given, ...argv, ...now])).code).toBe(0);
    const text = await folder.read('s4.yaml');
    for (const line of [
      'job: S04-0001',
      'title: "Leans: to the left"',
      'zone: America/St_Johns',
      'packs: [position-signals@1, air-supply@1, handover@1]',
      '  system: 24 V',
      '  battery: agm',
      '  charging: managed',
      '  sensor-signal: pwm',
      '  sensor-sense: {LF: falling, RF: rising, LR: falling, RR: rising}',
      'symptoms: {where: LR, noise: hiss}',
      'recent-work: [air-line.LR]',
      'distance: {in: 148200 km}',
    ]) {
      expect(text.split('\n')).toContain(line);
    }
  });

  it('points editors to the copy of the schema that the shop keeps', async () => {
    const folder = await makeFolder({ 'job.schema.json': '{}', 'march/readme.txt': 'x' });
    await folder.run(['new', 's4.yaml', ...given, ...now]);
    await folder.run(['new', 'march/s5.yaml', ...given, ...now]);
    expect((await folder.read('s4.yaml')).split('\n')[0]).toBe(
      '# yaml-language-server: $schema=./job.schema.json',
    );
    expect((await folder.read('march/s5.yaml')).split('\n')[0]).toBe(
      '# yaml-language-server: $schema=../job.schema.json',
    );
  });

  it('names the packs at hand and the zone of the machine where no shop file does', async () => {
    const folder = await makeFolder({ 'cornerwise.yaml': 'fail-on: hold\n' });
    expect((await folder.run(['new', 's4.yaml', ...given, ...now])).code).toBe(0);
    const text = await folder.read('s4.yaml');
    expect(text).toMatch(/^packs: \[.*position-signals@2/mu);
    expect(text).toContain('zone: UTC');
  });

  it('prints nothing with --quiet', async () => {
    const folder = await makeFolder();
    expect(await folder.run(['new', 's4.yaml', ...given, '--quiet'])).toEqual({
      code: 0,
      stdout: '',
      stderr: '',
    });
  });

  it.each(['...', '?', '- dash', 'null', `${'\u{1f642}'.repeat(90)}`, '"quoted" \'so\' {x: [y'])(
    'takes the complaint %j',
    async (complaint) => {
      const folder = await makeFolder();
      const { code, stderr } = await folder.run(['new', 's4.yaml', ...given, '--complaint', complaint]);
      expect([code, stderr]).toEqual([0, '']);
    },
  );
});

describe('a fresh job from answers', () => {
  const answer = async (lines: readonly string[], person = false, flags: readonly string[] = []) => {
    const folder = await makeFolder();
    const stdin = lines.map((line) => `${line}\n`).join('');
    const outcome = await folder.run(['new', 's4.yaml', ...flags, ...now], { stdin, person });
    const text = (await folder.names()).includes('s4.yaml') ? await folder.read('s4.yaml') : null;
    return { ...outcome, text: text ?? '', names: await folder.names() };
  };

  it('asks first for what a technician knows, again where it cannot be read', async () => {
    const { code, stdout, text } = await answer([
      'Shuttle 4',
      'Sits low at the left rear in the morning.',
      '',
      'sensr.RR',
      'sensor.RR, battery',
      'fourcorner',
      '',
      'AGM',
      '',
      'left-rising',
    ]);
    expect(code).toBe(0);
    expect(stdout).toContain('vehicle, as the workshop calls it: Shuttle 4');
    expect(stdout).toContain(
      'where and how (words such as LR, low, after-standing, hiss) [LR low after-standing]: \n',
    );
    expect(stdout).toContain('did you mean sensor.RR?');
    expect(stdout.replace(/\s+/gu, ' ')).toContain('"fourcorner" is not a layout; it can be four-corner-air');
    expect(stdout).toContain(
      'layout (four-corner-air, rear-air-assist, four-corner-sensors) [four-corner-air]: \n',
    );
    for (const line of [
      'title: Sits low at the left rear in the morning',
      'complaint: Sits low at the left rear in the morning.',
      'symptoms: {where: LR, sits: low, when: after-standing}',
      'recent-work: [sensor.RR, battery]',
      '  layout: four-corner-air',
      '  battery: agm',
      '  # charging: fixed or managed',
      '  sensor-sense: {LF: rising, RF: falling, LR: rising, RR: falling}',
    ]) {
      expect(text.split('\n')).toContain(line);
    }
  });

  it('takes the number of a word, or its beginning, on a terminal', async () => {
    const { stdout, text } = await answer(['Shuttle 4', '', '', '', '2', 'a', '1', '-'], true);
    expect(stdout).toContain('layout (1 four-corner-air, 2 rear-air-assist, 3 four-corner-sensors) [');
    expect(text).toContain('layout: rear-air-assist\n');
    expect(text).toContain('battery: agm\n  charging: fixed\n');
    expect(text).toContain('title: "Shuttle 4, no complaint stated"');
    expect(text).toContain('# symptoms: {where: LR');
  });

  it('leaves out with a dash what it would have kept', async () => {
    const { text } = await answer(['Shuttle 4', 'Low at LR', '-']);
    expect(text).toContain('complaint: Low at LR');
    expect(text).toContain('# symptoms: {where: LR');
  });

  it('does not ask for what was given', async () => {
    const { stdout, text } = await answer(['', '', '', '', 'fixed'], false, [
      '--vehicle',
      'Shuttle 4',
      '--battery',
      'gel',
    ]);
    expect(stdout).not.toContain('vehicle, as');
    expect(stdout).not.toContain('battery (');
    expect(text).toContain('  battery: gel\n  charging: fixed');
  });

  const session = ['Shuttle 4', 'Sits low.', '', 'battery', '', 'agm', 'fixed', 'rising'];

  it.each(session.map((_, count) => count))('that end after %i lines write all or nothing', async (count) => {
    const { code, stdout, stderr, text, names } = await answer(session.slice(0, count));
    if (count < 1) {
      expect(code).toBe(2);
      expect(stderr).toContain('the answers ended too soon; nothing was written');
      expect(names).toEqual(['cornerwise.yaml']);
    } else {
      expect([code, stderr]).toEqual([0, '']);
      expect(stdout).toContain('written');
      expect(text.includes('battery: agm')).toBe(count > 5);
    }
  });

  it('that end on a terminal write nothing, and say so', async () => {
    const { code, stderr, names } = await answer(['Shuttle 4', 'Sits low.'], true);
    expect([code, names]).toEqual([2, ['cornerwise.yaml']]);
    expect(stderr).toContain('the answers ended too soon; nothing was written');
  });

  it.each([
    ['a vehicle without a name', ['', '', '', 'Shuttle 4'], 'nothing is written here'],
    ['a control character', ['Shut\u001b[31mtle', 'Shuttle 4'], 'the invisible character U+001B'],
    [
      'a word that is no symptom',
      ['Shuttle 4', '', 'lwo', 'low'],
      '"lwo" is no word for what the driver says',
    ],
    [
      'work that no pack knows',
      ['Shuttle 4', '', '', 'spring', 'air-spring.LR'],
      'did you mean air-spring.LF,',
    ],
  ])('%s is asked for again', async (_, lines, message) => {
    const { code, stdout, text } = await answer(lines);
    expect(code).toBe(0);
    expect(stdout).toContain(message);
    expect(text).not.toContain('\u001b');
  });
});

describe('a call that is wrong', () => {
  it('never overwrites a file, nor takes a folder for one', async () => {
    const folder = await makeFolder({ 's4.yaml': 'mine\n' });
    await mkdir(join(folder.path, 'march'));
    const said = await refusal(folder, ['new', 's4.yaml', ...given, ...now]);
    expect(said).toContain('s4.yaml is there already, and is never overwritten');
    expect(await refusal(folder, ['new', 'march', ...given, ...now])).toContain('march is there already');
    expect(await folder.read('s4.yaml')).toBe('mine\n');
  });

  it.each(['con.yaml', 'NUL', 'Com1.job.yaml', 'march/lpt9.yaml', 'aux .yaml'])(
    'refuses %s, which Windows takes for a device',
    async (name) => {
      const folder = await makeFolder({ 'march/s1.yaml': '' });
      expect(await refusal(folder, ['new', name, ...given, ...now])).toMatch(
        /is the name of a device on Windows/u,
      );
    },
  );

  it.each(['console.yaml', 'com.yaml', 'com10.yaml'])('takes %s for a file', async (name) => {
    const folder = await makeFolder();
    expect((await folder.run(['new', name, ...given, ...now])).code).toBe(0);
  });

  it.each([
    [['none/s4.yaml', ...given], 'there is no folder none'],
    [['s4.yaml', '--vehicle', ' ', '--layout', 'four-corner-air'], '--vehicle : nothing is written here'],
    [
      ['s4.yaml', '--vehicle', 'a\u001bb', '--layout', 'four-corner-air'],
      'it holds the invisible character U+001B',
    ],
    [['s4.yaml', '--vehicle', 'x'.repeat(121), '--layout', 'four-corner-air'], 'the limit is 120'],
    [['s4.yaml', '--vehicle', 'x', '--layout', 'four'], '--layout four: "four" is not a layout'],
    [['s4.yaml', ...given, '--battery', 'lead'], '"lead" is not a kind of battery'],
    [['s4.yaml', ...given, '--charging', 'smart'], '"smart" is not a kind of charging'],
    [['s4.yaml', ...given, '--system', '48'], 'is not a supply system'],
    [['s4.yaml', ...given, '--zone', 'Dublin'], '"Dublin" is not a time zone'],
    [['s4.yaml', ...given, '--distance', '12V'], 'V measures voltage, and a length is wanted here'],
    [['s4.yaml', ...given, '--symptoms', 'lwo'], '"lwo" is no word for what the driver says'],
    [['s4.yaml', ...given, '--recent-work', 'sensr.LR'], 'did you mean sensor.LR?'],
    [['s4.yaml', ...given, '--sensor-sense', 'both'], '"both" is not a sense of the sensors'],
    [['s4.yaml', ...given, '--packs', '1st!'], '"1st!" does not name a pack'],
    [['s4.yaml', ...given, '--packs', 'cabin@1'], 'cabin'],
    [['s4.yaml', ...given, '--packs', 'handover@9'], 'handover'],
  ])('%j is refused', async (words, message) => {
    const said = (await refusal(await makeFolder(), ['new', ...words, ...now])).replace(/\s+/gu, ' ');
    expect(said).toContain(message.replace(/\s+/gu, ' '));
    expect(said).not.toContain('\u001b');
  });

  it('tells every fault at once', async () => {
    const argv = ['new', 's4.yaml', ...given, '--battery', 'lead', '--zone', 'Dublin', '--distance', '12V'];
    expect((await refusal(await makeFolder(), argv)).match(/^cornerwise: /gmu)).toHaveLength(3);
  });

  it('does not begin a job below a shop file with mistakes', async () => {
    const folder = await makeFolder({ 'cornerwise.yaml': 'zone: Dublin\n' });
    expect(await refusal(folder, ['new', 's4.yaml', ...given])).toContain('[unknown-zone]');
  });
});
