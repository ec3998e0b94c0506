// What a screen must look like wherever it is shown: nothing outside the window, targets for wet
// hands, text for the sun, nothing that shuts anyone out, and light enough for an old phone.

import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';

const axeSource = readFile(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

export const TARGET_PX = 64;
export const GAP_PX = 8;
export const TEXT_PX = 18;
export const NUMBER_PX = 32;
export const PAGE_BYTES_MOST = 60 * 1024;

// Everything wrong with how the page is laid out, in words.
export function layout(page) {
  return page.evaluate(({ TARGET_PX, GAP_PX, TEXT_PX, NUMBER_PX }) => {
    const wrong = [];
    const call = (e) => {
      const words = (e.innerText || e.value || e.name || '').trim().replace(/\s+/g, ' ').slice(0, 30);
      return `<${e.localName}${e.className && typeof e.className === 'string' ? ` class="${e.className}"` : ''}> "${words}"`;
    };
    const seen = (e) => e.checkVisibility({ visibilityProperty: true }) && !e.closest('.skip');
    const all = [...document.body.querySelectorAll('*')].filter(seen);

    const root = document.documentElement;
    if (root.scrollWidth > innerWidth) {
      const outside = all.filter((e) => e.getBoundingClientRect().right > innerWidth + 1 && !e.closest('table'));
      wrong.push(`wider than the window by ${root.scrollWidth - innerWidth} px: ${outside.slice(-3).map(call).join('; ')}`);
    }

    // What a finger can tap; a box to tick is as large as its label.
    const acts = 'a[href], button, select, textarea, summary, input:not([type="hidden"])';
    const targets = [...new Set(all.filter((e) => e.matches(acts)).map((e) => e.closest('label.choice') ?? e))]
      .map((e) => ({ e, box: e.getBoundingClientRect(), fixed: e.closest('.foot, .fresh, .pad') }));
    for (const { e, box } of targets) {
      if (box.height < TARGET_PX - 0.5 || box.width < TARGET_PX - 0.5) {
        wrong.push(`${call(e)} is ${box.width.toFixed(0)}x${box.height.toFixed(0)} px`);
      }
    }
    targets.forEach((a, i) => targets.slice(i + 1).forEach((b) => {
      if (a.fixed !== b.fixed || a.e.contains(b.e) || b.e.contains(a.e)) return;
      const x = Math.max(a.box.left - b.box.right, b.box.left - a.box.right);
      const y = Math.max(a.box.top - b.box.bottom, b.box.top - a.box.bottom);
      if (Math.max(x, y) < GAP_PX - 0.5) {
        wrong.push(`${call(a.e)} and ${call(b.e)} are ${Math.max(x, y).toFixed(1)} px apart`);
      }
    }));

    for (const e of all) {
      const style = getComputedStyle(e);
      const own = [...e.childNodes].some((n) => n.nodeType === Node.TEXT_NODE && n.data.trim());
      const px = parseFloat(style.fontSize);
      const inDrawing = e.closest('svg');
      if (own && !inDrawing && px < TEXT_PX) wrong.push(`${call(e)} is set in ${px} px`);
      if (e.matches('.number input:not([type="hidden"]), .big') && px < NUMBER_PX) {
        wrong.push(`the number ${call(e)} is set in ${px} px`);
      }
      const scrolls = ['auto', 'scroll'].includes(style.overflowX) || e.matches('input, textarea, select');
      if (!inDrawing && !scrolls && own && style.display !== 'inline' && e.scrollWidth > e.clientWidth + 1) {
        wrong.push(`${call(e)} is cut off or sticks out by ${e.scrollWidth - e.clientWidth} px`);
      }
    }

    // Edges that tell what can be tapped.
    const channel = (c) => (c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4);
    const luminance = (css) => {
      const [r, g, b] = css.match(/[\d.]+/g).map(Number);
      return 0.2126 * channel(r / 255) + 0.7152 * channel(g / 255) + 0.0722 * channel(b / 255);
    };
    const paper = luminance(getComputedStyle(document.body).backgroundColor);
    for (const { e } of targets.filter(({ e }) => e.matches('input, select, textarea, .choice, .way, button'))) {
      const edge = luminance(getComputedStyle(e).borderTopColor);
      const ratio = (Math.max(edge, paper) + 0.05) / (Math.min(edge, paper) + 0.05);
      if (ratio < 3) wrong.push(`the edge of ${call(e)} has a contrast of ${ratio.toFixed(1)}:1`);
    }
    return [...new Set(wrong)];
  }, { TARGET_PX, GAP_PX, TEXT_PX, NUMBER_PX });
}

// What axe finds, all of its rules and a contrast of 7:1; `rules` limits it to these.
export async function access(page, rules) {
  if (!(await page.evaluate(() => 'axe' in window))) await page.evaluate(await axeSource);
  return page.evaluate(async (only) => {
    const options = {
      resultTypes: ['violations'],
      rules: { 'color-contrast-enhanced': { enabled: true }, 'target-size': { enabled: true } },
    };
    if (only) options.runOnly = { type: 'rule', values: only };
    const found = await window.axe.run(document, options);
    return found.violations.flatMap((v) => v.nodes.map((n) =>
      `${v.id} (${v.impact}): ${n.target.join(' ')} ${n.html.slice(0, 120)} ${n.any[0]?.message ?? ''}`));
  }, rules);
}

// The bytes of a page with its style and script, its drawings left out.
export async function weight(page) {
  const parts = await page.evaluate(async (at) => {
    const text = async (url) => (await fetch(url)).text();
    const page = await text(at);
    return [page.replace(/<svg.*?<\/svg>/gs, ''), await text('/app.css'), await text('/app.js')];
  }, page.url());
  return parts.reduce((sum, part) => sum + Buffer.byteLength(part), 0);
}
