// What is typed survives the program, and two pages never differ for long.

import assert from 'node:assert/strict';
import { test } from 'node:test';

import { enterAt, fill, foundBook, launch, newPage, startServer, typeAndKeep } from './support/index.js';

test('a half-filled form survives the program being killed', async (t) => {
  const server = await startServer(t);
  const page = await newPage(t, await launch(t), server, { at: '/start', mayBeGone: true });
  await typeAndKeep(page, 'crew', 'Media hoja');
  await server.kill();
  await server.start();
  await enterAt(page, server, '/start');
  assert.equal(await page.locator('[name="crew"]').inputValue(), 'Media hoja');
  assert.equal(await page.locator('.draft').count(), 1);

  // Thrown away, it does not come back.
  await page.locator('.draft button').click();
  await page.waitForSelector('.draft', { state: 'detached' });
  assert.equal(await page.locator('[name="crew"]').inputValue(), '');
});

test('a draft that cannot be kept says so', async (t) => {
  const server = await startServer(t);
  const page = await newPage(t, await launch(t), server, { at: '/start', mayBeGone: true });
  const failed = await page.locator('#words [data-word="frame-draft-failed"]').textContent();
  await server.kill();
  await page.locator('[name="crew"]').fill('Sin respuesta');
  await page.waitForFunction((words) => document.querySelector('.kept')?.textContent === words, failed);
});

test('what was sent is no draft any more', async (t) => {
  const server = await startServer(t);
  const browser = await launch(t);
  const page = await newPage(t, browser, server);
  await page.goto(`${server.origin}/start`);
  await typeAndKeep(page, 'crew', 'Fertig');
  await fill(page, { name: 'Eva' });
  await page.locator('main form button.next').click();
  await page.waitForSelector('.code');
  await page.goto(`${server.origin}/start`);
  assert.equal(await page.locator('.draft').count(), 0);
});

test('a page follows what another does, without loading anew', async (t) => {
  const server = await startServer(t);
  const browser = await launch(t);
  const one = await newPage(t, browser, server);
  const two = await newPage(t, browser, server);
  await two.evaluate(() => { window.same = true; });
  const before = await two.locator('body').getAttribute('data-version');
  await foundBook(one);
  await two.waitForFunction((version) => document.body.dataset.version !== version, before);
  await two.waitForFunction((words) => document.querySelector('main').innerText === words, await one.locator('main').innerText());
  assert.equal(await two.evaluate(() => window.same), true);
});

test('a page where something is typed is asked first', async (t) => {
  const server = await startServer(t);
  const browser = await launch(t);
  const one = await newPage(t, browser, server);
  await foundBook(one);
  const two = await newPage(t, browser, server, { at: '/join' });
  await typeAndKeep(two, 'name', 'Noch nicht fertig');
  await one.goto(`${server.origin}/start`);
  const change = await one.request.post(`${server.origin}/language`, {
    data: 'language=es&then=/',
    headers: { 'content-type': 'application/x-www-form-urlencoded', origin: server.origin },
  });
  assert.ok(change.ok());
  await two.waitForSelector('#fresh:not([hidden])');
  assert.equal(await two.locator('[name="name"]').inputValue(), 'Noch nicht fertig');
  assert.equal(await two.locator('html').getAttribute('lang'), 'en');
  await two.locator('#fresh a').click();
  await two.waitForSelector('html[lang="es"]');
  assert.equal(await two.locator('[name="name"]').inputValue(), 'Noch nicht fertig', 'it came along as a draft');
});

test('the code that is shown once is not exchanged for another page', async (t) => {
  const server = await startServer(t);
  const browser = await launch(t);
  const page = await newPage(t, browser, server, { at: '/start' });
  await fill(page, { crew: 'Una vez', name: 'Eva' });
  await page.locator('main form button.next').click();
  await page.waitForSelector('.code');
  const code = await page.locator('.code').innerText();
  const other = await newPage(t, browser, server);
  const before = await other.locator('body').getAttribute('data-version');
  await other.request.post(`${server.origin}/language`, {
    data: 'language=es&then=/',
    headers: { 'content-type': 'application/x-www-form-urlencoded', origin: server.origin },
  });
  await other.waitForFunction((version) => document.body.dataset.version !== version, before);
  // Told at the same time, this page has had its turn once it has asked for something else.
  await page.evaluate(() => fetch('/icon.svg'));
  assert.equal(await page.locator('.code').innerText(), code);
  assert.equal(await page.locator('body').getAttribute('data-version'), '0');
});
