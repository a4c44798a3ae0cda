import type { Finding } from '../../core/finding.ts';
import type { BriefWorksheet } from '../../core/worksheet.ts';
import { codeOf, type Part } from '../../input/typed/typed-snapshot.ts';
import { verdictLines } from '../../report/entry/verdicts.ts';
import { isOfVehicle } from '../../report/sheet/not-taken-lines.ts';
import { missingText } from '../../report/words/finding-words.ts';
import type { Answer } from './ask.ts';
import type { Surroundings } from './fill-state.ts';

const findingsAbout = (sheet: BriefWorksheet, snapshot: string, part: Part): Finding[] => {
  const { name } = part;
  const own = sheet.findings.filter((one) => one.snapshot === snapshot);
  if (name.kind === 'reading') return own.filter(({ channels }) => channels.includes(name.key));
  if (name.kind === 'lamp') return own.filter(({ kind }) => kind === 'lamp');
  if (name.kind !== 'codes') return [];
  // Of a list that grows, only the code just typed.
  const codes = own.filter(({ kind }) => kind === 'stored-codes');
  return part.value.kind === 'list' ? codes : codes.filter(({ subject }) => subject === codeOf(part));
};

/** What could be judged only now that a condition or a fact of the vehicle is stated. */
const judgedNow = (before: BriefWorksheet | null, after: BriefWorksheet): Finding[] => {
  const was = new Map((before?.findings ?? []).map((one) => [one.id, one.verdict]));
  return after.findings.filter(
    ({ id, verdict, newest }) => newest && verdict !== 'not-taken' && was.get(id) !== verdict,
  );
};

/** Why no check judges a reading of this vehicle, where none does. */
const unjudged = (
  sheet: BriefWorksheet,
  findings: readonly Finding[],
  key: string,
  { style }: Surroundings,
): string | null => {
  if (findings.length > 0) return null;
  const missing = sheet.findings.find((one) => isOfVehicle(one) && one.channels.includes(key))?.missing;
  return missing ? `not judged: ${missingText(missing, style.options)}` : null;
};

/**
 * What the checks say of an answer, below it; how it was understood only where that is not what was typed.
 *
 * @param snapshot where the answer went; null for a fact of the vehicle
 */
export const tell = (
  { understood, typed }: Extract<Answer, { kind: 'given' }>,
  snapshot: string | null,
  before: BriefWorksheet | null,
  after: BriefWorksheet | null,
  around: Surroundings,
): void => {
  const { style, print } = around;
  const part = understood.kind === 'part' ? understood.part : null;
  const echo = part?.echo ?? (understood.kind === 'fact' ? understood.echo : '');
  const isReading = part?.name.kind === 'reading';
  const key = part?.name.kind === 'reading' ? part.name.key : '';
  const isAbout = part !== null && part.name.kind !== 'condition';
  const findings =
    after === null ? [] : isAbout ? findingsAbout(after, snapshot ?? '', part) : judgedNow(before, after);
  const none = after && isReading ? unjudged(after, findings, key, around) : null;
  const asTyped = !isReading && echo.toLowerCase() === typed.toLowerCase();
  const said = [...(asTyped ? [] : [echo]), ...(none === null ? [] : [none])].join('; ');
  print(verdictLines(said === '' ? null : said, findings, style));
};
