// Pages in Debian's Chromium that watch themselves: whatever goes outside, breaks the policy,
// is said on the console as an error, or is a missing word, fails the test when the page closes.

import assert from 'node:assert/strict';
import { existsSync } from 'node:fs';
import { mkdir } from 'node:fs/promises';
import { join } from 'node:path';

import { chromium } from 'playwright-core';

import { atEnd } from './end.js';
import { shots } from './folders.js';

const USUAL_PATHS = ['/usr/bin/chromium', '/usr/bin/chromium-browser', '/usr/lib/chromium/chromium', '/snap/bin/chromium'];

export const SIZES = {
  small: { width: 360, height: 740 },
  phone: { width: 412, height: 915 },
  wide: { width: 1280, height: 800 },
};
export const LANGUAGES = { en: 'en-US', es: 'es-US' };

function browserPath() {
  const path = process.env.CHROMIUM ?? USUAL_PATHS.find(existsSync);
  if (!path) throw new Error('Chromium is missing: install it, or name it in CHROMIUM');
  return path;
}

// One Chromium for a test file. `fontPercent` is the browser's own font size, as a person sets it.
export async function launch(t, { fontPercent = 100 } = {}) {
  const browser = await chromium.launch({
    executablePath: browserPath(),
    chromiumSandbox: process.getuid?.() !== 0,
    args: [
      `--blink-settings=defaultFontSize=${(16 * fontPercent) / 100}`,
      '--host-resolver-rules=MAP * ~NOTFOUND, EXCLUDE 127.0.0.1, EXCLUDE localhost',
      '--disable-background-networking',
      '--disable-component-update',
      '--no-first-run',
    ],
  });
  atEnd(t, () => browser.close());
  return browser;
}

// Failing to load what a test made fail on purpose is no fault of the page.
const ANSWERED_WITH_A_REFUSAL = /the server responded with a status of (400|403|404|413|422)\b/;
const GONE = /net::ERR_(CONNECTION|EMPTY_RESPONSE|INCOMPLETE_CHUNKED|NETWORK)/;

function watch(context, origin, faults, options) {
  const reading = [];
  context.on('request', (request) => {
    const url = new URL(request.url());
    if (url.origin !== origin && !['data:', 'blob:', 'about:'].includes(url.protocol)) {
      faults.push(`a request to ${url.origin}`);
    }
  });
  context.on('response', (response) => {
    if (response.status() >= 500) faults.push(`${response.status()} from ${response.url()}`);
    const html = (response.headers()['content-type'] ?? '').startsWith('text/html');
    if (!html || (response.status() >= 300 && response.status() < 400)) return;
    reading.push(response.text().then(
      (text) => {
        const at = text.indexOf('\u27e6');
        if (at >= 0) faults.push(`a missing word in ${new URL(response.url()).pathname}: ${text.slice(at, at + 60)}`);
      },
      // A page that was left before it was read: the next one is looked at.
      () => {},
    ));
  });
  context.on('console', (message) => {
    if (message.type() !== 'error') return;
    const text = message.text();
    const mayBe = ANSWERED_WITH_A_REFUSAL.test(text) || (options.mayBeGone && GONE.test(text));
    if (!mayBe) faults.push(`on the console: ${text}`);
  });
  context.on('weberror', (error) => faults.push(`a script broke: ${error.error().stack}`));
  return () => Promise.all(reading);
}

// A page that has been let in, gone and judged with the test `t`. Options:
//   size        'small' (360x740), 'phone' (412x915), 'wide' (1280x800), or { width, height }
//   lang        'en' or 'es', as the browser asks for it
//   light       'day', 'night', or 'device-dark' for a device that is set dark
//   script      false: without JavaScript
//   enter       false: without having been let in
//   at          the address to begin with
//   location    { latitude, longitude, accuracy }, allowed; 'refused' by default
//   mayBeGone   true: the program may be killed meanwhile
export async function newPage(t, browser, server, options = {}) {
  const { size = 'phone', lang = 'en', light = 'day', script = true, enter = true, at = '/', location } = options;
  const context = await browser.newContext({
    viewport: SIZES[size] ?? size,
    locale: LANGUAGES[lang],
    colorScheme: light === 'device-dark' ? 'dark' : 'light',
    javaScriptEnabled: script,
    hasTouch: size !== 'wide',
    acceptDownloads: true,
    permissions: location ? ['geolocation'] : [],
    geolocation: location,
  });
  const faults = [];
  const read = watch(context, server.origin, faults, options);
  atEnd(t, async () => {
    await read();
    await context.close();
    assert.deepEqual(faults, [], 'what the page did that it must not');
  });
  const page = await context.newPage();
  page.faults = faults;
  page.called = { lang, size: typeof size === 'string' ? size : `${size.width}`, light };
  if (enter) {
    await enterAt(page, server, at);
    await setLight(page, light);
  }
  return page;
}

// Takes the way in, as a person does, and then goes where the test begins.
export async function enterAt(page, server, at = '/') {
  await page.goto(server.entrance);
  await page.waitForURL(`${server.origin}/`);
  if (at !== '/') await page.goto(server.origin + at);
}

// Sets the light as the settings would.
export function setLight(page, light) {
  page.called.light = light;
  const code = light === 'device-dark' ? 'device' : light;
  return page.evaluate((to) => { document.documentElement.dataset.light = to; }, code);
}

// A picture in target/screens.
export async function shot(page, name, more = '') {
  await mkdir(shots, { recursive: true });
  const { lang, size, light } = page.called;
  const path = join(shots, `${name}-${lang}-${size}${more}-${light}.png`);
  // As high as its content, so that the foot, which stays in sight, stands below all of it.
  const { width, height } = page.viewportSize();
  const high = await page.evaluate(() => document.documentElement.scrollHeight);
  await page.setViewportSize({ width, height: Math.max(height, high) });
  await page.screenshot({ path, animations: 'disabled' });
  await page.setViewportSize({ width, height });
}
