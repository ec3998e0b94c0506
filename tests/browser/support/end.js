// What is to be done when a test or suite ends: the newest first, as what it leans on was older.

const ends = new WeakMap();

export function atEnd(t, end) {
  if (!ends.has(t)) {
    const stack = [];
    ends.set(t, stack);
    t.after(async () => {
      const failed = [];
      while (stack.length) await Promise.resolve(stack.pop()()).catch((error) => failed.push(error));
      if (failed.length) throw failed[0];
    });
  }
  ends.get(t).push(end);
}
