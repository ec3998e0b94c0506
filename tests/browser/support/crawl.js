// Every screen that links lead to, each kind once: ids in addresses are taken as the same.

const ID = /\/[0-9a-f]{8}-?[0-9a-f]{4}-?[0-9a-f]{4}-?[0-9a-f]{4}-?[0-9a-f]{12}|\/[0-9a-f]{16,}|\/\d+/gi;

// The kind of an address, such as /visit/{id}/look.
export function pattern(path) {
  return path.replace(ID, '/{id}');
}

// Addresses by kind, reached from `from` by links. Of each kind `each` are opened, because not all
// yards or visits lead to the same places.
export async function crawl(page, from = '/', each = 3) {
  const origin = new URL(page.url()).origin;
  const known = new Map();
  const waiting = [from];
  const taken = new Set(waiting);
  while (waiting.length) {
    const path = waiting.shift();
    const kind = pattern(path);
    const same = known.get(kind) ?? [];
    if (same.length >= each) continue;
    const answer = await page.goto(origin + path).catch((error) => {
      if (!/download/i.test(error.message)) throw error;
    });
    // A file to keep is no screen.
    if (!answer || !(answer.headers()['content-type'] ?? '').startsWith('text/html')) continue;
    if (answer.status() !== 200) throw new Error(`a link leads to ${path}, which answers ${answer.status()}`);
    known.set(kind, [...same, path]);
    const links = await page.$$eval('a[href]', (found) => found.map((a) => a.href));
    for (const link of links) {
      const url = new URL(link);
      if (url.origin !== origin || taken.has(url.pathname + url.search)) continue;
      taken.add(url.pathname + url.search);
      waiting.push(url.pathname + url.search);
    }
  }
  return known;
}
