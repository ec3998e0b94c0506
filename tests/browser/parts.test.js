// What the script adds: number keys, the walk, the drawing, the countdown. Each by hand and without.

import assert from 'node:assert/strict';
import { test } from 'node:test';

import { HOUR_MS, fill, foundBook, launch, layout, newPage, startServer } from './support/index.js';

const LAWN = { latitude: 40.0001, longitude: -75.0001, accuracy: 4 };

// A yard, and the screen on which one of its sections is measured by this shape.
async function measuring(t, shape, options) {
  const server = await startServer(t);
  const page = await newPage(t, await launch(t), server, { size: 'small', ...options });
  await foundBook(page);
  await page.goto(`${server.origin}/yards/new`);
  await fill(page, { name: 'Corner lot' });
  await page.locator('main form button.next').click();
  await page.waitForURL(/\/yards\/[0-9a-f-]{36}/);
  const [yard] = /\/yards\/[0-9a-f-]{36}/.exec(page.url());
  await page.goto(`${server.origin}${yard}/sections/new?shape=${shape}`);
  return { page, server };
}

test('number keys come with a tap, and a keyboard types on', async (t) => {
  const { page } = await measuring(t, 'rectangle');
  const field = page.locator('input[data-pad]:not([data-pad="whole"])').first();
  await field.tap();
  const pad = page.locator('.pad');
  assert.equal(await pad.count(), 1);
  assert.ok((await pad.getAttribute('aria-label')).length > 3, 'it says which field it is for');
  for (const key of ['1', '2', '.', '5', '0']) await pad.getByRole('button', { name: key, exact: true }).tap();
  assert.equal(await field.inputValue(), '12.50');
  await pad.locator('button').nth(3).tap();
  assert.equal(await field.inputValue(), '12.5');
  assert.ok(await field.evaluate((e) => e === document.activeElement), 'the field keeps the focus');
  await page.keyboard.type('7');
  assert.equal(await field.inputValue(), '12.57');
  const box = await field.boundingBox();
  const keys = await pad.boundingBox();
  assert.ok(box.y + box.height <= keys.y, 'the keys do not lie over the field');
  assert.deepEqual((await layout(page)).filter((fault) => /pad|button/.test(fault)), []);
  await page.keyboard.press('Escape');
  assert.equal(await pad.count(), 0);
  assert.ok(await field.evaluate((e) => e === document.activeElement));
});

test('with a keyboard no number keys get in the way', async (t) => {
  const { page } = await measuring(t, 'rectangle');
  const field = page.locator('input[data-pad]').first();
  await field.focus();
  await page.keyboard.type('30');
  assert.equal(await field.inputValue(), '30');
  assert.equal(await page.locator('.pad').count(), 0);
});

test('a walk is recorded after a tap, and told from a refusal', async (t) => {
  const { page } = await measuring(t, 'walk', { location: LAWN });
  const fixes = page.locator('[data-walk-fixes]');
  const count = async () => (await fixes.inputValue()).split('\n').filter(Boolean).length;
  assert.equal(await count(), 0, 'nothing before the tap');
  await page.locator('[data-walk-start]').tap();
  await page.waitForFunction(() => document.querySelector('[data-walk-fixes]').value.trim());
  await page.context().setGeolocation({ ...LAWN, latitude: 40.0002 });
  await page.waitForFunction(() => document.querySelector('[data-walk-fixes]').value.trim().split('\n').length >= 2);
  await page.locator('[data-walk-stop]').tap();
  const [first] = (await fixes.inputValue()).split('\n');
  const { lat, lon, accuracy_m: accuracy, utc_ms: at } = JSON.parse(first);
  assert.deepEqual([lat, lon, accuracy], [LAWN.latitude, LAWN.longitude, LAWN.accuracy]);
  assert.ok(Number.isInteger(at));
  assert.match(await page.locator('[data-walk-state]').innerText(), /2 . ± 4 m/);
});

test('a walk that the device recorded by itself is offered, and taken with a tap', async (t) => {
  const { page, server } = await measuring(t, 'walk');
  assert.ok(await page.locator('[data-walk-recorded]').isHidden(), 'none was recorded');
  const answer = await page.request.get(`${server.origin}/walk`);
  assert.deepEqual(await answer.json(), { recording: false, fixes: [] });
  const lines = [0, 1, 2].map((n) => JSON.stringify({
    lat: LAWN.latitude + n / 10_000, lon: LAWN.longitude, accuracy_m: 4, utc_ms: 1_781_524_800_000 + n,
  }));
  await page.route('**/walk', (route) => route.fulfill({ json: { recording: false, fixes: lines } }));
  await page.reload();
  await page.locator('[data-walk-recorded]').tap();
  await page.waitForFunction(() => document.querySelector('[data-walk-fixes]').value.trim());
  assert.deepEqual((await page.locator('[data-walk-fixes]').inputValue()).trim().split('\n'), lines);
});

test('what could not be kept yet can be asked for by the program around the page', async (t) => {
  const { page } = await measuring(t, 'rectangle');
  assert.deepEqual(await page.evaluate(() => Sward.unkept()), []);
  await page.route('**/draft', (route) => route.abort());
  const field = page.locator('input[data-pad]').first();
  await field.focus();
  await page.keyboard.type('31');
  const name = await field.getAttribute('name');
  const [form] = await page.evaluate(() => Sward.unkept());
  assert.equal(new URLSearchParams(form).get(name), '31');
});

