// What tests of the screens are built of.
//
//   import { test } from 'node:test';
//   import { launch, newPage, startServer } from './support/index.js';
//
//   test('a visit', async (t) => {
//     const server = await startServer(t);           // the program on an empty folder of its own
//     const browser = await launch(t);               // Chromium; { fontPercent: 200 } for large text
//     const page = await newPage(t, browser, server, { size: 'small', lang: 'es' });
//     await foundBook(page);                         // a crew of one, through the first screens
//     await server.advance(4 * HOUR_MS);             // the clock stands still until it is moved
//   });
//
// Everything made with `t` is gone when the test ends. A page fails its test by itself on a request
// to anywhere else, an error on the console, a breach of the policy, an answer of 500 and up, and a
// missing word. `server.kill()` and `server.start()` are a program that was killed and begun anew;
// the page's way in has to be taken again then (`enterAt`). Waiting is for something one can see
// (`page.waitForSelector`, `expect…`), never for a time.

export { startServer } from './server.js';
export { LANGUAGES, SIZES, enterAt, launch, newPage, setLight, shot } from './browser.js';
export { access, layout, weight, PAGE_BYTES_MOST } from './looks.js';
export { crawl, pattern } from './crawl.js';
export { HOUR_MS, fill, foundBook, typeAndKeep } from './steps.js';
