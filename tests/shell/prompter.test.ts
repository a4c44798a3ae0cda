import { PassThrough, Writable } from 'node:stream';
import { describe, expect, it, onTestFinished } from 'vitest';
import { openPrompter, type Prompter } from '../../src/shell/prompter.ts';

interface Talk {
  readonly prompter: Prompter;
  readonly input: PassThrough;
  readonly printed: () => string;
}

/** A conversation whose input a test types; at a terminal the screen is what readline draws. */
const talk = (isTerminal: boolean): Talk => {
  let printed = '';
  const input = new PassThrough();
  const output = new Writable({
    write: (chunk: Buffer, _, done) => {
      printed += chunk.toString();
      done();
    },
  });
  if (isTerminal) {
    Object.assign(input, { isTTY: true, setRawMode: () => input });
    Object.assign(output, { isTTY: true, columns: 80 });
  }
  const prompter = openPrompter(input, output, isTerminal);
  onTestFinished(() => prompter.close());
  return { prompter, input, printed: () => printed };
};

/** What a screen shows in the end: without the moves of the cursor that drew it. */
const seen = (text: string): string => text.replace(/\u001b\[[\d;]*[A-Za-z]/gu, '');

describe('questions over a pipe', () => {
  it('are answered a line each, and printed with their answers', async () => {
    const { prompter, input, printed } = talk(false);
    input.write('2.48\n  96psi \n');
    expect(await prompter.ask('LF: ')).toBe('2.48');
    expect(await prompter.ask('tank: ')).toBe('  96psi ');
    expect(printed()).toBe('LF: 2.48\ntank:   96psi \n');
    expect(prompter.isTerminal).toBe(false);
  });

  it('wait for a line that comes late', async () => {
    const { prompter, input } = talk(false);
    const answer = prompter.ask('LF: ');
    input.write('2.');
    input.write('48\n');
    expect(await answer).toBe('2.48');
  });

  it('take a last line without its end, and lines with the ends of other systems', async () => {
    const { prompter, input } = talk(false);
    input.end('2.48\r\n\r\n2.50');
    expect(await prompter.ask('LF: ')).toBe('2.48');
    expect(await prompter.ask('RF: ')).toBe('');
    expect(await prompter.ask('LR: ')).toBe('2.50');
    expect(await prompter.ask('RR: ')).toBeNull();
  });

  it('have no answer once the input has ended, however often they are asked', async () => {
    const { prompter, input, printed } = talk(false);
    const answer = prompter.ask('LF: ');
    input.end();
    expect(await answer).toBeNull();
    expect(await prompter.ask('RF: ')).toBeNull();
    expect(await prompter.ask('LR: ')).toBeNull();
    expect(printed()).toBe('LF: \n');
  });

  it('have no answer after the conversation was closed', async () => {
    const { prompter } = talk(false);
    prompter.close();
    expect(await prompter.ask('LF: ')).toBeNull();
  });
});

describe('questions at a terminal', () => {
  it('are answered with the enter key, and echoed by the terminal', async () => {
    const { prompter, input, printed } = talk(true);
    const answer = prompter.ask('  LF: ');
    input.write('2.48\r');
    expect(await answer).toBe('2.48');
    expect(seen(printed())).toContain('  LF: 2.48');
    expect(prompter.isTerminal).toBe(true);
  });

  it('do not offer earlier answers: the arrow up brings back nothing', async () => {
    const { prompter, input } = talk(true);
    const first = prompter.ask('LF: ');
    input.write('2.48\r');
    await first;
    const second = prompter.ask('RF: ');
    input.write('\u001b[A\r');
    expect(await second).toBe('');
  });

  it.each([
    ['Ctrl-C', '\u0003'],
    ['Ctrl-D', '\u0004'],
  ])('stop at %s, and stay without answers', async (_, key) => {
    const { prompter, input } = talk(true);
    const answer = prompter.ask('LF: ');
    input.write(key);
    expect(await answer).toBeNull();
    expect(await prompter.ask('RF: ')).toBeNull();
  });

  it('stop at Ctrl-C even where a text was begun', async () => {
    const { prompter, input } = talk(true);
    const answer = prompter.ask('LF: ');
    input.write('2.48\u0003');
    expect(await answer).toBeNull();
  });
});
