// Calibrating a spreader: a strip is worked out and kept, boxes are drawn, in both languages and at
// every size.

import assert from 'node:assert/strict';
import { test } from 'node:test';

import { LANGUAGES, SIZES, access, foundBook, launch, layout, newPage, shot, startServer } from './support/index.js';
import { act } from './support/acts.js';

async function looks(page, name) {
  assert.deepEqual(await access(page), [], name);
  for (const size of Object.keys(SIZES)) {
    page.called.size = size;
    await page.setViewportSize(SIZES[size]);
    assert.deepEqual(await layout(page), [], `${name}, ${size}`);
    await shot(page, name);
  }
}

for (const lang of Object.keys(LANGUAGES)) {
  test(`a spreader is calibrated: ${lang}`, async (t) => {
    const server = await startServer(t);
    const page = await newPage(t, await launch(t), server, { lang, size: 'small' });
    await foundBook(page);
    await page.goto(`${server.origin}/things/equipment/new`);
    await act(page, 'add', { name: 'Red spreader', kind: 'rotary_spreader' });
    await page.goto(`${server.origin}/things/equipment`);
    await page.locator('main ul.list a.way').first().click();
    await page.locator('main a[href$="/calibrate"]').click();

    const strip = { start: '10', left: '6.4', length: '125', swath: '8', wanted: '3.6', 'wanted.unit': 'lb/1000 ft2', setting: '12' };
    await act(page, 'strip', strip);
    assert.match(await page.locator('main').innerText(), /3\.6 lb\/1000/);
    await looks(page, 'calibrate-strip');
    await act(page, 'keep', { pace: '3', calibrated_for: 'Example granules', calibrated_by: 'Eva' });
    assert.match(new URL(page.url()).pathname, /^\/things\/equipment\/[^/]+$/);
    assert.equal(await page.locator('[name="calibrated_rate"]').inputValue(), '3.6');
    assert.equal(await page.locator('[name="setting"]').inputValue(), '12');

    await page.locator('main a[href$="/calibrate"]').click();
    await act(page, 'boxes', { spacing: '1', catches: '1, 3, 6, 9, 12, 14, 15, 15, 15, 13, 11, 9, 5, 3, 1', across: '10' });
    assert.equal(await page.locator('main svg polyline').count(), 3);
    assert.equal(await page.locator('main form:has([name="do"][value="keep"])').count(), 0);
    await looks(page, 'calibrate-boxes');
  });
}
