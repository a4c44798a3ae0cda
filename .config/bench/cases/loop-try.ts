import { join } from 'node:path';
import { assessBriefly } from '../../../src/core/assess.ts';
import { keyOf } from '../../../src/core/key.ts';
import type { Job, Reading, State } from '../../../src/core/job.ts';
import { preparePacks, preparedFor } from '../../../src/core/prepare/prepared-packs.ts';
import { newestPacks, openLibrary } from '../../../src/shell/library.ts';
import { commandText } from '../../../src/report/words/command-words.ts';
import { nowReasons, nowTitle } from '../../../src/report/words/now-words.ts';
import { reasonText } from '../../../src/report/words/reason-words.ts';
import { follow, readingOf, type Somebody, soundValue } from '../../../tests/support/follow-now.ts';
import { usualOutcome } from '../../../src/core/suspects/outcome-table.ts';
import { readCases } from './read-cases.ts';
const root = process.env.BENCH_ROOT ?? '.';
const only = process.env.BENCH_ONLY ?? '';
const packs = preparePacks(await newestPacks(openLibrary([join(root, 'rules')])));
const cases = readCases(join(root, 'tests/cases'), packs).filter(({ name }) => only === '' || only.split(',').some((o) => name.startsWith(`${o}-`)));
const repairs = ['replaced','repaired','adjusted','calibrated','configured','charged','inflated','programmed'];
const tally: Record<string, number> = {}; let worst = 0; let firsts = 0, firstOk = 0;
for (const { name, key, job } of cases) {
  if (!job) continue;
  const { suspects: model } = preparedFor(packs, job.vehicle);
  const causes = key.cause.flatMap((id) => { const h = model.hypotheses.find((x) => x.id === id); return h?.suspect?.repaired ? [keyOf(h.suspect.component, h.place)] : []; });
  const mended = (j: Job) => causes.every((c) => j.log.some((e) => repairs.includes(e.did) && e.what === c && !e.failed));
  const last = (k: string, st: State, j: Job): Reading | null => {
    const s = j.snapshots.findLast((x) => x.state === st && x.readings.has(k)) ?? (k.startsWith('battery') || k === 'supply' ? undefined : j.snapshots.findLast((x) => x.readings.has(k)));
    const r = s?.readings.get(k); return r && r.kind !== 'untaken' ? r : null; };
  const who: Somebody = {
    choose: ([first]) => first as never,
    finds: (what, outcomes, j) => { const t = model.tests.find((x) => x.id === what);
      if (mended(j)) return what.startsWith('inspected') ? 'nothing-seen' : t ? (t.test.outcomes[usualOutcome(t)]?.id ?? outcomes[0] ?? '') : (outcomes[0] ?? '');
      const said = key.results[what]; if (said) return said; if (what.startsWith('inspected')) return 'nothing-seen';
      return t?.test.outcomes[usualOutcome(t)]?.id ?? outcomes[0] ?? ''; },
    reads: (k, st, j, c) => (mended(j) ? null : last(k, st, j)) ?? readingOf(soundValue(k, st, j, c)),
    lamp: (j) => (mended(j) ? 'off' : (j.snapshots.findLast((s) => s.lamp)?.lamp ?? 'off')),
    codes: (j) => (mended(j) ? [] : (j.snapshots.findLast((s) => s.codes)?.codes ?? [])),
    condition: (n, wants) => ({ floor: 'level', load: 'empty', levelling: 'active', maintainer: 'off', 'on-stops': 'no', 'heights-from': 'wheel-centre', mode: 'normal', doors: 'shut' } as never)[n] ?? wants[0] ?? '',
    passes: () => true,
  };
  const { rounds, end } = follow(job, who, (j, at) => assessBriefly(j, packs, at));
  const kinds = rounds.map(({ sheet }) => sheet.now.kind);
  const closing = end.log.findLast((e) => e.did === 'closed')?.closing ?? (end.status === 'closed' ? 'closed' : 'OPEN');
  tally[closing] = (tally[closing] ?? 0) + 1; worst = Math.max(worst, rounds.length);
  const f = rounds.find(({ sheet }) => !['stop'].includes(sheet.now.kind))?.sheet.now;
  const fid = f?.kind === 'read' && f.id === 'tape-heights' ? ['read height','tape-heights'] : f?.kind === 'repair' ? [f.id ?? ''] : [f?.id ?? '', ...(f?.command?.kind === 'add' ? f.command.names.map((n)=>`read ${n}`).concat(f.command.names.map((n)=>`read ${n.split('.')[0]}`)) : [])];
  const t1 = rounds.find(({ sheet }) => sheet.now.kind === 'test')?.sheet.now.id ?? '';
  const ok = fid.some((x) => key.firstTests.includes(x)); if (key.cause.length) { firsts++; if (ok) firstOk++; }
  console.log(`${key.cause.length && causes.length && mended(end) && closing !== 'repaired' ? 'MENDED ' : ''}${name.slice(0, 34).padEnd(34)} ${String(rounds.length).padStart(2)} ${String(closing).padEnd(9)} cause ${key.cause.join('+') || '-'} | first ${f?.kind} ${f?.id} ${ok ? 'OK' : `(wants ${key.firstTests.slice(0,3).join(' ')}) t1 ${t1}`}`);
  if (process.env.SHOW === 'kinds' || rounds.length >= 45 || closing === 'OPEN') console.log('   ', kinds.map((k, i) => `${k}:${rounds[i]?.sheet.now.id}`).join(' > '));
  if (process.env.STALE) for (const f of rounds.at(-2)!.sheet.findings.filter((f) => f.newest && f.stale && !f.moment)) console.log('    stale', f.id, f.state, f.verdict, f.channels.join(' '));
  if (process.env.SHOW === 'all') for (const { sheet } of rounds) console.log(`   ${sheet.now.kind.padEnd(9)} ${nowTitle(sheet.now).slice(0, 100)} | ${nowReasons(sheet.now, 'UTC').slice(0, 160)} | ${sheet.now.command ? commandText(sheet.now.command, 'f.yaml') : ''}` + (process.env.HP ? '\n      ' + sheet.holdPoints.filter((p) => !p.clear).map((p) => p.id + ': ' + p.reasons.map((r) => reasonText(r, 'UTC')).join('; ').slice(0, 400)).join('\n      ') : ''));
}
console.log(tally, 'worst', worst, 'first', firstOk, '/', firsts);
