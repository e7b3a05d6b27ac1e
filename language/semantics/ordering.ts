/** Things that lead to each other in a circle, or a single one. */
export interface Component<T> {
  readonly members: readonly T[];
  /** The members lead back to themselves. */
  readonly circular: boolean;
}

interface Visit<T> {
  readonly node: T;
  readonly next: readonly T[];
  readonly index: number;
  low: number;
  position: number;
}

/**
 * Sorts the nodes, and all that they lead to, so that what a node leads to comes before it; nodes that lead to each
 * other in a circle stay together (Tarjan's strongly connected components). Walks without recursion, so that no length
 * of chain exhausts the stack.
 */
export function inOrder<T>(nodes: Iterable<T>, next: (node: T) => readonly T[]): readonly Component<T>[] {
  const found: Component<T>[] = [];
  const visits = new Map<T, Visit<T>>();
  const settled = new Set<T>();
  const open: Visit<T>[] = [];
  const path: Visit<T>[] = [];

  const enter = (node: T): void => {
    const visit = { node, next: next(node), index: visits.size, low: visits.size, position: 0 };
    visits.set(node, visit);
    open.push(visit);
    path.push(visit);
  };

  const leave = (visit: Visit<T>): void => {
    path.pop();
    const before = path[path.length - 1];
    if (before !== undefined) before.low = Math.min(before.low, visit.low);
    if (visit.low !== visit.index) return;
    const members = open.splice(open.lastIndexOf(visit)).map(({ node }) => node);
    for (const member of members) settled.add(member);
    found.push({ members, circular: members.length > 1 || visit.next.includes(visit.node) });
  };

  for (const node of nodes) {
    if (!visits.has(node)) enter(node);
    for (let visit = path[path.length - 1]; visit !== undefined; visit = path[path.length - 1]) {
      const follower = visit.next[visit.position++];
      if (follower === undefined) leave(visit);
      else {
        const known = visits.get(follower);
        if (known === undefined) enter(follower);
        else if (!settled.has(follower)) visit.low = Math.min(visit.low, known.index);
      }
    }
  }
  return found;
}

/** The shortest way from a node back to itself, starting and ending with it; undefined where there is none. */
export function wayBack<T>(node: T, next: (node: T) => readonly T[]): readonly T[] | undefined {
  const from = new Map<T, T>();
  const queue = [node];
  for (const current of queue) {
    for (const follower of next(current)) {
      if (follower === node) {
        const way = [current];
        for (let step = current; step !== node; ) {
          const earlier = from.get(step);
          if (earlier === undefined) break;
          way.unshift(earlier);
          step = earlier;
        }
        return [...way, node];
      }
      if (from.has(follower)) continue;
      from.set(follower, current);
      queue.push(follower);
    }
  }
  return undefined;
}