test('a refused location is said in words', async (t) => {
  const { page } = await measuring(t, 'walk');
  await page.locator('[data-walk-start]').tap();
  const words = await page.locator('#words [data-word="frame-location-refused"]').textContent();
  await page.waitForFunction((said) => document.querySelector('[data-walk-state]').textContent === said, words);
  assert.ok(await page.locator('[data-walk-start]').isVisible(), 'it can be tried again');
});

test('an outline is drawn to scale, mended, and taken back', async (t) => {
  const { page } = await measuring(t, 'drawn');
  const area = page.locator('[data-draw-area]');
  const corners = page.locator('[data-draw-corners]');
  const lines = async () => (await corners.inputValue()).split('\n').filter(Boolean).map((line) => line.split(',').map(Number));
  await area.scrollIntoViewIfNeeded();
  const box = await area.boundingBox();
  const cm = await area.evaluate((e) => e.viewBox.baseVal.width / e.getBoundingClientRect().width);
  for (const [x, y] of [[60, 60], [180, 60], [180, 160]]) await area.click({ position: { x, y } });
  const drawn = await lines();
  assert.equal(drawn.length, 3);
  const [a, b, c] = drawn;
  const near = (is, should) => assert.ok(Math.abs(is - should) <= 2 * cm, `${is} cm instead of ${should} cm`);
  near(b[0] - a[0], 120 * cm);
  near(b[1] - a[1], 0);
  near(b[1] - c[1], 100 * cm);

  // Dragging a corner moves it and adds none.
  await page.mouse.move(box.x + 180, box.y + 160);
  await page.mouse.down();
  await page.mouse.move(box.x + 220, box.y + 200, { steps: 4 });
  await page.mouse.up();
  const moved = await lines();
  assert.equal(moved.length, 3);
  assert.ok(moved[2][0] > c[0] && moved[2][1] < c[1], 'east and south');

  await page.locator('[data-draw-undo]').click();
  assert.equal((await lines()).length, 2);
  await corners.fill('0,0\n1000,0\n1000,-500\n');
  assert.equal(await area.locator('[data-draw-now] circle').count(), 3, 'what is typed is drawn');
});

test('the nearest yard comes first after a tap, by the places that people entered', async (t) => {
  const server = await startServer(t);
  const page = await newPage(t, await launch(t), server, { size: 'small', location: LAWN });
  await foundBook(page);
  const yard = async (name, place) => {
    await page.goto(`${server.origin}/yards/new`);
    await fill(page, { name });
    await page.locator('main form button.next').click();
    await page.waitForURL(/\/yards\/[0-9a-f-]{36}/);
    const [path] = /\/yards\/[0-9a-f-]{36}/.exec(page.url());
    await page.goto(`${server.origin}${path}/edit`);
    await place();
    await page.locator('main form button.next').click();
    await page.waitForURL(`**${path}`);
  };
  const position = page.locator('input[name="position"]');
  await yard('A far one', () => position.fill('41.2, -75.3'));
  await yard('B place not known', async () => {});
  await yard('C here', async () => {
    await page.locator('[data-here]').tap();
    await page.waitForFunction(() => document.querySelector('input[name="position"]').value);
    assert.equal(await position.inputValue(), '40.000100, -75.000100');
  });
  await page.goto(`${server.origin}/yards`);
  const names = () => page.locator('ul.list strong').allInnerTexts();
  assert.deepEqual(await names(), ['A far one', 'B place not known', 'C here']);
  await page.locator('[data-here-send]').tap();
  await page.waitForFunction(() => document.querySelector('ul.list strong').textContent === 'C here');
  assert.deepEqual(await names(), ['C here', 'A far one', 'B place not known']);
  assert.equal(new URL(page.url()).search, '', 'where a person stands is in no address');
});

test('a countdown never says that it is over by itself', async (t) => {
  const server = await startServer(t);
  const page = await newPage(t, await launch(t), server);
  await page.clock.install();
  await page.goto(server.origin);
  const left = page.locator('time .left');
  const asked = [];
  page.on('request', (request) => { if (new URL(request.url()).pathname === '/') asked.push(request.resourceType()); });
  await page.evaluate((ms) => {
    const time = document.createElement('time');
    time.dataset.until = String(Number(document.body.dataset.now) + ms);
    time.textContent = 'until then';
    document.querySelector('main').append(time);
    Sward.exchanged(document.querySelector('main'));
  }, 2 * HOUR_MS);
  assert.equal(await left.innerText(), '(2 hr 0 min)');
  await page.clock.runFor(HOUR_MS + 1000);
  assert.equal(await left.innerText(), '(1 hr 0 min)');
  await page.clock.runFor(HOUR_MS - 31_000);
  assert.equal(await left.innerText(), '(30 sec)');
  assert.deepEqual(asked, []);
  const again = page.waitForRequest(`${server.origin}/`);
  await page.clock.runFor(31_000);
  assert.equal((await again).resourceType(), 'fetch');
  assert.doesNotMatch(await page.locator('main').innerText(), /over|ended/i);
});
