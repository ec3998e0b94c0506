// Who may ask at all, and what every answer carries.

import assert from 'node:assert/strict';
import http from 'node:http';
import { after, before, describe, test } from 'node:test';

import { launch, newPage, startServer } from './support/index.js';

const TOO_LARGE = 65 * 1024 * 1024;

describe('the door', () => {
  let server;
  let cookie;
  const ends = [];

  before(async () => {
    server = await startServer({ after: (end) => ends.push(end) });
    const entered = await ask(server.entrance.slice(server.origin.length));
    cookie = entered.headers['set-cookie'][0].split(';')[0];
  });
  after(() => Promise.all(ends.map((end) => end())));

  function ask(path, { method = 'GET', headers = {}, body } = {}) {
    return new Promise((resolve, reject) => {
      const request = http.request({ host: '127.0.0.1', port: server.port, path, method, headers, agent: false }, (answer) => {
        let text = '';
        answer.setEncoding('utf8').on('data', (part) => { text += part; }).on('end', () => resolve({ status: answer.statusCode, headers: answer.headers, text }));
      });
      request.on('error', reject);
      request.end(body);
    });
  }
  const ours = (more) => ({ cookie, origin: server.origin, ...more });
  const form = (more) => ours({ 'content-type': 'application/x-www-form-urlencoded', ...more });

  test('nobody comes in without the token', async () => {
    for (const path of ['/', '/start', '/live', '/nothing', '/visit/1']) {
      assert.equal((await ask(path)).status, 403, path);
    }
    assert.equal((await ask('/', { headers: { cookie: `${cookie.split('=')[0]}=0000` } })).status, 403);
    assert.equal((await ask('/enter?token=0000')).status, 403);
    assert.equal((await ask('/enter')).status, 403);
    assert.equal((await ask('/', { headers: { cookie } })).status, 200);
  });

  test('what is open to anyone holds nothing of anyone', async () => {
    for (const path of ['/app.css', '/app.js', '/icon.svg']) {
      assert.equal((await ask(path)).status, 200, path);
    }
  });

  test('the token for once lets in once', async () => {
    const path = server.entranceOnce.slice(server.origin.length);
    assert.equal((await ask(path)).status, 200);
    assert.equal((await ask(path)).status, 403);
  });

  test('another host is another program', async () => {
    for (const host of ['example.com', `example.com:${server.port}`, '127.0.0.1', '127.0.0.1:1', `127.0.0.1.example.com:${server.port}`]) {
      assert.equal((await ask('/', { headers: { cookie, host } })).status, 403, host);
    }
    assert.equal((await ask('/', { headers: { cookie, host: `localhost:${server.port}` } })).status, 200);
  });

  test('nothing is changed from a page that is not ours', async () => {
    const body = 'language=es&then=/';
    for (const origin of ['http://example.com', 'null', 'https://127.0.0.1', `http://127.0.0.1:${server.port + 1}`]) {
      const headers = form({ origin });
      assert.equal((await ask('/language', { method: 'POST', headers, body })).status, 403, origin);
    }
    const { origin: _, ...none } = form();
    assert.equal((await ask('/language', { method: 'POST', headers: none, body })).status, 403, 'no origin');
    assert.equal((await ask('/', { headers: ours({ origin: 'http://example.com' }) })).status, 403, 'asked for from elsewhere');
  });

  test('a redirect after a form stays here', async () => {
    for (const then of ['//example.com', 'http://example.com', '/\\example.com', '']) {
      const body = new URLSearchParams({ language: 'en', then }).toString();
      const answer = await ask('/language', { method: 'POST', headers: form(), body });
      assert.equal(answer.status, 303, then);
      assert.equal(answer.headers.location, '/', then);
    }
  });

  test('what is too large or no form is refused in words', async () => {
    const mark = 'parted-here';
    const part = `--${mark}\r\ncontent-disposition: form-data; name="crew"\r\n\r\n${'x'.repeat(TOO_LARGE)}\r\n--${mark}--\r\n`;
    const large = await ask('/start', { method: 'POST', headers: ours({ 'content-type': `multipart/form-data; boundary=${mark}` }), body: part });
    assert.equal(large.status, 413);
    const longer = await ask('/start', { method: 'POST', headers: form(), body: `do=found&crew=${'x'.repeat(3 * 1024 * 1024)}` });
    assert.equal(longer.status, 413);
    const other = await ask('/start', { method: 'POST', headers: ours({ 'content-type': 'application/json' }), body: '{}' });
    assert.equal(other.status, 400);
    const unknown = await ask('/start', { method: 'POST', headers: form(), body: 'do=no-such-act' });
    assert.equal(unknown.status, 400);
    for (const answer of [longer, other, unknown]) assert.match(answer.text, /<main/);
  });

  test('the cookie is for this browser and this port alone', async () => {
    const answer = await ask(server.entrance.slice(server.origin.length));
    const [set] = answer.headers['set-cookie'];
    assert.match(set, new RegExp(`^swardbook-${server.port}=[0-9a-f]{64}; HttpOnly; SameSite=Strict; Path=/$`));
    assert.doesNotMatch(answer.text, /token/);
  });

  test('every answer forbids what is not ours', async () => {
    const answers = [
      await ask('/'), await ask('/', { headers: { cookie } }), await ask('/app.js'),
      await ask('/nothing', { headers: { cookie } }), await ask(server.entrance.slice(server.origin.length)),
    ];
    for (const { headers } of answers) {
      const policy = headers['content-security-policy'];
      assert.match(policy, /default-src 'none'/);
      assert.doesNotMatch(policy, /unsafe-inline|unsafe-eval|\*|https?:/);
      assert.match(policy, /frame-ancestors 'none'/);
      assert.equal(headers['x-content-type-options'], 'nosniff');
      assert.equal(headers['x-frame-options'], 'DENY');
      assert.match(headers['referrer-policy'], /^(same-origin|no-referrer)$/);
      assert.match(headers['cache-control'], /no-store|no-cache/);
      assert.equal(headers['access-control-allow-origin'], undefined);
    }
  });

  test('no page has style or script within it', async () => {
    for (const path of ['/', '/start', '/join', '/nothing']) {
      const { text } = await ask(path, { headers: { cookie } });
      assert.doesNotMatch(text, /<style|\sstyle=|\son[a-z]+=|javascript:|<script(?![^>]*\ssrc="\/)/i, path);
    }
  });

  test('a browser that was let in sees the screens, and the token is gone from the address', async (t) => {
    const page = await newPage(t, await launch(t), server, { enter: false });
    await page.goto(`${server.origin}/`);
    assert.equal(await page.locator('main .next').count(), 0);
    await page.goto(server.entrance);
    await page.waitForURL(`${server.origin}/`);
    assert.equal(await page.locator('main .next').count(), 1);
    assert.equal(await page.evaluate(() => document.cookie), '', 'no script reads the cookie');
  });
});
