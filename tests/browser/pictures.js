// Takes the pictures of the README: the invented season on a phone's screen, into fixtures/pictures.
//
//   cargo build --workspace --all-features --example screens-for-tests
//   npm ci --prefix tests/browser && node tests/browser/pictures.js

import { mkdir } from 'node:fs/promises';
import { join } from 'node:path';

import { enterAt, launch, newPage, startServer } from './support/index.js';
import { root } from './support/folders.js';

const folder = join(root, 'fixtures', 'pictures');
const ends = [];
// What tests tidy up after themselves by: here, at the end of the program.
const t = { after: (end) => ends.push(end), diagnostic: () => {}, name: 'pictures' };

async function picture(page, name) {
  await page.evaluate(() => scrollTo(0, 0));
  await page.screenshot({ path: join(folder, `${name}.png`) });
}

async function firstLink(page, at, start) {
  await page.goto(new URL(at, page.url()).href);
  return page.locator(`main a[href^="${start}"]`).evaluateAll(
    (links, skip) => links.map((a) => a.getAttribute('href')).filter((href) => !skip.includes(href)).at(-1),
    ['/yards/new', '/records/correct'],
  );
}

try {
  await mkdir(folder, { recursive: true });
  const server = await startServer(t);
  const browser = await launch(t);
  const page = await newPage(t, browser, server, { size: 'small', lang: 'en' });
  await page.locator('main form button').first().click();
  await page.locator('main a.next').click({ timeout: 120_000 });
  await page.waitForSelector('nav.foot');
  await picture(page, 'today');
  const yard = await firstLink(page, '/yards', '/yards/');
  await page.goto(new URL(yard, page.url()).href);
  await picture(page, 'yard');
  const visit = (await firstLink(page, '/', '/visit/')).split('/').slice(0, 3).join('/');
  for (const [step, name] of [['plan', 'plan'], ['ready', 'ready']]) {
    await page.goto(new URL(`${visit}/${step}`, page.url()).href);
    await picture(page, name);
  }
  const record = await firstLink(page, '/records', '/records/');
  await page.goto(new URL(record, page.url()).href);
  await picture(page, 'record');
  const keepOff = await firstLink(page, '/', '/visit/');
  const spanish = await newPage(t, browser, server, { size: 'small', lang: 'es' });
  await enterAt(spanish, server, `${keepOff.split('/').slice(0, 3).join('/')}/keep-off`);
  await picture(spanish, 'keep-off-es');
} finally {
  for (const end of ends.reverse()) await end();
}
