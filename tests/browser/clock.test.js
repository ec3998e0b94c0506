// The device's clock: set back, or begun anew, it proves nothing, and no keep-off ends by it.

import assert from 'node:assert/strict';
import { test } from 'node:test';

import { HOUR_MS, LANGUAGES, enterAt, foundBook, launch, newPage, startServer } from './support/index.js';
import { act } from './support/acts.js';
import { COUNT, PLANS, PUT_ON, addLabel, addYard, openVisit, readSky, start, toStep, walkRound } from './support/visit.js';

const uncertain = (page) => page.locator('main a[href="/crew/time"]');

for (const lang of Object.keys(LANGUAGES)) {
  test(`a time that nothing vouches for is said, and confirmed by a person: ${lang}`, async (t) => {
    const server = await startServer(t);
    const page = await newPage(t, await launch(t), server, { lang, size: 'small' });
    await foundBook(page);
    assert.equal(await uncertain(page).count(), 0);
    await server.vouch('nobody');
    await server.reboot();
    await page.goto(`${server.origin}/`);
    assert.ok(await uncertain(page).first().isVisible());

    // Only with the tick that it was compared.
    await page.goto(`${server.origin}/crew/time`);
    await assert.rejects(act(page, 'confirm'), /refused/);
    await act(page, 'confirm', { same: true });
    assert.equal(new URL(page.url()).pathname, '/');
    assert.equal(await uncertain(page).count(), 0);

    // A clock that jumps afterwards is uncertain again.
    await server.jump(6 * HOUR_MS);
    await page.goto(`${server.origin}/`);
    assert.ok(await uncertain(page).first().isVisible());
  });
}

test('a clock set forward ends no keep-off, and neither does a program begun anew', async (t) => {
  const server = await startServer(t);
  const page = await newPage(t, await launch(t), server, { size: 'small', mayBeGone: true });
  await foundBook(page);
  await addLabel(page, 'granule', { keep_off_until_dry: 'no', keep_off_wait: '12', 'keep_off_wait.unit': 'h' });
  const visit = await openVisit(page, await addYard(page));
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

  const runs = async () => {
    await page.goto(`${server.origin}/`);
    return (await page.locator(`main a[href="${visit}/keep-off"]`).count()) > 0;
  };
  assert.ok(await runs());
  await server.vouch('nobody');
  await server.jump(24 * HOUR_MS);
  assert.ok(await runs(), 'the wall clock alone is no proof');
  await server.jump(-24 * HOUR_MS);
  await server.kill();
  await server.start();
  await enterAt(page, server);
  await server.advance(11 * HOUR_MS);
  assert.ok(await runs(), 'it has an hour left');
  await server.vouch('network');
  await server.advance(2 * HOUR_MS);
  assert.equal(await runs(), false, 'it is over');
});
