// Every screen that links lead to, each kind once: ids in addresses are taken as the same.

const UUID = '[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}';
const ID = new RegExp(`([/=])(?:${UUID}|[0-9a-f]{16,}|\\d+)(?=[/?&#]|$)`, 'gi');

// The answers given to a key so far: their combinations are thousands, and one screen.
const ANSWERS = /(\/key\/[a-z-]+)\?.*/;

// The kind of an address, such as /visit/{id}/look.
export function pattern(path) {
  return path.replace(ID, '$1{id}').replace(ANSWERS, '$1?{answers}');
}

// Screens by kind, each with addresses, reached from `from` by links; and the links that lead
// nowhere. Of each kind `each` are opened, because not all yards or visits lead to the same places.
export async function crawl(page, from = '/', each = 3) {
  const origin = new URL(page.url()).origin;
  const screens = new Map();
  const dead = [];
  const waiting = [{ path: from, on: 'the start' }];
  const taken = new Set([from]);
  while (waiting.length) {
    const { path, on } = waiting.shift();
    const kind = pattern(path);
    const same = screens.get(kind) ?? [];
    if (same.length >= each) continue;
    const answer = await page.goto(origin + path).catch((error) => {
      if (!/download/i.test(error.message)) throw error;
    });
    // A file to keep is no screen.
    if (!answer || !(answer.headers()['content-type'] ?? '').startsWith('text/html')) continue;
    if (answer.status() !== 200) {
      dead.push(`${kind} on ${on} answers ${answer.status()}`);
      continue;
    }
    screens.set(kind, [...same, path]);
    const links = await page.$$eval('a[href]', (found) => found.map((a) => a.href));
    for (const link of links) {
      const url = new URL(link);
      const to = url.pathname + url.search;
      if (url.origin !== origin || taken.has(to)) continue;
      taken.add(to);
      waiting.push({ path: to, on: kind });
    }
  }
  return { screens, dead: [...new Set(dead)] };
}
