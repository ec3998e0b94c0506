// The first start, in both languages, with and without the script.

import assert from 'node:assert/strict';
import { test } from 'node:test';

import { LANGUAGES, fill, foundBook, launch, newPage, startServer } from './support/index.js';

const SIGNS_OF_A_CODE = 20;

for (const lang of Object.keys(LANGUAGES)) {
  test(`a book is founded and the code shown once: ${lang}`, async (t) => {
    const server = await startServer(t);
    const page = await newPage(t, await launch(t), server, { lang, size: 'small' });
    assert.equal(await page.locator('html').getAttribute('lang'), lang);
    const code = await foundBook(page);
    assert.ok(code.replace(/\s/g, '').length >= SIGNS_OF_A_CODE, code);
    assert.equal(new URL(page.url()).pathname, '/');
    assert.equal(await page.locator('nav.foot a').count(), 5);

    // Going back does not show it again, and founds nothing again.
    // The browser asks before it would send the form again.
    await page.goBack().catch(() => {});
    assert.doesNotMatch(await page.locator('body').innerText(), new RegExp(code.split(/\s+/)[0]));
    await page.goto(`${server.origin}/`);
    assert.equal(await page.locator('nav.foot a').count(), 5);
    assert.doesNotMatch(await page.content(), new RegExp(code.split(/\s+/)[0]));
  });
}

test('a form posts without the script', async (t) => {
  const server = await startServer(t);
  const page = await newPage(t, await launch(t), server, { script: false });
  await page.goto(`${server.origin}/start`);
  await page.locator('main form button.next').click();
  assert.equal(await page.locator('.field.bad').count(), 1, 'what is missing is told beside its field');
  await fill(page, { crew: 'Sin guion', name: 'Eva' });
  await page.locator('main form button.next').click();
  assert.ok((await page.locator('.code').innerText()).length >= SIGNS_OF_A_CODE);
});

test('two taps on the button found one book and show the same code', async (t) => {
  const server = await startServer(t);
  // Without the script nothing but the program itself holds the second tap back.
  const page = await newPage(t, await launch(t), server, { script: false });
  await page.goto(`${server.origin}/start`);
  const once = await page.locator('main [name="once"]').getAttribute('value');
  const body = new URLSearchParams({ do: 'found', key: '', once, crew: 'Doble', name: 'Eva' }).toString();
  const headers = { 'content-type': 'application/x-www-form-urlencoded', origin: server.origin };
  const send = () => page.request.post(`${server.origin}/start`, { data: body, headers });
  const answers = await Promise.all([send(), send()]);
  const codes = await Promise.all(answers.map(async (answer) => {
    assert.equal(answer.status(), 200);
    return /<p class="code">(.*?)<\/p>/s.exec(await answer.text())?.[1];
  }));
  assert.ok(codes[0]);
  assert.equal(codes[0], codes[1]);
});

test('with the script a second tap is not even sent', async (t) => {
  const server = await startServer(t);
  const page = await newPage(t, await launch(t), server);
  await page.goto(`${server.origin}/start`);
  await fill(page, { crew: 'Doble', name: 'Eva' });
  let sent = 0;
  page.on('request', (request) => {
    if (request.method() === 'POST' && request.url().endsWith('/start')) sent += 1;
  });
  await page.evaluate(() => {
    const button = document.querySelector('main form button.next');
    button.click();
    button.click();
  });
  await page.waitForSelector('.code');
  assert.equal(sent, 1);
});

test('what does not fit keeps what was typed and gets the focus', async (t) => {
  const server = await startServer(t);
  const page = await newPage(t, await launch(t), server);
  await page.goto(`${server.origin}/start`);
  await fill(page, { crew: 'Nur halb' });
  await page.locator('main form button.next').click();
  await page.waitForSelector('#wrong');
  assert.equal(await page.locator('[name="crew"]').inputValue(), 'Nur halb');
  assert.equal(await page.locator('[name="name"]').getAttribute('aria-invalid'), 'true');
  assert.equal(await page.evaluate(() => document.activeElement.id), 'wrong');
});

test('the language can be changed before anything else, and stays', async (t) => {
  const server = await startServer(t);
  const page = await newPage(t, await launch(t), server, { lang: 'en', at: '/start' });
  const english = await page.locator('h1').innerText();
  await page.locator('header button[name="language"]').click();
  await page.waitForSelector('html[lang="es"]');
  assert.equal(new URL(page.url()).pathname, '/start');
  assert.notEqual(await page.locator('h1').innerText(), english);
  await page.goto(`${server.origin}/join`);
  assert.equal(await page.locator('html').getAttribute('lang'), 'es');
});
