// Node 20 lacks Object.groupBy and Map.groupBy, which the parser generator calls.
Map.groupBy ??= (items, keyOf) => {
  const groups = new Map();
  let index = 0;
  for (const item of items) {
    const key = keyOf(item, index++);
    if (groups.has(key)) groups.get(key).push(item);
    else groups.set(key, [item]);
  }
  return groups;
};
Object.groupBy ??= (items, keyOf) =>
  Object.assign(Object.create(null), Object.fromEntries(Map.groupBy(items, keyOf)));
