// Every form that a person can reach, sent with nothing and with what no one should type: the answer
// is never a broken page, what is wrong is said, and what was typed is still there.

import assert from 'node:assert/strict';
import { test } from 'node:test';

import { crawl, foundBook, launch, newPage, pattern, startServer } from './support/index.js';
import { PLANS, addLabel, addYard, openVisit, readSky, start, toStep, walkRound } from './support/visit.js';
import { act } from './support/acts.js';

const HOSTILE = {
  nothing: '',
  script: '<script>alert(1)</script>"\'&',
  'ten thousand letters': 'x'.repeat(10_000),
  'control characters': 'a\u0000b\u0007c\u202ed\u001b[31m',
  negative: '-1',
  infinite: '1e999',
  'not a number': 'NaN',
  comma: '2,5',
  huge: '99999999999999999999999999',
  path: '../../etc/passwd',
};

// Nothing is typed in these, and they answer with a file or another book.
const LEFT_ALONE = new Set(['season', 'leave-season', 'make', 'request', 'back-up']);
// Would end what the other forms are sent with.
const ONLY_EMPTY = new Set(['retire']);

// The forms of a screen: where they go and what is in them.
function formsOf(page) {
  return page.$$eval('main form', (forms) => forms.map((form) => ({
    path: new URL(form.action).pathname,
    files: form.enctype === 'multipart/form-data',
    fields: [...form.elements].filter((e) => e.name && e.type !== 'submit' && e.type !== 'file').map((e) => ({
      name: e.name, value: e.value, type: e.localName === 'select' ? 'select' : e.type,
    })),
  })));
}

const FIXED = ['do', 'key', 'once'];

function bodyOf(fields, hostile) {
  const body = {};
  for (const { name, value, type } of fields) {
    const kept = FIXED.includes(name) || name.endsWith('.was') || (type === 'hidden' && name.endsWith('.unit'));
    body[name] = kept ? value : hostile;
  }
  // Each is a sending of its own: the same again would be answered as a second tap.
  body.once = crypto.randomUUID();
  return body;
}

async function send(page, origin, { path, files, fields }, hostile) {
  const body = bodyOf(fields, hostile);
  const options = { headers: { origin }, maxRedirects: 0, failOnStatusCode: false };
  const answer = await page.request.post(origin + path, files ? { ...options, multipart: body } : { ...options, form: body });
  return { status: answer.status(), text: await answer.text() };
}

function faultsOf({ status, text }, name, fields, hostile) {
  // A form may take it: an empty note, a name of ten thousand letters' beginning, a number in words.
  if (status === 303) return [];
  if (status !== 422) return [`answers ${status}`];
  const faults = [];
  if (!/id="wrong"/.test(text)) faults.push('does not say what is wrong');
  if (text.includes('<script>alert')) faults.push('puts what was typed into the page as it is');
  if (text.includes('\u27e6')) faults.push(`lacks a word: ${text.slice(text.indexOf('\u27e6'), text.indexOf('\u27e6') + 40)}`);
  const typed = fields.some(({ name: field, type }) => !FIXED.includes(field) && ['text', 'textarea'].includes(type));
  if (typed && name === 'comma' && !text.includes('2,5')) faults.push('forgets what was typed');
  return faults;
}

test('no form breaks, whatever is typed', async (t) => {
  const server = await startServer(t);
  const page = await newPage(t, await launch(t), server, { size: 'small' });
  await page.goto(`${server.origin}/start`);
  const wrong = [];
  let sent = 0;
  const seen = new Set();
  const tryAll = async (path) => {
    await page.goto(server.origin + path);
    for (const one of await formsOf(page)) {
      const action = one.fields.find(({ name }) => name === 'do')?.value;
      const called = `${pattern(one.path)} ${action}: ${one.fields.map(({ name }) => name).join(' ')}`.replace(/[0-9a-f-]{36}/g, '{id}');
      if (!action || LEFT_ALONE.has(action) || seen.has(called)) continue;
      seen.add(called);
      for (const [name, hostile] of Object.entries(HOSTILE)) {
        if (ONLY_EMPTY.has(action) && name !== 'nothing') continue;
        const answer = await send(page, server.origin, one, hostile);
        sent += 1;
        const faults = faultsOf(answer, name, one.fields, hostile);
        wrong.push(...faults.map((fault) => `${pattern(one.path)} ${action}, ${name}: ${fault}`));
      }
    }
  };

  // Before there is a book; what founds one takes any name, so it is sent with nothing alone.
  for (const path of ['/start', '/join']) {
    await page.goto(server.origin + path);
    for (const one of await formsOf(page)) {
      const answer = await send(page, server.origin, one, '');
      wrong.push(...faultsOf(answer, 'nothing', one.fields, '').map((fault) => `${path}: ${fault}`));
      assert.equal(answer.status, 422, path);
    }
  }

  await foundBook(page);
  await addLabel(page, 'foliar_spray');
  const visit = await openVisit(page, await addYard(page));
  await toStep(page, visit, 'plan');
  await act(page, 'keep', PLANS.foliar_spray);
  await toStep(page, visit, 'ready/walk');
  await walkRound(page);
  await readSky(page);
  await start(page);
  const { screens } = await crawl(page);
  for (const [, [path]] of screens) await tryAll(path);
  assert.ok(seen.size >= 20, `only ${seen.size} forms were found`);
  t.diagnostic(`${seen.size} forms, ${sent} sendings`);
  assert.deepEqual([...new Set(wrong)], []);
});
