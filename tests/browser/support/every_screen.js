// Every screen that links lead to, in both languages, at every size, by day and by night, or with
// letters twice as large: what is on it can be read, reached and tapped.

import assert from 'node:assert/strict';
import { test } from 'node:test';

import {
  PAGE_BYTES_MOST, SIZES, access, crawl, launch, layout, newPage, pattern, setLight, shot, startServer, weight,
} from './index.js';

const CONTRAST = ['color-contrast', 'color-contrast-enhanced'];

const name = (kind) => (kind === '/' ? 'today' : kind.slice(1).replace(/[^a-z0-9]+/gi, '-').replace(/-$/, ''));

// The invented season, where there is much to see; and the screens before a book is open.
async function lookAtSeason(page) {
  await page.locator('main form button').first().click();
  await page.waitForSelector('nav.foot');
  // Making it may take a while, on a screen of its own that goes on by itself.
  if (pattern(new URL(page.url()).pathname).startsWith('/working')) {
    await page.locator('main a.next').click({ timeout: 120_000 });
  }
}

async function judge(t, page, kind, large) {
  const screen = name(kind);
  const faults = [];
  const add = (where, found) => faults.push(...found.map((fault) => `${where}: ${fault}`));
  if (!large) {
    // High enough that the foot, which stays in sight, lies over nothing.
    const high = await page.evaluate(() => document.documentElement.scrollHeight);
    await page.setViewportSize({ width: SIZES.small.width, height: high + 200 });
    add('all sizes', await access(page));
    const bytes = await weight(page);
    if (bytes > PAGE_BYTES_MOST) add('all sizes', [`${bytes} bytes`]);
  }
  for (const size of large ? ['small'] : Object.keys(SIZES)) {
    page.called.size = size;
    await page.setViewportSize(SIZES[size]);
    add(size, await layout(page));
    await shot(page, screen, large ? '-200' : '');
  }
  if (!large) {
    await setLight(page, 'night');
    await page.setViewportSize(SIZES.small);
    page.called.size = 'small';
    add('night', await access(page, CONTRAST));
    await shot(page, screen);
    await setLight(page, 'day');
  }
  t.diagnostic(`${kind}: ${faults.length} faults`);
  assert.deepEqual(faults, [], kind);
}

// Every screen in one language. A language is a file of its own, so that both run at a time. A daily run looks at
// one with letters of the usual size and at the other, whose words are longer, with letters twice as large; a
// long one (SWARD_EVERY_LOOK=yes) at both in both.
export function everyScreen(lang, daily) {
  for (const fontPercent of process.env.SWARD_EVERY_LOOK === 'yes' ? [100, 200] : [daily]) {
    test(`every screen: ${lang}, letters at ${fontPercent} %`, async (t) => {
      const large = fontPercent > 100;
      const server = await startServer(t);
      const page = await newPage(t, await launch(t, { fontPercent }), server, { lang, size: 'small' });
      const px = await page.evaluate(() => parseFloat(getComputedStyle(document.documentElement).fontSize));
      assert.equal(px, (16 * fontPercent) / 100, 'the browser has the font size that was asked for');

      const judged = new Set();
      const dead = [];
      const each = async (found) => {
        dead.push(...found.dead);
        for (const [kind, [path]] of found.screens) {
          // The shapes of what is left out are those of a section, with the same fields.
          if (/leave-out=(?!drawn)/.test(kind)) continue;
          if (judged.has(kind)) continue;
          judged.add(kind);
          await t.test(kind, async (t) => {
            await page.goto(server.origin + path);
            await judge(t, page, kind, large);
          });
        }
      };
      await each(await crawl(page));
      judged.delete('/');
      await page.goto(server.origin);
      await lookAtSeason(page);
      await each(await crawl(page));
      assert.ok(judged.size >= 10, `only ${judged.size} screens were found`);
      assert.deepEqual(dead, [], 'links that lead nowhere');
    });
  }
}
