import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { makeWorkspace, parseRecording, runRecorded } from './recorded-console.ts';
import { projectRoot } from './run.ts';

const consoleBlock = /```console\n([\s\S]*?)```/gu;
const shownFile = /<!-- file: (\S+) -->\n\n```yaml\n([\s\S]*?)```/gu;

const filePart = /<!-- part of: (\S+) -->\n\n```yaml\n([\s\S]*?)```/gu;

/** The commands of all recorded console examples on a page. */
export const recordedOn = (page: string) =>
  [...page.matchAll(consoleBlock)].flatMap(([, body = '']) => parseRecording(body));

const recordAgain = async (page: string, cwd: string): Promise<string> => {
  let fresh = page;
  for (const [whole, body = ''] of page.matchAll(consoleBlock)) {
    const parts: string[] = [];
    for (const { command } of parseRecording(body))
      parts.push(`$ ${command}\n${await runRecorded(command, cwd)}\n`);
    fresh = fresh.replace(whole, () => `\`\`\`console\n${parts.join('\n')}\`\`\``);
  }
  return fresh.replace(shownFile, (_, file: string) => {
    const body = readFileSync(join(projectRoot, file), 'utf8');
    return `<!-- file: ${file} -->\n\n\`\`\`yaml\n${body}\`\`\``;
  });
};

/**
 * Holds a Markdown page to the program: every block marked as console is run, in order, in one workspace, and every
 * file that it shows, whole or in part, is the file. With UPDATE_RECORDINGS=1 both are written into the page instead.
 *
 * @param name the page's path from the top of the project
 */
export const testPage = (name: string): void => {
  const path = join(projectRoot, name);
  const page = readFileSync(path, 'utf8');

  describe(name, () => {
    let workspace: Awaited<ReturnType<typeof makeWorkspace>>;
    beforeAll(async () => {
      workspace = await makeWorkspace();
    });
    afterAll(() => workspace.remove());

    if (process.env.UPDATE_RECORDINGS === '1') {
      it('is recorded again', async () => {
        writeFileSync(path, await recordAgain(page, workspace.cwd));
      }, 300_000);
      return;
    }
    it.each(recordedOn(page))('$command', async ({ command, output }) => {
      expect(output).toBe(await runRecorded(command, workspace.cwd));
    });
    it.each([...page.matchAll(shownFile)].map(([, file = '', body = '']) => ({ file, body })))(
      'shows $file as it is',
      ({ file, body }) => {
        expect(body).toBe(readFileSync(join(projectRoot, file), 'utf8'));
      },
    );
    it.each([...page.matchAll(filePart)].map(([, file = '', body = '']) => ({ file, body })))(
      'shows a part of $file as it is',
      ({ file, body }) => {
        expect(readFileSync(join(projectRoot, file), 'utf8')).toContain(body);
      },
    );
  });
};
