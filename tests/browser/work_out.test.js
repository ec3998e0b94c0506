// Working out product and water: results in both languages and at every size; nothing of it is kept.

import assert from 'node:assert/strict';
import { test } from 'node:test';

import { LANGUAGES, SIZES, access, foundBook, launch, layout, newPage, shot, startServer } from './support/index.js';
import { act } from './support/acts.js';

const WORKED = {
  rate: [{ rate: '3.6', 'rate.unit': 'pt/acre', area: '5000', step: '0.5', 'step.unit': 'fl oz' }, /6\.5/],
  stops: [
    {
      product: '15', 'product.unit': 'fl oz', mix: '50', carrier: '2', 'carrier.unit': 'gal/1000 ft2', most: '0.6',
      'most.unit': 'fl oz/1000 ft2', 'drawn-1': '10', 'area-1': '5000', 'drawn-2': '12', 'area-2': '5000',
    },
    /28 gal/,
  ],
  'watering-in': [{ depth: '0.5', area: '2000', cans: '0.2, 0.3, 0.25, 0.25', ran: '15', 'run-off': '12', soak: '30' }, /38 min/],
  pace: [{ length: '100', speed: '3', times: '25, 25.2, 24.8' }, /22\.73/],
};

async function looks(page, name) {
  // As tall as the page, so that the bar at the foot covers nothing that scrolling would show.
  const height = await page.evaluate(() => document.documentElement.scrollHeight);
  await page.setViewportSize({ ...SIZES.small, height: height + 600 });
  assert.deepEqual(await access(page), [], name);
  for (const size of Object.keys(SIZES)) {
    page.called.size = size;
    await page.setViewportSize(SIZES[size]);
    assert.deepEqual(await layout(page), [], `${name}, ${size}`);
    await shot(page, name);
  }
}

for (const lang of Object.keys(LANGUAGES)) {
  test(`product and water are worked out: ${lang}`, async (t) => {
    const server = await startServer(t);
    const page = await newPage(t, await launch(t), server, { lang, size: 'small' });
    await foundBook(page);
    await page.goto(`${server.origin}/things`);
    await page.locator('main a[href="/things/work-out"]').click();
    assert.equal(await page.locator('main ul.list a.way').count(), 11);
    for (const [name, [typed, result]] of Object.entries(WORKED)) {
      await page.goto(`${server.origin}/things/work-out/${name}`);
      await act(page, 'work-out', typed);
      assert.match(await page.locator('main section').innerText(), result);
      await looks(page, `work-out-${name}`);
    }
    // More drawn than is left stands beside its stop, and what was typed stays.
    await page.goto(`${server.origin}/things/work-out/stops`);
    await assert.rejects(act(page, 'work-out', { ...WORKED.stops[0], 'drawn-2': '60' }), /was refused/);
    assert.equal(await page.locator('.field.bad [name="drawn-2"]').inputValue(), '60');
    assert.equal(await page.locator('main .field.bad').count(), 1);
    await looks(page, 'work-out-slip');
  });
}
