import { counts, type Finding } from '../../core/finding.ts';

/** One line that says how it stands before any table does. */
export const summary = (findings: readonly Finding[]): string => {
  const out = findings.filter(counts);
  const of = (weight: string): number => out.filter((finding) => finding.weight === weight).length;
  const newest = findings.filter((finding) => finding.newest);
  const close = newest.filter(({ verdict }) => verdict === 'too-close').length;
  const within = newest.filter(({ verdict, stale }) => verdict === 'within' && !stale).length;
  const stale = newest.filter((finding) => finding.stale && !finding.moment).length;
  const missing = newest.filter(({ verdict, wanted }) => verdict === 'not-taken' && wanted).length;
  const waived = findings.filter(
    ({ waived: by, verdict, newest: now }) => by !== null && now && verdict === 'out',
  ).length;
  const nothing = newest.every(({ verdict }) => verdict === 'not-taken')
    ? 'nothing judged yet'
    : 'nothing out';
  const byWeight = (['hold', 'look', 'note'] as const)
    .filter((weight) => of(weight) > 0)
    .map((weight) => `${of(weight)} ${weight}`);
  const parts = [
    out.length === 0 ? nothing : `out: ${byWeight.join(', ')}`,
    ...(waived > 0 ? [`accepted by a waiver: ${waived}`] : []),
    ...(close > 0 ? [`too close to call: ${close}`] : []),
    ...(missing > 0 ? [`not taken: ${missing}`] : []),
    ...(stale > 0 ? [`not read again since the work: ${stale}`] : []),
    `within: ${within}`,
  ];
  return parts.join(' · ');
};
