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

async function picture(page, name, from = 'h1') {
  // The head stays in sight; the rest begins where there is most to see.
  await page.locator(from).first().evaluate((node) => node.scrollIntoView());
  if (from === 'h1') await page.evaluate(() => scrollTo(0, 0));
  await page.screenshot({ path: join(folder, `${name}.png`) });
}

// The last link of a screen that leads where `leads` says, among those that tell of `about`.
async function link(page, at, leads, about = '') {
  await page.goto(new URL(at, page.url()).href);
  const found = page.locator('main a').filter({ hasText: about });
  const all = await found.evaluateAll((links) => links.map((a) => a.getAttribute('href')));
  const last = all.filter((href) => new RegExp(leads).test(href)).at(-1);
  if (!last) throw new Error(`${at} has no link to ${leads} that tells of ${about}`);
  return last;
}

const ID = '[0-9a-f-]{36}';

try {
  await mkdir(folder, { recursive: true });
  const server = await startServer(t);
  const browser = await launch(t);
  const page = await newPage(t, browser, server, { size: 'small', lang: 'en' });
  await page.locator('main form button').first().click();
  await page.locator('main a.next').click({ timeout: 120_000 });
  await page.waitForSelector('nav.foot');
  await picture(page, 'today');
  const yard = await link(page, '/yards', `^/yards/${ID}$`, 'Corner lot');
  await page.goto(new URL(yard, page.url()).href);
  await picture(page, 'yard', 'main figure');
  const visit = await link(page, '/', `^/visit/${ID}$`, 'Corner lot');
  for (const [step, name] of [['plan', 'plan'], ['ready', 'ready']]) {
    await page.goto(new URL(`${visit}/${step}`, page.url()).href);
    await picture(page, name);
  }
  const record = await link(page, '/records', `^/records/${ID}$`, 'Chapel green');
  await page.goto(new URL(record, page.url()).href);
  await picture(page, 'record');
  const keepOff = await link(page, '/', `^/visit/${ID}/keep-off$`);
  const spanish = await newPage(t, browser, server, { size: 'small', lang: 'es' });
  await enterAt(spanish, server, keepOff);
  await picture(spanish, 'keep-off-es');
} finally {
  for (const end of ends.reverse()) await end();
}
