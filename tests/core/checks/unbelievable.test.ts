import { describe, expect, it } from 'vitest';
import { commandText } from '../../../src/report/words/command-words.ts';
import { nowTitle } from '../../../src/report/words/now-words.ts';
import { judge, keyOn } from '../../support/judge.ts';

const pack = `checks:
  - {id: signal, kind: range, title: Signal, of: position, in: [key-on], tiers: [{weight: hold, between: [0.25 V, 4.75 V]}], basis: {kind: from-memory}}
  - {id: supply, kind: range, title: Supply, of: supply, in: [key-on], tiers: [{weight: hold, between: [10 V, 16 V]}], basis: {kind: from-memory}}
`;

const at = (time: string, readings: string): string =>
  `  - {id: at-${time.slice(3)}, at: '2026-03-02T${time}', state: key-on, readings: ${readings}}\n`;
const job = (...snapshots: string[]): string => `snapshots:\n${snapshots.join('')}`;
const verdictOf = (text: string, subject: string) => {
  const { findings } = judge(pack, text);
  const finding = findings.find((one) => one.subject === subject && one.newest);
  return { verdict: finding?.verdict, why: finding?.missing?.why };
};
const slipped = '{supply: 12.31 V, position: {LF: 2.5 V, RF: 25.4 V}}';

describe('a reading that cannot be', () => {
  it('is not judged, and leaves the others as they are', () => {
    const text = keyOn(slipped);
    expect(verdictOf(text, 'RF')).toEqual({ verdict: 'not-taken', why: 'unbelievable' });
    expect(verdictOf(text, 'LF').verdict).toBe('within');
    expect(verdictOf(keyOn('{supply: 12310 V}'), 'supply').verdict).toBe('not-taken');
  });

  it('is what to do now, with what was probably meant and the line that corrects it', () => {
    const { now } = judge(pack, keyOn(slipped));
    expect(now.kind).toBe('correct');
    expect(nowTitle(now)).toContain('25.4 V cannot be (2.54 V or 25.4 mV?)');
    expect(now.command && commandText(now.command, 's7.yaml')).toMatch(
      /^cornerwise fix s7\.yaml \S+ position\.RF=…$/u,
    );
  });

  it('is let go of once a newer one stands in its place', () => {
    const text = job(
      at('08:30', slipped),
      at('08:40', '{supply: 12.30 V, position: {LF: 2.5 V, RF: 2.54 V}}'),
    );
    expect(verdictOf(text, 'RF').verdict).toBe('within');
    expect(judge(pack, text).now.kind).not.toBe('correct');
  });

  it('is believed once it was read a second time', () => {
    const text = job(at('08:30', slipped), at('08:40', slipped));
    expect(verdictOf(text, 'RF').verdict).toBe('out');
    expect(judge(pack, text).now.kind).not.toBe('correct');
  });

  it('is not believed because of another that says something else, or of another state', () => {
    const other = job(at('08:30', slipped), at('08:40', slipped.replace('25.4 V', '251 V')));
    expect(verdictOf(other, 'RF').why).toBe('unbelievable');
    const running = at('08:40', slipped).replace('state: key-on', 'state: running');
    expect(verdictOf(job(at('08:30', slipped), running), 'RF').why).toBe('unbelievable');
  });

  it('is nothing that a fault can show: a signal shorted to the battery is out', () => {
    expect(verdictOf(keyOn('{position: {LF: 12.6 V}}'), 'LF').verdict).toBe('out');
  });
});
