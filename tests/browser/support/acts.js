// Forms, found by what they do and filled by their fields' names: nothing here depends on a language.

// The form for an action; `key` tells several for the same action apart.
export function form(page, name, key) {
  const which = key === undefined ? '' : `:has([name="key"][value="${key}"])`;
  return page.locator(`main form:has([name="do"][value="${name}"])${which}`).first();
}

// Fills the fields of a form. Values: text, `true` for a box to tick, a list for several boxes.
// `tapped`, if given, is told of each tap that a person would need.
export async function fillForm(one, fields, tapped = () => {}) {
  // What is folded is unfolded with a tap.
  const unfold = async (at) => {
    const folds = at.locator('xpath=ancestor::details[not(@open)]');
    while (await folds.count()) {
      await folds.first().locator(':scope > summary').click();
      tapped();
    }
  };
  for (const [field, value] of Object.entries(fields)) {
    const all = one.locator(`[name="${field}"]`);
    const kind = await all.first().evaluate((e) => (e.localName === 'select' ? 'select' : e.type));
    await unfold(all.first());
    if (kind === 'radio' || kind === 'checkbox') {
      for (const each of [value].flat()) {
        await one.locator(`[name="${field}"]${each === true ? '' : `[value="${each}"]`}`).first().check();
        tapped();
      }
    } else {
      if (kind === 'select') await all.first().selectOption(value);
      else if (kind === 'file') await all.first().setInputFiles(value);
      else await all.first().fill(value);
      tapped();
    }
  }
}

// Fills and sends the form for an action, and waits until the next screen is there. Fails when the
// same screen comes again with what is wrong.
export async function act(page, name, fields = {}, { key, tapped = () => {} } = {}) {
  const one = form(page, name, key);
  const button = one.locator('button[type="submit"]:not([name])').last();
  const folds = one.locator('xpath=ancestor::details[not(@open)]');
  while (await folds.count()) {
    await folds.first().locator(':scope > summary').click();
    tapped();
  }
  await fillForm(one, fields, tapped);
  const then = page.waitForNavigation();
  await button.click();
  tapped();
  await then;
  const wrong = page.locator('#wrong');
  if (await wrong.count()) {
    const faults = await page.locator('.field.bad').allInnerTexts();
    throw new Error(`${name} was refused: ${await wrong.innerText()} ${faults.join(' | ')}`);
  }
}

// Shows everything in a language from now on, as a person chooses it.
export async function setLanguage(page, language) {
  const { origin } = new URL(page.url());
  const answer = await page.request.post(`${origin}/language`, {
    data: new URLSearchParams({ language, then: '/' }).toString(),
    headers: { 'content-type': 'application/x-www-form-urlencoded', origin },
  });
  if (!answer.ok()) throw new Error(`the language could not be set: ${answer.status()}`);
  page.called.lang = language;
}
