import type { Assumption, Reason, Warning } from '../../core/worksheet-parts.ts';
import { conditionText, percentText } from '../next/advice-condition.ts';
import { timeText } from '../times.ts';
import { actsText, statedWords } from './danger-words.ts';
import { missingText, ownUnits } from './finding-words.ts';

type Say<T extends { readonly kind: string }> = {
  readonly [K in T['kind']]: (of: Extract<T, { readonly kind: K }>, zone: string) => string;
};

const thing = (did: string, what: string | null): string => (what === null ? did : `${did} ${what}`);

const markWords = {
  'before-work': 'before the first work',
  'after-work': 'after the last work',
  'before-clear': 'before the first clear',
  'after-clear': 'after the last clear',
  'after-road-test': 'after the last road test',
} as const;

const money = (value: number): string => value.toFixed(2);

const or = (words: readonly string[]): string => words.join(' or ');

const reasonWords: Say<Reason> = {
  'every-job': () => 'every job',
  logged: ({ did, what, at }, zone) => `${thing(did, what)} ${timeText(at, zone)}`,
  'not-logged': ({ did, what }) => `not logged: ${or(did)}${what === null ? '' : ` ${or(what)}`}`,
  failed: ({ did, what, at }, zone) => `${thing(did, what)} ${timeText(at, zone)} failed`,
  undone: ({ did, what, at }, zone) => `undone by ${thing(did, what)} ${timeText(at, zone)}`,
  finding: ({ title, subject, state, verdict, stale }) =>
    `${title}, ${[subject, state].filter(Boolean).join(' ')}: ${verdict}${stale ? ', and not read again since the work' : ''}`,
  'finding-wanted': ({ title, verdict }) => `${title}: not shown to be ${or(verdict)}`,
  'code-means': ({ means, found }) =>
    found === null ? `no code means ${or(means)}` : `${found} means ${or(means)}`,
  'not-taken': ({ states, mark, tooLate }) =>
    `no ${or(states)} readings${mark === null ? '' : ` ${markWords[mark]}`}${tooLate ? ', and it is too late for them' : ''}`,
  taken: ({ snapshot }) => `snapshot ${snapshot}`,
  'no-code-list': ({ mark, tooLate }) =>
    `no code list${mark === null ? '' : ` ${markWords[mark]}`}${tooLate ? ', and it is too late for it' : ''}`,
  'conditions-wanted': ({ wants }) => `wants ${wants.join(', ')} stated where heights are read`,
  layout: ({ layout }) => layout,
  'step-open': ({ title }) => `step outstanding: ${title}`,
  'cost-not-authorised': () => 'cost not authorised',
  'cost-above': ({ total, authorised, currency }) =>
    `cost ${money(total)} is above the authorised ${money(authorised)}${currency === null ? '' : ` ${currency}`}`,
  'cost-unknown': ({ what }) =>
    `the cost of ${what} is not known: give its amount, or minutes and a labour rate`,
  'stale-evidence': ({ checks }) => {
    const shown = checks.slice(0, 3).map(({ title, subjects }) => `${title} (${subjects.join(' ')})`);
    const rest = checks.length > 3 ? `, and ${checks.length - 3} more checks` : '';
    return `older than the work, and not read again: ${shown.join(', ')}${rest}`;
  },
  'waiver-ended': ({ finding, until }) => `the waiver of ${finding} ended ${until}`,
  'waiver-void': ({ finding }) =>
    `the waiver of ${finding} is void: the check is not the one that was accepted`,
  'access-closed': ({ capability, equipment, ended, amount, currency }, zone) => {
    const what = `paid access for ${capability}${equipment === null ? '' : ` (${equipment})`}`;
    const price = amount === null ? '' : `, ${money(amount)}${currency === null ? '' : ` ${currency}`}`;
    return ended === null
      ? `${what} is not open: buy it${price}`
      : `${what} is not open for long enough, it ends ${timeText(ended, zone)}: buy it again${price}`;
  },
  'standing-authority': ({ by, upTo }) => `${by} has authorised every job up to ${money(upTo)}`,
  'readings-missing': ({ channels }) => `to take: ${channels.join(', ')}`,
  'reading-open': ({ title, subject, missing }) => `${title}, ${subject}: ${missingText(missing, ownUnits)}`,
  'readings-stale': ({ channels, after }) =>
    `to take again: ${channels.join(', ')}${after.length > 0 ? `, since ${after.join(', ')}` : ''}`,
  'part-in-question': ({ title }) => title,
  'part-not-blamed': ({ title, tooClose }) =>
    tooClose.length === 0
      ? `nothing that is out blames the ${title}`
      : `the ${title} is blamed only by what is too close to call: ${tooClose.join('; ')}`,
  'part-not-leading': ({ title, probability, leader, leads }) =>
    `the ${title} stands at ${percentText(probability)}; the ${leader} leads with ${percentText(leads)}`,
  'part-not-weighed': ({ title }) =>
    `the ${title}: without a labour rate nothing tells what a wrong part would cost`,
  'part-not-advised': ({ title, conditions }) => `the ${title}: ${conditions.map(conditionText).join('; ')}`,
  'part-unequipped': ({ title, step, needs }) =>
    `the ${title} will want "${step}", and no equipment here has ${needs}`,
  'not-so': () => 'a condition that must not hold does hold',
  stated: ({ what }) => `the job says: ${statedWords[what] ?? what}`,
  suspected: ({ title, probability, confirmed }) => `${title} ${percentText(probability, confirmed)}`,
  pays: ({ saves, currency }) =>
    saves === null
      ? 'it tells them apart'
      : `saves about ${saves.toFixed(0)}${currency === null ? '' : ` ${currency}`}`,
  confirms: ({ title }) => `wanted on record before the ${title} is repaired`,
  'fault-seen': ({ title, at, by }, zone) =>
    `${by ?? 'somebody'} saw that the ${title} is at fault, ${timeText(at, zone)}`,
  'fault-tested': ({ title, test, found }) => `${test} found ${found}, which is the ${title}`,
  'fault-advised': ({ title, probability }) => `the ${title} stands at ${percentText(probability, true)}`,
  returned: ({ title, did, at }, zone) => `the ${title} was ${did} ${timeText(at, zone)}, and it shows again`,
  'test-found': ({ title, found }) => `${title}: ${found}`,
  'no-test-pays': () => 'no advice stands, and no test that is left would pay for itself',
  'not-blamed': () => 'no suspect of these packs explains it',
  forbidden: ({ acts }) => `do not ${actsText(acts)}`,
  'waiting-since': ({ at }, zone) => `since ${timeText(at, zone)}`,
  worked: ({ title, did, at }, zone) => `the ${title} was ${did} ${timeText(at, zone)}`,
  'retest-test': ({ title, found }) =>
    found === null ? `to do again: ${title}` : `${title}: found ${found} again`,
  'retest-readings': ({ state, channels, after }) =>
    `to take again, ${state}: ${channels.join(', ')}, since ${after}`,
  'retest-unlike': ({ state, conditions }) =>
    `${state}: read again, but before the work with ${conditions.join(', ')}`,
  stands: ({ condition, word }) => `${condition} is ${word}`,
  moved: ({ channel, by }) => `${channel} is ${Math.round(by)} mm from before`,
  'no-fault': () => 'no fault is confirmed',
  'fault-open': ({ title }) => `the ${title} is at fault, and neither repaired nor declined`,
  'not-judged-without': ({ conditions }) => `without ${or(conditions)} some of its readings are not judged`,
  'repair-wanted': ({ title }) => `the ${title} is to be repaired`,
  'no-equipment': ({ needs }) => `no equipment here can do ${needs}: have it done elsewhere`,
  'nothing-open': () => 'nothing else is open, and the release is clear',
};

