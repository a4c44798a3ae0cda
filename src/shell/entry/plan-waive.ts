import type { Finding } from '../../core/finding.ts';
import type { Instant } from '../../core/job.ts';
import type { BriefWorksheet } from '../../core/worksheet.ts';
import type { Change } from '../../input/edit/change.ts';
import { braces, text } from '../../input/edit/value.ts';
import { quoted } from '../../input/quoted.ts';
import { didYouMean } from '../../input/suggest.ts';
import { thingsCalled } from '../../input/typed/things.ts';
import { type Choice, right, type Typed, type TypedFault, under, wrong } from '../../input/typed/typed.ts';
import { typedDay } from '../../input/typed/typed-day.ts';
import { longest, typedText } from '../../input/typed/typed-text.ts';

/** What somebody typed to accept a finding. */
export interface WaiveRequest {
  readonly finding: string;
  readonly reason?: string;
  readonly by?: string;
  readonly until?: string;
  readonly now: Instant;
}

export interface PlannedWaiver {
  /** `pack/check` or `pack/check:subject` */
  readonly finding: string;
  readonly until: string;
  readonly change: Change;
  /** The sheet that it was planned by. */
  readonly sheet: BriefWorksheet;
}

const nameOf = ({ check, subject }: Finding): string => `${check}:${subject}`;

/** What can be accepted: what is out, too close, or was not taken, as it stands now and accepted by nobody. */
const open = ({ findings }: BriefWorksheet): Finding[] =>
  findings.filter(({ newest, verdict, waived }) => newest && verdict !== 'within' && waived === null);

/** Findings to choose from, the worst first; each name once. */
const choicesOf = (findings: readonly Finding[]): Choice[] => {
  const weights = ['hold', 'look', 'note'];
  const place = ({ verdict, weight }: Finding): number =>
    (verdict === 'out' ? 0 : verdict === 'too-close' ? 10 : 20) + weights.indexOf(weight);
  const sorted = [...findings].sort((a, b) => place(a) - place(b));
  return [
    ...new Map(sorted.map((one) => [nameOf(one), { name: nameOf(one), title: one.checkTitle }])).values(),
  ];
};

/** More than these nobody reads through. */
const mostNamed = 8;

const named = (choices: readonly Choice[]): string => {
  const more = choices.length - mostNamed;
  const names = choices.slice(0, mostNamed).map(({ name }) => name);
  return `${names.join(', ')}${more > 0 ? ` and ${more} more` : ''}`;
};

/** The finding that was meant: its check, with or without its pack, and its subject where one is named. */
const findingMeant = (typed: string, sheet: BriefWorksheet): Typed<string> => {
  const own = typed.trim().replace(/@.*$/u, '');
  const [check = '', ...rest] = own.split(':');
  const subject = rest.join(':');
  const isCheck = (one: Finding): boolean =>
    [one.check, one.check.split('/')[1]].some((name) => name?.toLowerCase() === check.toLowerCase());
  const ofCheck = sheet.findings.filter(isCheck);
  const fits = ofCheck.filter((one) => subject === '' || one.subject.toLowerCase() === subject.toLowerCase());
  const [found] = fits.filter((one) => open(sheet).includes(one));
  if (found) return right(subject === '' ? found.check : nameOf(found));
  const choices = choicesOf(open(sheet).filter(({ verdict }) => verdict === 'out'));
  const otherwise = choices.length > 0 ? `what is out: ${named(choices)}` : 'nothing is out';
  const [other] = fits;
  if (other) {
    const name = subject === '' ? other.check : nameOf(other);
    const waived = fits.find((one) => one.waived !== null)?.waived;
    const why = waived
      ? `${name} is accepted already, until ${waived.until} by ${waived.by}`
      : `${name} is within its limits, so there is nothing to accept`;
    return wrong(typed, why, otherwise);
  }
  if (ofCheck.length > 0) {
    const subjects = [...new Set(ofCheck.map((one) => one.subject))];
    return wrong(
      typed,
      `${ofCheck[0]?.check} does not judge ${quoted(subject)}`,
      didYouMean(subject, subjects, otherwise),
    );
  }
  const called = thingsCalled(own, choices);
  const message = `no finding is called ${quoted(typed)}`;
  return called.length > 0
    ? { ok: false, fault: { typed, message, hint: `did you mean ${named(called)}?`, choices: called } }
    : wrong(
        typed,
        message,
        didYouMean(
          own,
          choices.map(({ name }) => name),
          otherwise,
        ),
      );
};

/** What must be said of a waiver and is not. */
const missing = ({ finding, reason, by, until }: WaiveRequest): TypedFault[] =>
  [
    { is: reason === undefined, says: 'why', flag: '--reason "…"' },
    { is: by === undefined, says: 'who accepts it', flag: '--by "…"' },
    { is: until === undefined, says: 'until when', flag: '--until 2026-03-09, or 7d' },
  ]
    .filter(({ is }) => is)
    .map(({ says, flag }) => ({ typed: finding, message: `a waiver must say ${says}`, hint: `add ${flag}` }));

/** A waiver to be written, or everything that is wrong with what was typed of it. */
export const planWaiver = (
  sheet: BriefWorksheet,
  request: WaiveRequest,
): PlannedWaiver | { readonly faults: readonly TypedFault[] } => {
  const faults: TypedFault[] = [];
  const keep = <T>(typed: Typed<T>): T | null => {
    if (typed.ok) return typed.value;
    faults.push(typed.fault);
    return null;
  };
  const finding = keep(findingMeant(request.finding, sheet));
  const reason = request.reason === undefined ? null : keep(typedText(request.reason, '--reason'));
  const by = request.by === undefined ? null : keep(typedText(request.by, '--by', longest.name));
  const { zone } = sheet.job;
  const until =
    request.until === undefined ? null : keep(under('--until', typedDay(request.until, zone, request.now)));
  faults.push(...missing(request));
  if (finding === null || reason === null || by === null || until === null) return { faults };
  const pack = finding.split('/')[0];
  const version = sheet.packs.find(({ id }) => id === pack)?.version;
  const value = braces([
    ['finding', text(finding)],
    ['reason', text(reason)],
    ['by', text(by)],
    ['until', text(until)],
    // So that a check that comes to mean something else is not accepted by it.
    ...(version === undefined ? [] : ([['under', text(version)]] as const)),
  ]);
  return { finding, until, change: { kind: 'append', to: ['waivers'], items: [value] }, sheet };
};
