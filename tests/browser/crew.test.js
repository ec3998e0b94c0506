// Two phones: one asks to join, the other admits it, and files carry the records both ways.

import assert from 'node:assert/strict';
import { test } from 'node:test';

import { foundBook, launch, newPage, startServer } from './support/index.js';
import { act, fillForm, form } from './support/acts.js';
import { fileOf, lockedFile, takeIn } from './support/swap.js';
import { COUNT, addYard, openVisit, toStep } from './support/visit.js';

test('two phones become one crew and show the same visit', async (t) => {
  const browser = await launch(t);
  const [leads, joins] = [await startServer(t), await startServer(t)];
  const lead = await newPage(t, browser, leads, { size: 'small' });
  const mate = await newPage(t, browser, joins, { size: 'small', lang: 'es' });

  await foundBook(lead, 'Cuadrilla', 'Ana Pérez');
  const yard = await addYard(lead);
  const visit = await openVisit(lead, yard);
  await toStep(lead, visit, 'look');
  await act(lead, 'count', COUNT);

  // The request: both see the same digits before anyone is admitted.
  await mate.goto(`${joins.origin}/join`);
  await act(mate, 'ask', { name: 'Beto Ruiz' });
  const own = await mate.locator('main .code').first().innerText();
  const request = await fileOf(mate, 'request');
  assert.doesNotMatch(request.name, /beto|ruiz/i, 'no name in the name of a file');
  await lead.goto(`${leads.origin}/crew/admit`);
  await act(lead, 'read', { request });
  const shown = await lead.locator('main .code').first().innerText();
  assert.equal(shown.replace(/\s/g, ''), own.replace(/\s/g, ''));

  // Nobody is admitted without saying that the digits were compared.
  const role = 'applicator';
  await fillForm(form(lead, 'admit'), { role });
  await form(lead, 'admit').locator('button[type="submit"]').last().click();
  await lead.waitForSelector('#wrong');
  await act(lead, 'admit', { role, same: true });

  // Before the swap the other phone knows nothing; after it, all.
  await mate.goto(joins.origin + visit);
  assert.equal(await mate.locator(`main a[href="${visit}/look"]`).count(), 0);
  const forMate = await lockedFile(lead, leads.origin);
  assert.equal(forMate.buffer.includes('Example Lane'), false, 'the file is closed');
  await takeIn(mate, joins.origin, forMate);
  await mate.goto(joins.origin + visit);
  assert.match(await mate.locator('main').innerText(), /Corner lot/);

  // The other way: what the mate counts, the lead sees.
  await toStep(mate, visit, 'look');
  await act(mate, 'count', { ...COUNT, count1: '17', count2: '19' });
  await takeIn(lead, leads.origin, await lockedFile(mate, joins.origin));
  await toStep(lead, visit, 'look');
  await toStep(mate, visit, 'look');
  for (const page of [lead, mate]) {
    const text = await page.locator('main').innerText();
    for (const count of ['9', '12', '17', '19']) assert.match(text, new RegExp(`\\b${count}\\b`));
  }
});

test('a file that is no locked file is refused in words, and nothing is lost', async (t) => {
  const server = await startServer(t);
  const page = await newPage(t, await launch(t), server, { size: 'small' });
  await foundBook(page);
  for (const [name, path, field] of [['take', '/crew/swap', 'file'], ['read', '/crew/admit', 'request']]) {
    for (const bytes of ['', 'not a locked file', '\u0000'.repeat(5000)]) {
      await page.goto(server.origin + path);
      const file = { name: 'x.bin', mimeType: 'application/octet-stream', buffer: Buffer.from(bytes) };
      await fillForm(form(page, name), { [field]: file });
      await form(page, name).locator('button[type="submit"]').last().click();
      await page.waitForSelector('#wrong, main .result:not(.well)');
    }
  }
  await page.goto(`${server.origin}/crew`);
  assert.equal(await page.locator('main a[href^="/crew/member/"]').count(), 1);
});
