import { CloseAction, ErrorAction, type ErrorHandler } from 'vscode-languageclient/node';

const CRASHES_TOLERATED = 3;
const WITHIN_MS = 3 * 60 * 1000;
const WRITE_ERRORS_TOLERATED = 3;

export interface CrashPolicyOptions {
  /** False while the server has not yet answered `initialize`: a server that cannot start is not tried again. */
  readonly isRunning: () => boolean;
  /** Called once when the server is given up, with a sentence that says why. */
  readonly onGiveUp: (reason: string) => void;
}

/** Restarts a crashed server quietly, up to three times in three minutes; then gives up and says so. */
export function createCrashPolicy({ isRunning, onGiveUp }: CrashPolicyOptions): ErrorHandler {
  let crashes: number[] = [];
  return {
    error: (_error, _message, count) => ({
      action: count !== undefined && count <= WRITE_ERRORS_TOLERATED ? ErrorAction.Continue : ErrorAction.Shutdown,
    }),
    closed: () => {
      const now = Date.now();
      crashes = [...crashes.filter((time) => now - time < WITHIN_MS), now];
      if (isRunning() && crashes.length <= CRASHES_TOLERATED) {
        return {
          action: CloseAction.Restart,
          message: 'The language server ended unexpectedly; starting it again.',
          handled: true,
        };
      }
      const reason = isRunning()
        ? `The Rigwright language server ended unexpectedly ${crashes.length} times in three minutes.`
        : 'The Rigwright language server ended before it was ready.';
      onGiveUp(reason);
      return { action: CloseAction.DoNotRestart, message: reason, handled: true };
    },
  };
}
