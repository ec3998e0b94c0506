// What two phones recorded differently: it is asked, both answers are shown, and an answer settles it.
// And help: from every screen with one tap, an incident filed and added to.

import assert from 'node:assert/strict';
import { test } from 'node:test';

import { LANGUAGES, foundBook, launch, newPage, startServer } from './support/index.js';
import { act } from './support/acts.js';
import { crewOfTwo, lockedFile, takeIn } from './support/swap.js';
import { COUNT, PLANS, PUT_ON, addLabel, addYard, openVisit, readSky, start, toStep, walkRound } from './support/visit.js';

// A whole treatment, from the look to the finish.
async function treat(page, visit) {
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
}

test('what two phones recorded differently is asked and settled', async (t) => {
  const browser = await launch(t);
  const [leads, mates] = [await startServer(t), await startServer(t)];
  const lead = await newPage(t, browser, leads, { size: 'small' });
  const mate = await newPage(t, browser, mates, { size: 'small', lang: 'es' });
  await crewOfTwo([lead, leads], [mate, mates]);
  await addLabel(lead, 'granule');
  const yard = await addYard(lead);
  await takeIn(mate, mates.origin, await lockedFile(lead, leads.origin));

  // Apart: each writes another name for the yard, and each treats it.
  const names = ['Corner lot, north', 'Corner lot, south'];
  for (const [page, server, name] of [[lead, leads, names[0]], [mate, mates, names[1]]]) {
    await page.goto(`${server.origin}${yard}/edit`);
    await act(page, 'save', { name });
    await treat(page, await openVisit(page, yard));
  }
  await takeIn(lead, leads.origin, await lockedFile(mate, mates.origin));

  await lead.goto(leads.origin);
  assert.equal(await lead.locator('main a[href="/crew/settle"]').count(), 1, 'today tells of it');
  await lead.goto(`${leads.origin}/crew/settle`);
  const asked = await lead.locator('main').innerText();
  for (const name of names) assert.ok(asked.includes(name), name);
  await act(lead, 'one_job', { same: 'yes' });
  await act(lead, 'field', { value: names[1] });
  assert.equal(await lead.locator('main form').count(), 0, 'nothing is left to settle');

  // The answer travels like any record: the other phone asks nothing more, and shows the same.
  await takeIn(mate, mates.origin, await lockedFile(lead, leads.origin));
  await mate.goto(`${mates.origin}/crew/settle`);
  assert.equal(await mate.locator('main form').count(), 0);
  await mate.goto(mates.origin + yard);
  assert.ok((await mate.locator('h1').innerText()).includes(names[1]));
});

for (const lang of Object.keys(LANGUAGES)) {
  test(`help is one tap away, and what happened is filed: ${lang}`, async (t) => {
    const server = await startServer(t);
    const page = await newPage(t, await launch(t), server, { size: 'small', lang });
    await foundBook(page);
    await addYard(page);
    for (const at of ['/', '/yards', '/records', '/crew', '/things', '/things/settings']) {
      await page.goto(server.origin + at);
      assert.equal(await page.locator('header a[href="/help"]').count(), 1, at);
    }
    await page.locator('header a[href="/help"]').click();
    await page.waitForURL(`${server.origin}/help`);
    assert.ok(await page.locator('main a[href^="tel:"]').count() >= 4, 'there is whom to call');
    await page.goto(`${server.origin}/help/lines`);
    await act(page, 'add', { kind: 'vet', name: 'Practice vet', phone: '000-0300', read_on: '2026-06-01' });
    await page.goto(`${server.origin}/help/incident`);
    await act(page, 'file', { what: 'spill', told: 'About a cup,\nbeside the drive', when: 'now' });
    assert.match(await page.locator('main').innerText(), /About a cup/);
    await act(page, 'add', { done: 'Swept up' });
    const told = await page.locator('main').innerText();
    assert.match(told, /About a cup/);
    assert.match(told, /Swept up/);
    await page.goto(`${server.origin}/help`);
    assert.equal(await page.locator('main a[href="tel:0000300"]').count(), 1);
    assert.equal(await page.locator('main a[href^="/help/incident/"]').count(), 1);
  });
}
