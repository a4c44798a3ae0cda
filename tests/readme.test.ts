import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { projectRoot } from './support/run.ts';
import { makeWorkspace, parseTranscript, runEntry } from './support/transcript.ts';

/** The README's tour is real output: every block marked as console is run, every file that it shows is the file. */
const path = join(projectRoot, 'README.md');
const text = readFileSync(path, 'utf8');
const block = /```console\n([\s\S]*?)```/gu;
const shownFile = /<!-- file: (\S+) -->\n\n```yaml\n([\s\S]*?)```/gu;

const transcripts = [...text.matchAll(block)].flatMap(([, body = '']) => parseTranscript(body));

let workspace: Awaited<ReturnType<typeof makeWorkspace>>;
beforeAll(async () => {
  workspace = await makeWorkspace();
});
afterAll(() => workspace.remove());

if (process.env.UPDATE_TRANSCRIPTS === '1') {
  it('is written anew', async () => {
    let fresh = text;
    for (const [whole, body = ''] of text.matchAll(block)) {
      const parts: string[] = [];
      for (const { command } of parseTranscript(body))
        parts.push(`$ ${command}\n${await runEntry(command, workspace.cwd)}\n`);
      fresh = fresh.replace(whole, () => `\`\`\`console\n${parts.join('\n')}\`\`\``);
    }
    fresh = fresh.replace(shownFile, (_, file: string) => {
      const body = readFileSync(join(projectRoot, file), 'utf8');
      return `<!-- file: ${file} -->\n\n\`\`\`yaml\n${body}\`\`\``;
    });
    writeFileSync(path, fresh);
  });
} else {
  describe('the README', () => {
    it('has a tour', () => {
      expect(transcripts.length).toBeGreaterThanOrEqual(5);
    });

    it.each(transcripts)('$command', async ({ command, output }) => {
      expect(output).toBe(await runEntry(command, workspace.cwd));
    });

    it.each([...text.matchAll(shownFile)].map(([, file = '', body = '']) => ({ file, body })))(
      'shows $file as it is',
      ({ file, body }) => {
        expect(body).toBe(readFileSync(join(projectRoot, file), 'utf8'));
      },
    );

    it('gives the two commands that do everything', () => {
      expect(text).toContain('npm ci && npm start');
      expect(text).toContain('npm ci && npm test');
    });
  });
}
