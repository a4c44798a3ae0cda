import { describe, expect, it } from 'vitest';
import { assessBriefly } from '../../../src/core/assess.ts';
import { counts } from '../../../src/core/finding.ts';
import { preparePacks } from '../../../src/core/prepare/prepared-packs.ts';
import { evening, instant, jobOf, packOf } from '../../support/judge.ts';

const pack = (more = 'intermittent: true') =>
  packOf(`checks:
  - {id: rails, kind: range, title: Rails, of: position, in: [key-on, running], ${more}, basis: {kind: from-memory}, tiers: [{weight: hold, between: [0.25 V, 4.75 V]}]}`);

const snapshot = (id: string, at: string, LR: string, more = 'state: key-on') =>
  `  - {id: ${id}, at: 2026-03-02T${at}, ${more}, readings: {position: {LR: ${LR}}}}`;

const judged = (lines: readonly string[], superseded = true, own = pack()) =>
  assessBriefly(jobOf(`snapshots:\n${lines.join('\n')}`, [own]), preparePacks([own], []), instant(evening), {
    superseded,
  })
    .findings.filter(({ subject, verdict }) => subject === 'LR' && verdict !== 'not-taken')
    .map(({ snapshot: where, verdict, weight, intermittent, newest, ...rest }) => ({
      where,
      verdict,
      weight,
      intermittent,
      counts: counts({ verdict, weight, intermittent, newest, ...rest } as Parameters<typeof counts>[0]),
    }));

const gone = { where: 'wet', verdict: 'out', weight: 'look', intermittent: true, counts: false };
const good = { where: 'dry', verdict: 'within', weight: 'hold', intermittent: false, counts: false };
const wet = snapshot('wet', '08:00', '0.10 V');
const dry = snapshot('dry', '09:00', '2.50 V');

describe('what came and went without work', () => {
  it.each([true, false])(
    'stays as intermittent, worth a look and not counted (superseded: %s)',
    (superseded) => {
      expect(judged([wet, dry], superseded)).toEqual([gone, good]);
    },
  );

  it('is only kept once for a state, the newest of them', () => {
    const earlier = snapshot('earlier', '07:00', '4.90 V');
    expect(judged([earlier, wet, dry], false)).toEqual([gone, good]);
    expect(judged([earlier, wet, dry]).filter(({ intermittent }) => intermittent)).toEqual([gone]);
  });

  it('leaves the other states judged in a brief sheet', () => {
    const running = snapshot('run', '07:30', '0.10 V', 'state: running');
    expect(judged([running, wet, dry], false).map(({ where }) => where)).toEqual(['run', 'wet', 'dry']);
  });

  it('is not for a state that shows it still, nor for unlike conditions, nor after work', () => {
    expect(judged([dry, snapshot('now', '10:00', '0.10 V')]).some(({ intermittent }) => intermittent)).toBe(
      false,
    );
    const loaded = snapshot('wet', '08:00', '0.10 V', 'state: key-on, conditions: {load: loaded}');
    const empty = snapshot('dry', '09:00', '2.50 V', 'state: key-on, conditions: {load: empty}');
    expect(judged([loaded, empty]).some(({ intermittent }) => intermittent)).toBe(false);
    const worked = [wet, dry, 'log: [{at: 2026-03-02T08:30, did: replaced, what: sensor.LR}]'];
    expect(judged(worked).some(({ intermittent }) => intermittent)).toBe(false);
  });

  it('is not for a check that does not say so', () => {
    const plain = pack('wanted: always');
    expect(judged([wet, dry], false, plain)).toEqual([good]);
    expect(judged([wet, dry], true, plain)[0]).toMatchObject({ intermittent: false, weight: 'hold' });
  });
});
