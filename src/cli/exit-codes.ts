/** What the command tells the shell. Scripts rely on these numbers: never renumber them. */
export const EXIT = {
  done: 0,
  /** A fault in Laywright, or a folder or stream that could not be written. */
  fault: 1,
  /** A plan file or a command that cannot be understood or must not be obeyed. */
  badInput: 2,
  /** The plan is understood, and no cutting can meet it. */
  noPlan: 3,
  /** Ended by a second Ctrl-C: 128 + SIGINT (2), as POSIX shells report it. */
  interrupted: 130,
} as const;

export type ExitCode = (typeof EXIT)[keyof typeof EXIT];

/** Ends a command with one message for the person at the keyboard; never shown with a stack. */
export class CommandProblem extends Error {
  readonly exitCode: ExitCode;

  constructor(exitCode: ExitCode, message: string) {
    super(message);
    this.exitCode = exitCode;
  }
}