const assumptionWords: {
  readonly [K in Assumption['of']]: (of: Extract<Assumption, { readonly of: K }>, zone: string) => string;
} = {
  opened: ({ at, from }, zone) =>
    `opened ${timeText(at, zone)} (${from === 'saved' ? 'when the file was saved' : 'the first time in the file'})`,
  taken: ({ snapshots }) => `${snapshots.join(', ')} taken when the job was opened`,
  state: ({ state }) => `state ${state}`,
  zone: ({ zone }) => `zone ${zone} (this machine's)`,
  layout: ({ layout }) => `layout ${layout}`,
  packs: () => 'all rule packs at hand',
};

const assumptionText = (one: Assumption, zone: string): string =>
  (assumptionWords[one.of] as (of: Assumption, zone: string) => string)(one, zone);

const warningWords: Say<Warning> = {
  assumed: ({ what }, zone) =>
    `assumed, since the file does not say: ${what.map((one) => assumptionText(one, zone)).join('; ')}`,
  'snapshot-in-future': ({ snapshot, at }, zone) =>
    `snapshot ${snapshot} (${timeText(at, zone)}) lies after the time judged and is left out`,
  'log-in-future': ({ entry }, zone) =>
    `the log entry ${thing(entry.did, entry.what)} (${timeText(entry.stamp.at, zone)}) lies after the time judged and is left out`,
  waits: ({ what, waitsFor }) => `${what} waits for ${waitsFor ?? 'something not named'}`,
  despite: ({ entry, despite }, zone) =>
    `${thing(entry.did, entry.what)} ${timeText(entry.stamp.at, zone)}, though its hold point was not clear: ${despite} (${entry.by ?? 'nobody said who'})`,
  'closed-not-released': () => 'the job is closed, and the hold point release is not clear',
  'authorisation-in-future': ({ amount, at }, zone) =>
    `the authorisation of ${money(amount)} (${timeText(at, zone)}) lies after the time judged and is left out`,
  'waiver-ended': ({ finding, until }) => `the waiver of ${finding} ended ${until}`,
  'waiver-void': ({ finding }) =>
    `the waiver of ${finding} is void: the check is not the one that was accepted`,
  'waiver-matches-nothing': ({ finding }) => `the waiver of ${finding} matches no finding`,
  'channel-not-judged': ({ channel, pack }) => `${channel} is read but not judged: add ${pack}@1 to packs`,
  'name-not-used': ({ name, pack }) =>
    pack === null
      ? `no pack of this job knows ${name}`
      : `${name} belongs to ${pack}, which this job does not use`,
  'test-without-corner': ({ test, places }) =>
    `the log does not say where ${test} was done, so that it is evidence for no corner: write ${places.map((place) => `${test}.${place}`).join(', ')}`,
  'sight-in-words': ({ component, found }) =>
    `${found}, found by looking at ${component}, is kept but is no evidence: write fault-seen or nothing-seen, and the words as a note`,
  'pack-replaced': ({ pack, version, path }) =>
    `PACK REPLACED: ${pack} ${version} is not the published one; it is ${path}`,
  'ambiguous-time': ({ text }) =>
    `the clock shows ${text} twice that day; the first is taken (give an offset to say which)`,
};

const say = <T extends { readonly kind: string }>(table: Say<T>, of: T, zone: string): string =>
  (table[of.kind as T['kind']] as (of: T, zone: string) => string)(of, zone);

export const reasonText = (reason: Reason, zone: string): string => say(reasonWords, reason, zone);
export const warningText = (warning: Warning, zone: string): string => say(warningWords, warning, zone);

/** A warning as people read it above a sheet; what was assumed is no warning, and says itself what it is. */
export const noticeText = (warning: Warning, zone: string): string =>
  warning.kind === 'assumed' ? warningText(warning, zone) : `warning: ${warningText(warning, zone)}`;
