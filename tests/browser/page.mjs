// Uses the page as a person would, in Debian's Chromium: at the size of a phone and of a desk.
//
//   node page.mjs PAGE.html [FOLDER]      pictures of every step go to FOLDER
//
// Fails on a console error, a request to anybody, a fault that axe-core calls serious, a step that does
// not do what its name says, or a page of 2 MB. Times are printed; only a drag has a limit of its own.
import { mkdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { createRequire } from 'node:module';
import { pathToFileURL } from 'node:url';
import { chromium } from 'playwright-core';

const file = path.resolve(process.argv[2]);
const folder = path.resolve(process.argv[3] ?? path.join(tmpdir(), 'page-pictures'));
const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const own = `standtrue: 1
title: Window bench    # mine
size: 1700 x 620 x 880 mm
timber: C24 45 x 95 mm
joints: two corner brackets
top: 18 mm spruce plywood
machines:
  - {kind: bench grinder, at: [300 mm, 200 mm], mounting: bolted}
`;
const hostile = own.replace('Window bench', '"<img src=x onerror=alert(1)><script>alert(2)</script>"');
const patience = 240_000;
const faults = [];
mkdirSync(folder, { recursive: true });

class Person {
  constructor(page, name) {
    this.page = page;
    this.name = name;
    this.steps = 0;
  }
  tell(what) {
    faults.push(`${this.name}: ${what}`);
  }
  label(text) {
    return this.page.locator(`[aria-label^="${text}"]`).first();
  }
  async quiet() {
    await this.page.waitForSelector('.title-block:not(.busy)', { timeout: patience });
  }
  text() {
    return this.page.evaluate(() => localStorage.getItem('standtrue.bench'));
  }
  async picture(step) {
    await this.page.screenshot({
      path: path.join(folder, `${this.name}-${String(++this.steps).padStart(2, '0')}-${step}.png`),
    });
  }
  async has(what, wanted) {
    const text = await this.text();
    if (!text.includes(wanted)) this.tell(`after "${what}" the file has no "${wanted}":\n${text}`);
  }
  async sees(selector, wanted) {
    const text = await this.page.locator(selector).first().innerText({ timeout: patience });
    if (!text.includes(wanted)) this.tell(`${selector} says "${text}", not "${wanted}"`);
  }
  async step(name, act) {
    try {
      await act();
    } catch (e) {
      this.tell(`${name}: ${e.message.split('\n')[0]}`);
    }
    await this.picture(name);
  }
  async reached(step) {
    const { violations } = await this.page.evaluate(`${axe};axe.run(document, {resultTypes: ['violations']})`);
    for (const v of violations.filter((x) => ['serious', 'critical'].includes(x.impact)))
      this.tell(`${step}, axe: ${v.id}, ${v.nodes[0].html.slice(0, 160)}`);
  }
}

async function opened(browser, url, size, name, scheme, before = undefined) {
  const page = await browser.newPage({
    viewport: size,
    colorScheme: scheme,
    hasTouch: size.width < 500,
    acceptDownloads: true,
    reducedMotion: 'reduce',
  });
  const person = new Person(page, name);
  page.on('console', (m) => ['error', 'warning'].includes(m.type()) && person.tell(`console: ${m.text()}`));
  page.on('pageerror', (e) => person.tell(`error: ${e.message}`));
  page.on('dialog', (d) => {
    person.tell(`a dialog: ${d.message()}`);
    d.dismiss();
  });
  page.on('request', (r) => /^(file|blob|data|about):/.test(r.url()) || person.tell(`asks for ${r.url()}`));
  if (before) await page.addInitScript(before);
  const begun = Date.now();
  await page.goto(url);
  await page.waitForSelector('.drawing', { timeout: patience });
  await person.quiet();
  console.log(`${name}: first answer after ${Date.now() - begun} ms`);
  return person;
}

/** From a movement of the pointer to the next paint, while a machine is dragged; ms, sorted. */
async function drag(person, label, by) {
  const { page } = person;
  const box = await page.locator(`.machine.standing[aria-label^="${label}"]`).boundingBox();
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  await page.evaluate(() => {
    window.paints = [];
    window.listen = () => {
      const begun = performance.now();
      requestAnimationFrame(() => setTimeout(() => window.paints.push(performance.now() - begun), 0));
    };
    document.addEventListener('pointermove', window.listen, true);
  });
  await page.mouse.move(x, y);
  await page.mouse.down();
  for (let i = 1; i <= 60; ++i) await page.mouse.move(x + (by * i) / 60, y + Math.sin(i / 5));
  await person.picture('dragging');
  await page.mouse.up();
  return page.evaluate(() => {
    document.removeEventListener('pointermove', window.listen, true);
    return window.paints.sort((a, b) => a - b);
  });
}

async function lives(person, big) {
  const { page } = person;
  const type = async (label, text) => {
    await person.label(label).click();
    await page.locator('.slip input').first().fill(text);
    await page.keyboard.press('Enter');
  };
  await person.step('example', () => person.reached('example'));
  await person.step('opened', async () => {
    const chooser = page.waitForEvent('filechooser');
    await page.locator('.tool', { hasText: /^open$/ }).click();
    await (await chooser).setFiles({ name: 'window.yaml', mimeType: 'text/yaml', buffer: Buffer.from(own) });
    await page.waitForFunction(() => document.querySelector('h1')?.textContent === 'Window bench', undefined, {
      timeout: patience,
    });
    await person.quiet();
  });
  await person.step('inches', async () => {
    await type('length', '71 in');
    await person.has('inches', 'size: 71 in x 620 mm x 880 mm');
    await person.has('inches', '# mine');
    await person.quiet();
  });
  await person.step('drill-press', async () => {
    await page.locator('.add').first().click();
    await page.locator('.slip .strong').click();
    await person.has('a machine put on', '{kind: drill press, at: middle}');
    await person.quiet();
    await page.waitForSelector('.machine.standing[aria-label^="drill press"]', { timeout: patience });
  });
  await person.step('dragged', async () => {
    const paints = await drag(person, 'drill press', big ? 120 : 50);
    const at95 = paints[Math.floor(paints.length * 0.95)];
    console.log(
      `${person.name}: dragging, pointer to paint ${at95.toFixed(0)} ms at the 95th percentile of ${paints.length}`,
    );
    if (at95 > 100) person.tell(`dragging takes ${at95} ms`);
    const text = await person.text();
    if (/drill press, at: middle/.test(text) || !/kind: drill press, at: \[/.test(text))
      person.tell(`the drill press was not moved:\n${text}`);
    await person.quiet();
  });
  await person.step('keys', async () => {
    const before = await person.text();
    await page.locator('.machine.standing[aria-label^="bench grinder"]').focus();
    await page.keyboard.press('ArrowRight');
    await page.waitForFunction((b) => localStorage.getItem('standtrue.bench') !== b, before, { timeout: 5000 });
    await person.quiet();
  });
  await person.step('broken', async () => {
    await type('depth', 'wide');
    await page.waitForSelector('.wrong', { timeout: patience });
    await person.sees('.wrong', 'three lengths');
    await person.reached('broken');
  });
  await person.step('mended', async () => {
    await page.locator('.tool', { hasText: /^undo$/ }).click();
    await page.waitForSelector('.wrong', { state: 'detached', timeout: patience });
    await person.has('undo', '620 mm');
    await person.quiet();
  });
  await person.step('top', async () => {
    await person.label('top:').click({ position: { x: 60, y: 1 } });
    await page.locator('.slip select').first().selectOption('21 mm spruce plywood');
    await person.has('a thicker top', 'top: {sheet: 21 mm spruce plywood}');
    await person.reached('top');
    await page.keyboard.press('Escape');
    await person.quiet();
  });
  await person.step('rod', async () => {
    await page.locator('.mark').nth(3).click();
    await page.waitForSelector('.sagged', { timeout: 5000 });
    await page.keyboard.press('Escape');
  });
  await person.step('parts', async () => {
    await page.locator('.ask', { hasText: 'What do I buy?' }).click();
    await page.waitForSelector('.answer pre', { timeout: patience });
    await person.sees('.answer pre', 'Parts of Window bench');
    await page.keyboard.press('Escape');
  });
  await person.step('beside', async () => {
    await page.locator('.ask', { hasText: 'side by side' }).click();
    await page.locator('.slip button', { hasText: 'keep this one' }).click();
    await page.waitForSelector('.stick .before', { state: 'attached', timeout: 5000 });
    await page.keyboard.press('Escape');
  });
  await person.step('saved', async () => {
    const download = page.waitForEvent('download');
    await page.locator('.tool', { hasText: /^save$/ }).click();
    const saved = readFileSync(await (await download).path(), 'utf8');
    if (saved !== (await person.text())) person.tell('what is saved is not what was drawn');
  });
  await person.step('link', async () => {
    await page.locator('.tool', { hasText: /^link$/ }).click();
    const link = await page.locator('.slip input').inputValue();
    if (!link.includes('#bench=')) person.tell(`the link is ${link}`);
    person.link = link;
    await page.keyboard.press('Escape');
  });
  for (const face of ['front', 'plan', 'solid'])
    await person.step(face, async () => {
      await page.locator('.tool', { hasText: new RegExp(`^${face}$`) }).click();
      await person.reached(face);
    });
  await page.locator('.tool', { hasText: /^the sheet$/ }).click();
  await person.step('reloaded', async () => {
    const before = await person.text();
    await page.reload();
    await page.waitForSelector('.drawing', { timeout: patience });
    await person.quiet();
    await person.sees('h1', 'Window bench');
    if (before !== (await person.text())) person.tell('the bench is another after a reload');
  });
}

async function prints(person) {
  const { page } = person;
  await person.step('printed', async () => {
    await page.evaluate(() => {
      const seen = new MutationObserver(() => {
        const f = document.getElementById('report');
        if (f) {
          f.addEventListener(
            'load',
            () => {
              f.contentWindow.print = () => {
                window.printed = true;
              };
            },
            { once: true, capture: true },
          );
          seen.disconnect();
        }
      });
      seen.observe(document.body, { childList: true });
    });
    await page.locator('.tool', { hasText: /^print$/ }).click();
    await page.waitForSelector('#report', { state: 'attached', timeout: patience });
    const words = await page.frameLocator('#report').locator('body').innerText({ timeout: patience });
    if (!words.includes('Window bench')) person.tell(`the report says ${words.slice(0, 80)}`);
    await page.keyboard.press('Escape');
  });
}

const browser = await chromium.launch({
  executablePath: '/usr/bin/chromium',
  args: [
    '--no-sandbox',
    '--disable-gpu',
    '--disable-quic',
    '--disable-background-networking',
    '--disable-component-update',
    '--disable-sync',
  ],
});
const url = pathToFileURL(file).href;
const sizes = { desk: { width: 1440, height: 900 }, phone: { width: 390, height: 844 } };
if (statSync(file).size > 2_000_000) faults.push(`the page has ${statSync(file).size} bytes`);
for (const [name, size] of Object.entries(sizes)) {
  const person = await opened(browser, url, size, name, 'light');
  await lives(person, name === 'desk');
  if (name === 'desk') await prints(person);
  await person.page.close();
  const dark = await opened(browser, person.link ?? url, size, `${name}-dark`, 'dark');
  await dark.step('linked', async () => {
    await dark.sees('h1', 'Window bench');
    await dark.reached('dark');
  });
  await dark.page.close();
}
const alone = await opened(browser, url, sizes.phone, 'no-worker', 'light', () => {
  delete window.Worker;
});
await alone.step('answer', () => alone.sees('.summary', 'safe to load'));
await alone.page.close();
const stranger = await opened(browser, url, sizes.desk, 'stranger', 'light');
await stranger.step('hostile', async () => {
  const bad = path.join(folder, 'hostile.yaml');
  writeFileSync(bad, hostile);
  const chooser = stranger.page.waitForEvent('filechooser');
  await stranger.page.locator('.tool', { hasText: /^open$/ }).click();
  await (await chooser).setFiles(bad);
  await stranger.page.waitForFunction(() => document.querySelector('h1')?.textContent?.startsWith('<img'), undefined, {
    timeout: patience,
  });
  if ((await stranger.page.locator('main img, main script').count()) > 0) stranger.tell('a title became an element');
});
await browser.close();
for (const fault of new Set(faults)) console.error(fault);
console.log(faults.length === 0 ? 'page: nothing to complain of' : `page: ${faults.length} faults`);
process.exit(faults.length === 0 ? 0 : 1);
