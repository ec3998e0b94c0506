// A whole visit, from the first look to the day of the re-check, with granules and with a spray.

import assert from 'node:assert/strict';
import { test } from 'node:test';

import { HOUR_MS, LANGUAGES, foundBook, launch, newPage, startServer } from './support/index.js';
import { act, form } from './support/acts.js';
import { COUNT, PLANS, PUT_ON, addLabel, addYard, openVisit, readSky, start, toStep, walkRound } from './support/visit.js';

const PUT_ON_SHOWN = { granule: '6', foliar_spray: '1.9' };

const text = (page) => page.locator('main').innerText();

// What must stand empty, because a copied value would be a lie.
async function assertEmpty(page, names) {
  for (const name of names) {
    const filled = await page.$$eval(
      `main [name="${name}"]`,
      (fields) => fields.some((f) => (['radio', 'checkbox'].includes(f.type) ? f.checked : f.value !== '')),
    );
    assert.equal(filled, false, `${name} is filled in beforehand`);
  }
}

for (const kind of Object.keys(PLANS)) {
  for (const lang of Object.keys(LANGUAGES)) {
    test(`a visit: ${kind}, ${lang}`, async (t) => {
      const server = await startServer(t);
      const page = await newPage(t, await launch(t), server, { lang, size: 'small' });
      await foundBook(page);
      await addLabel(page, kind);
      const visit = await openVisit(page, await addYard(page));

      // Each step is reached by the one button of the step before.
      const next = () => page.locator('main a.next').first().getAttribute('href');
      assert.equal(await next(), `${visit}/look`);
      await toStep(page, visit, 'look');
      await assertEmpty(page, ['count1', 'count2', 'count3', 'count4']);
      await act(page, 'count', COUNT);
      await toStep(page, visit);
      assert.equal(await next(), `${visit}/plan`);

      await toStep(page, visit, 'plan');
      await act(page, 'keep', PLANS[kind]);
      assert.equal(await next(), `${visit}/ready`, await text(page));
      await toStep(page, visit);
      assert.equal(await next(), `${visit}/ready`);

      await toStep(page, visit, 'ready/walk');
      const rows = await page.$$eval('main input[type="radio"]', (all) => [...new Set(all.map((r) => r.name))]);
      assert.ok(rows.length >= 8, `only ${rows.join(', ')}`);
      await assertEmpty(page, rows);
      await walkRound(page);
      await assertEmpty(page, ['wind1', 'wind2', 'wind3', 'gust', 'from', 'soil', 'bloom', 'air', 'humidity', 'inversion']);
      await readSky(page);
      await start(page);

      await toStep(page, visit, 'treat');
      await assertEmpty(page, ['product', 'water', 'when', 'care']);
      await server.advance(HOUR_MS / 4);
      await toStep(page, visit, 'treat');
      await act(page, 'finish', PUT_ON[kind]);

      // The keep-off waits for somebody who sees it dry, however long that takes.
      await toStep(page, visit, 'keep-off');
      await assertEmpty(page, ['when', 'dry_check', 'who']);
      await server.advance(12 * HOUR_MS);
      await toStep(page, visit, 'keep-off');
      const lawn = await form(page, 'dry').locator('[name="keep_off"]').first().getAttribute('value');
      await page.goto(`${server.origin}/`);
      assert.ok(await page.locator(`main a[href="${visit}/keep-off"]`).count(), 'today says that it still runs');
      await toStep(page, visit, 'keep-off');
      await act(page, 'dry', { keep_off: lawn, when: 'now' });
      assert.equal(await form(page, 'dry').count(), 0, 'nothing is left to be looked at');
      await page.goto(`${server.origin}/`);
      assert.equal(await page.locator(`main a[href="${visit}/keep-off"]`).count(), 0, 'today has none any more');

      // A day for the re-check, which then comes up by itself.
      await toStep(page, visit, 'recheck');
      await act(page, 'plan', { day: '2026-06-29', what: 're_check' });
      await server.advance(14 * 24 * HOUR_MS);
      await page.goto(`${server.origin}/`);
      const due = await page.locator('main a[href]').evaluateAll((all) => all.map((a) => a.getAttribute('href')));
      assert.ok(due.some((href) => href.startsWith(visit)), `today does not lead to the re-check: ${due.join(' ')}`);

      // The record has what was put on.
      await page.goto(`${server.origin}/records${visit.replace('/visit', '')}`);
      const record = await text(page);
      assert.match(record, new RegExp(`\\b${PUT_ON_SHOWN[kind].replace('.', '[.,]')}\\b`));
      assert.match(record, /Example/);
    });
  }
}
