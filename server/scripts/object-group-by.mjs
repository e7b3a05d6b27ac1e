// Object.groupBy for Node 20, which lacks it and which chevrotain calls when it checks a grammar. esbuild puts it in the
// place of Object.groupBy where a bundle has that; nothing global is changed.
export function objectGroupBy(items, keyOf) {
  const groups = Object.create(null);
  let index = 0;
  for (const item of items) {
    const key = keyOf(item, index++);
    groups[key] ??= [];
    groups[key].push(item);
  }
  return groups;
}
