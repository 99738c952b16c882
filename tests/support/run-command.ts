import { type ChildProcess, spawn } from 'node:child_process';
import { fileURLToPath } from 'node:url';

/** The built command; `npm test` builds it first, so that no test meets a stale one. */
export const COMMAND = fileURLToPath(new URL('../../dist/cli/main.js', import.meta.url));

export interface Ran {
  readonly exitCode: number | null;
  readonly stdout: string;
  readonly stderr: string;
}

export interface RunOptions {
  readonly cwd: string;
  readonly input?: string;
  readonly environment?: Readonly<Record<string, string>>;
  /** Called with each chunk of standard error and the process, for tests that interrupt. */
  readonly onStderr?: (text: string, child: ChildProcess) => void;
  /** Called once the process is started. */
  readonly onStart?: (child: ChildProcess) => void;
}

/** Runs `laywright` with these words as a process of its own. */
export function laywright(words: readonly string[], options: RunOptions): Promise<Ran> {
  return run(process.execPath, [COMMAND, ...words], options);
}

export function run(program: string, words: readonly string[], options: RunOptions): Promise<Ran> {
  return new Promise((resolve, reject) => {
    const child = spawn(program, words, {
      cwd: options.cwd,
      env: { ...process.env, NO_COLOR: '1', ...options.environment },
    });
    let stdout = '';
    let stderr = '';
    child.stdout.setEncoding('utf8').on('data', (text: string) => {
      stdout += text;
    });
    child.stderr.setEncoding('utf8').on('data', (text: string) => {
      stderr += text;
      options.onStderr?.(text, child);
    });
    child.on('error', reject);
    child.on('close', (exitCode) => resolve({ exitCode, stdout, stderr }));
    child.stdin.on('error', () => {}); // A command that refuses its options closes its input unread.
    child.stdin.end(options.input ?? '');
    options.onStart?.(child);
  });
}
