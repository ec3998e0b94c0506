// The same stop again, with the same granules: how many taps it takes from today to the finish.

import assert from 'node:assert/strict';
import { test } from 'node:test';

import { HOUR_MS, foundBook, launch, newPage, startServer } from './support/index.js';
import { act, form } from './support/acts.js';
import { COUNT, PLANS, PUT_ON, addLabel, addYard, openVisit, readSky, start, toStep, walkRound } from './support/visit.js';

const DAY_MS = 24 * HOUR_MS;
const TAPS_MOST = 12;
const TAPS_IN_ALL_MOST = 30;

// The first visit, up to where the yard is dry again.
async function firstVisit(page, server) {
  await addLabel(page, 'granule');
  const yard = await addYard(page);
  const visit = await openVisit(page, yard);
  await toStep(page, visit, 'look');
  await act(page, 'count', COUNT);
  await toStep(page, visit, 'plan');
  await act(page, 'keep', PLANS.granule);
  await toStep(page, visit, 'ready/walk');
  await walkRound(page);
  await readSky(page);
  await start(page);
  await toStep(page, visit, 'treat');
  await act(page, 'finish', PUT_ON.granule);
  await server.advance(4 * HOUR_MS);
  await toStep(page, visit, 'keep-off');
  const lawn = await form(page, 'dry').locator('[name="keep_off"]').first().getAttribute('value');
  await act(page, 'dry', { keep_off: lawn, when: 'now' });
  return yard;
}

test('a repeat stop takes few taps and no typing but numbers', async (t) => {
  const server = await startServer(t);
  const page = await newPage(t, await launch(t), server, { size: 'small' });
  await foundBook(page);
  const yard = await firstVisit(page, server);
  await server.advance(40 * DAY_MS);
  await page.goto(`${server.origin}/`);

  const taps = [];
  const outside = [];
  const into = (list, what) => () => list.push(what);
  const follow = async (list, href) => {
    const link = page.locator(`main a[href="${href}"], nav.foot a[href="${href}"]`).first();
    assert.ok(await link.isVisible(), `no way to ${href}: ${await page.locator('main').innerText()}`);
    list.push(`to ${href.replace(/[0-9a-f-]{36}/g, '{id}')}`);
    const then = page.waitForNavigation();
    await link.click();
    await then;
  };

  await follow(taps, '/yards');
  await follow(taps, yard);
  const visit = await openVisit(page, yard, into(taps, 'start a visit'));
  if (!(await page.locator(`main a[href="${visit}/plan"]`).count())) assert.fail('the plan is not reached from the visit');
  await follow(taps, `${visit}/plan`);
  const plan = form(page, 'keep');
  const rate = await plan.locator('[name="rate"]').inputValue();
  assert.equal(rate, PLANS.granule.rate, 'the rate is as last time');
  await act(page, 'keep', {}, { tapped: into(taps, 'still true') });
  await follow(taps, `${visit}/ready`);

  // The readings and the walk round are counted apart. Where the wind comes from is not judged for
  // granules.
  const readings = { wind1: '4', wind2: '5', wind3: '4', span: '1', gust: '6', soil: 'fit', bloom: 'none' };
  await act(page, 'seen', readings, { key: 'missing', tapped: into(outside, 'reading') });
  await follow(outside, `${visit}/ready/walk`);
  const rows = await page.$$eval('main form:has([name="do"][value="walk"]) input[type="radio"]', (all) => [...new Set(all.map((r) => r.name))]);
  await act(page, 'walk', Object.fromEntries(rows.map((row) => [row, 'none'])), { tapped: into(outside, 'walk') });

  await start(page, into(taps, 'check, acknowledge, start'));
  assert.match(new URL(page.url()).pathname, /\/treat$/, 'the start leads to treating');
  await act(page, 'finish', { product: '6', when: 'now' }, { tapped: into(taps, 'finish') });
  assert.match(new URL(page.url()).pathname, /\/keep-off$/);

  t.diagnostic(`${taps.length} taps: ${taps.join(', ')}`);
  t.diagnostic(`${outside.length} taps on the walk round and for readings`);
  assert.ok(taps.length <= TAPS_MOST, `${taps.length} taps: ${taps.join(', ')}`);
  assert.ok(taps.length + outside.length <= TAPS_IN_ALL_MOST, `${taps.length + outside.length} taps in all`);
});
