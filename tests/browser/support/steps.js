// What several tests do on the screens, as a person would. Nothing here depends on a language:
// fields are found by their names, buttons by what they do.

export const HOUR_MS = 3_600_000;

// Fills fields by their names.
export async function fill(page, fields) {
  for (const [name, value] of Object.entries(fields)) {
    const field = page.locator(`main [name="${name}"]`).first();
    const kind = await field.getAttribute('type');
    if (kind === 'radio' || kind === 'checkbox') {
      await page.locator(`main [name="${name}"][value="${value}"]`).check();
    } else {
      await field.fill(value);
    }
  }
}

// Founds a crew of one and goes to today; gives the recovery code that was shown.
export async function foundBook(page, crew = 'Prueba', name = 'Ana Pérez') {
  await page.goto(new URL('/start', page.url()).href);
  await fill(page, { crew, name });
  await page.locator('main form button.next').click();
  const code = (await page.locator('.code').innerText()).trim();
  await page.locator('main a.next').click();
  await page.waitForURL('**/');
  return code;
}

// Types into a field and waits until the program has kept the draft.
export async function typeAndKeep(page, name, value) {
  const kept = page.waitForResponse((r) => r.url().endsWith('/draft') && r.ok());
  await page.locator(`main [name="${name}"]`).first().fill(value);
  await kept;
}
