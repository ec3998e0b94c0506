// Two phones: files that go from one to the other, and a crew of two.

import { readFile } from 'node:fs/promises';

import { foundBook } from './steps.js';
import { act, form } from './acts.js';

// Sends a form that answers with a file; gives the file for another form.
export async function fileOf(page, name) {
  const got = page.waitForEvent('download');
  await form(page, name).locator('button[type="submit"]').last().click();
  const download = await got;
  return { name: download.suggestedFilename(), mimeType: 'application/octet-stream', buffer: await readFile(await download.path()) };
}

// Long work: waits until it tells how it ended.
export async function takeIn(page, origin, file) {
  await page.goto(`${origin}/crew/swap`);
  await act(page, 'take', { file });
  await page.waitForSelector('main .result');
}

export async function lockedFile(page, origin) {
  await page.goto(`${origin}/crew/swap`);
  return fileOf(page, 'make');
}

// Founds a crew on the first page and lets the second join it. Both are in step afterwards.
export async function crewOfTwo([lead, leads], [mate, mates]) {
  await foundBook(lead, 'Cuadrilla', 'Ana Pérez');
  await mate.goto(`${mates.origin}/join`);
  await act(mate, 'ask', { name: 'Beto Ruiz' });
  const request = await fileOf(mate, 'request');
  await lead.goto(`${leads.origin}/crew/admit`);
  await act(lead, 'read', { request });
  await act(lead, 'admit', { role: 'applicator', same: true });
  await takeIn(mate, mates.origin, await lockedFile(lead, leads.origin));
}
