import { codeWords, exitWords } from './error-words.mjs';

const same = (what, known, told) => {
  const missing = known.filter((name) => !told.includes(name));
  const idle = told.filter((name) => !known.includes(name));
  if (missing.length + idle.length > 0)
    throw new Error(`error-words.mjs, ${what}: no words for ${missing}; words for nothing: ${idle}`);
};

/** One code with what the program prints of each input that is kept for it. */
const section = (code, outputs) => {
  const names = Object.keys(outputs).filter((name) => name === code || name.startsWith(`${code}.`));
  if (!names.includes(code)) throw new Error(`${code} has no reproducer`);
  return `### ${code}

${codeWords[code][0].toUpperCase()}${codeWords[code].slice(1)}

\`\`\`text
${names
  .sort()
  .map((name) => outputs[name].trimEnd())
  .join('\n\n')}
\`\`\`
`;
};

/**
 * The page of exit codes and error codes.
 *
 * @param exitCodes their numbers by name
 * @param codes all codes of problems, in their order
 * @param outputs what the program prints of each reproducer, by the reproducer's name
 */
export const errorsPage = (exitCodes, codes, outputs) => {
  same('exit codes', Object.keys(exitCodes), Object.keys(exitWords));
  same('codes', [...codes], Object.keys(codeWords));
  const exits = Object.entries(exitCodes).map(([name, number]) => `| ${number} | ${exitWords[name]} |`);
  return `<!-- Written by "npm run docs" from tests/reproducers and .config/build/error-words.mjs. -->

# Exit codes and error codes

What the program says when something is wrong, for whoever reads it with a script. The output below is what it really
prints: each comes from an input in \`tests/reproducers\` that the tests run.

## What is stable

Scripts may rely on the exit codes, and on the code in brackets behind a message, which JSON has as \`code\` with \`line\`,
\`column\` and \`hint\` beside it. A code never changes its meaning; new ones may come with any version. Where a code goes,
the first number of the version is counted up. The wording of messages and hints is for people, and may change at any
time. Of machine output \`"format": 1\` says how it may change: see [shop.md](shop.md#outputs).

## Exit codes

| code | means |
|---|---|
${exits.join('\n')}

[shop.md](shop.md#exit-codes) tells them by command, and [faults.md](faults.md) what happens when something goes wrong
around the program.

## Codes of problems

A message names file, line and column; below it stand the line and what to do. All problems of a file are told at once.
Beside these there is \`program-fault\`: the program itself failed at this file (exit code 3), and the others were judged.

${codes.map((code) => section(code, outputs)).join('\n')}`;
};
