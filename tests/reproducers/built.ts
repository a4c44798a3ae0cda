import type { ProblemCode } from '../../src/core/flaw.ts';

/** An input that cannot be kept as a text file, and the argument that names it. */
export interface Built {
  readonly argument: string;
  readonly files: Readonly<Record<string, string | Uint8Array>>;
}

const latin1 = Uint8Array.from('worksheet: 1\ntitle: 8 °C at night\n', (character) =>
  character.charCodeAt(0),
);

export const built: Partial<Readonly<Record<ProblemCode, Built>>> = {
  'file-not-found': { argument: 'shuttle-07.yaml', files: {} },
  'file-unreadable': { argument: 'jobs', files: { 'jobs/shuttle-07.yaml': 'worksheet: 1\n' } },
  'file-too-large': { argument: 'log.yaml', files: { 'log.yaml': '# a recorded log\n'.repeat(140_000) } },
  'too-many': { argument: 'log.yaml', files: { 'log.yaml': `x-log: [${'1, '.repeat(80_000)}1]\n` } },
  'not-utf8': { argument: 'latin.yaml', files: { 'latin.yaml': latin1 } },
};
