/** Runs a function in a later turn of the event loop, after the messages that have arrived by then. */
export type Defer = (work: () => void) => void;

export interface IdleTask {
  /** Asks for a run. Asking again before it starts puts it off, within a limit. */
  request(): void;
}

/** The protocol library decodes a message in one turn and handles it in the next, so two messages in a row are two turns apart. */
const QUIET_TURNS = 3;
/** A client that never pauses still gets its answers this often. */
const LONGEST_WAIT_MS = 200;

/**
 * Work that waits until the messages that are already there have been handled: of several queued changes only the last
 * one is worked on. On an idle connection the wait is a few empty turns of the event loop.
 */
export function createIdleTask(defer: Defer, work: () => void): IdleTask {
  let turns = 0;
  let since: number | undefined;

  function turn(): void {
    turns -= 1;
    if (turns > 0 && performance.now() - (since ?? 0) < LONGEST_WAIT_MS) {
      defer(turn);
      return;
    }
    since = undefined;
    work();
  }

  return {
    request: () => {
      turns = QUIET_TURNS;
      if (since !== undefined) return;
      since = performance.now();
      defer(turn);
    },
  };
}
