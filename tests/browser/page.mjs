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
    this.width = page.viewportSize().width;
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
  const held = Date.now();
  await page.waitForSelector('.told tspan', { timeout: patience });
  const told = await page.locator('.told tspan').first().textContent();
  console.log(`${person.name}: held, the core says after ${Date.now() - held} ms: ${told}`);
  if (told.length < 10) person.tell(`a machine in hand is told nothing of its place: ${told}`);
  await person.picture('dragging');
  await page.mouse.up();
  return page.evaluate(() => {
    document.removeEventListener('pointermove', window.listen, true);
    return window.paints.sort((a, b) => a - b);
  });
}

/** A finger, as the browser has it: unlike a mouse, the page may take a drag from it. */
async function drag_by_finger(person, label, by) {
  const { page } = person;
  const box = await page.locator(`.machine.standing[aria-label^="${label}"]`).boundingBox();
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  const hand = await page.context().newCDPSession(page);
  const touch = (type, points) => hand.send('Input.dispatchTouchEvent', { type, touchPoints: points });
  await touch('touchStart', [{ x, y }]);
  for (let i = 1; i <= 20; ++i) await touch('touchMove', [{ x: x + (by * i) / 20, y }]);
  await touch('touchEnd', []);
}

/** Where something lies on the screen. */
async function lies(person, selector) {
  const box = await person.page.locator(selector).first().boundingBox();
  return { left: box.x, top: box.y, right: box.x + box.width, bottom: box.y + box.height };
}
const meet = (a, b) => a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;

/** What somebody who never saw the page looks for. */
async function finds_its_way(person, big) {
  const { page } = person;
  await person.step('no-feet-here', async () => {
    await person.label('no foot of the bench').click();
    await page.locator('.slip button', { hasText: 'there is none' }).click();
    if ((await person.text()).includes('keep_off')) person.tell('the strip of floor is still there');
    await person.quiet();
  });
  await person.step('posts', async () => {
    const foot = page.locator('.foot-hit').nth(1);
    if (!big && (await foot.boundingBox()).width < 44) person.tell('a foot on the plan is too small to tap');
    await foot.click();
    await person.sees('.slip h2', 'posts');
    await page.keyboard.press('Escape');
  });
  await person.step('questions-in-sight', async () => {
    for (const words of ['Can it sit here?', 'How thick must the top be?', 'Does it need a brace?']) {
      const box = await page.locator('.ask', { hasText: words }).boundingBox();
      if (box.x < 0 || box.x + box.width > person.width) person.tell(`"${words}" lies outside of the screen`);
      if (!big && box.height < 44) person.tell(`"${words}" is ${box.height} px high`);
    }
  });
  await person.step('verdict-on-the-rod', async () => {
    await person.sees('.mark[aria-pressed=true]', 'sway');
    const mark = await lies(person, '.mark[aria-pressed=true]');
    if (mark.left < 0 || mark.right > person.width) person.tell('the line that the verdict hangs on is out of sight');
    for (const words of await page.locator('.mark-words').allInnerTexts())
      if (/^[o>]+ /.test(words)) person.tell(`the rod says "${words}"`);
  });
  await person.step('braces', async () => {
    const back = () => page.locator('.slip button', { hasText: /^back$/ });
    for (const there of ['true', 'false']) {
      await page.locator('.add').nth(1).click();
      const pressed = await back().getAttribute('aria-pressed');
      if (pressed !== there) person.tell(`a brace in the back: ${pressed}, not ${there}`);
      await back().click();
    }
    await person.has('braces', 'side: back, kind: diagonal');
    await person.quiet();
  });
}

async function asks_where(person, big) {
  const { page } = person;
  await person.step('where', async () => {
    await page.locator('.ask', { hasText: 'Can it sit here?' }).click();
    await page.waitForSelector('.slip .key', { timeout: patience });
    const slip = await lies(person, '.slip');
    await person.sees('.slip .row [aria-pressed=true]', 'drill press');
    for (const words of await page.locator('.answer p').allInnerTexts())
      if (/Write: |\w\/\w|the file|standtrue/.test(words)) person.tell(`the answer speaks of the file: ${words}`);
    if (big && meet(slip, await lies(person, '.machine.standing')))
      person.tell('the answer hides what it is hatched on');
    if (!big && slip.bottom > (await lies(person, 'footer')).top + 1) person.tell('the slip hides the rod');
    if (meet(slip, await lies(person, '.plan-view'))) person.tell('the answer hides the plan that it explains');
    if (meet(slip, await lies(person, '.verdict'))) person.tell('the answer hides the verdict');
    const empty = await page.evaluate(() => {
      const slip = document.querySelector('.slip');
      return slip.getBoundingClientRect().bottom - slip.lastElementChild.getBoundingClientRect().bottom;
    });
    if (empty > 40) person.tell(`the slip is empty for ${empty} px`);
    await person.reached('where');
    await page.locator('.slip summary').click();
    const wide = await page.locator('.slip').evaluate((n) => n.scrollWidth - n.clientWidth);
    if (wide > 0) person.tell(`the slip is cut at its right by ${wide} px`);
  });
  await page.keyboard.press('Escape');
}

/** What is answered by a table lies open, and fits. */
async function reads_tables(person) {
  const { page } = person;
  await person.step('level', async () => {
    await page.locator('.ask', { hasText: 'How do I level it?' }).click();
    await page.waitForSelector('.answer details[open] pre', { timeout: patience });
    const wide = await page.locator('.answer pre').evaluate((n) => n.scrollWidth - n.clientWidth);
    if (wide > 0) person.tell(`the table is cut at its right by ${wide} px`);
    if (meet(await lies(person, '.slip'), await lies(person, '.verdict'))) person.tell('the table hides the verdict');
  });
  await page.keyboard.press('Escape');
}

/** A keyboard on the screen takes its place from what is seen, not from the page. */
async function above_the_keyboard(person) {
  const { page } = person;
  await person.step('keyboard', async () => {
    await person.label('length').click();
    await page.evaluate(() => {
      Object.defineProperty(visualViewport, 'height', { value: 500, configurable: true });
      visualViewport.dispatchEvent(new Event('resize'));
    });
    const { bottom } = await lies(person, '.slip input');
    if (bottom > 500) person.tell(`a keyboard hides what is typed: ${bottom}`);
    await page.evaluate(() => {
      delete visualViewport.height;
      visualViewport.dispatchEvent(new Event('resize'));
    });
    await page.keyboard.press('Escape');
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
  await finds_its_way(person, big);
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
    const word = async () => (await page.locator('.verdict').first().innerText()).replace(/\s*why\?/, '');
    const begun = Date.now();
    await type('length', '71 in');
    await page.waitForSelector('.verdict:text-is("...")', { timeout: patience });
    console.log(`${person.name}: after a change of the frame, a first look after ${Date.now() - begun} ms`);
    await person.picture('first-look');
    const before = await lies(person, '[aria-label^="length"]');
    await person.has('inches', 'size: 71 in x 620 mm x 880 mm');
    await person.has('inches', '# mine');
    await person.quiet();
    console.log(`${person.name}: and its verdict, ${await word()}, after ${Date.now() - begun} ms`);
    const after = await lies(person, '[aria-label^="length"]');
    if (big && (before.left !== after.left || before.top !== after.top))
      person.tell('the drawing moves while its verdict comes');
  });
  await person.step('overtaken', async () => {
    await type('length', '1500 mm');
    await page.waitForSelector('.verdict:text-is("...")', { timeout: patience });
    await type('length', '71 in'); // while the other is still being worked out
    await person.quiet();
    await person.has('a change overtaken', 'size: 71 in x 620 mm x 880 mm');
    if ((await page.locator('.verdict').first().innerText()) === '...') person.tell('no verdict after a change overtaken');
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
  if (!big) {
    await person.step('by-finger', async () => {
      const before = await person.text();
      await drag_by_finger(person, 'drill press', -40);
      await page.waitForFunction((b) => localStorage.getItem('standtrue.bench') !== b, before, { timeout: 5000 });
      await person.quiet();
    });
    await above_the_keyboard(person);
  }
  await asks_where(person, big);
  await reads_tables(person);
  await person.step('keys', async () => {
    const before = await person.text();
    await page.locator('.machine.standing[aria-label^="bench grinder"]').focus();
    await page.keyboard.press('ArrowRight');
    await page.waitForFunction((b) => localStorage.getItem('standtrue.bench') !== b, before, { timeout: 5000 });
    await person.quiet();
    const held = await page.evaluate(() => document.activeElement.getAttribute('aria-label') ?? '');
    if (!held.startsWith('bench grinder')) person.tell(`after an arrow key the keyboard is at "${held}"`);
    const stops = await page.evaluate(() =>
      [...document.querySelectorAll('#page [tabindex="0"], #page button')].findIndex((n) => n.matches('.questions .ask')),
    );
    if (stops > 30) person.tell(`the questions are the ${stops}th stop of the keyboard`);
  });
  await person.step('not-a-length', async () => {
    const before = await person.text();
    await person.label('depth').click();
    for (const [typed, fault] of [
      ['1800 x 5', 'One length'],
      ['', 'A length'],
      ['1800', '1800 in is 46 m'], // the bench is in inches
    ]) {
      await page.locator('.slip input').first().fill(typed);
      await page.keyboard.press('Enter');
      await person.sees('.slip .field .red', fault);
    }
    await page.keyboard.press('Escape');
    if (before !== (await person.text())) person.tell('what is no length was written into the file');
  });
  await person.step('fault-at-its-field', async () => {
    if (big) {
      await page.locator('svg text.handle', { hasText: 'bench grinder' }).first().click(); // its name on the front
      await person.sees('.slip h2', 'bench grinder');
      await page.keyboard.press('Escape');
    }
    await person.label('bench grinder').click();
    if (!big) await page.locator('.slip input').first().tap();
    await page.locator('.slip input').first().fill('heavy');
    await page.keyboard.press('Enter');
    await person.sees('.slip .field .red', 'heavy');
    await page.locator('.slip input').first().fill('20');
    await page.keyboard.press('Enter');
    await person.has('a number alone', 'mass: 20 kg');
    await person.quiet();
    await person.label('bench grinder').click();
    await page.locator('.slip select').first().selectOption('small drill press');
    await person.sees('.slip h2', 'small drill press');
    if ((await person.text()).includes('mass: 20 kg')) person.tell('another kind of machine has the mass of the one before');
    await page.keyboard.press('Escape');
    await person.quiet();
    for (let i = 0; i < 3; ++i) await page.locator('.tool', { hasText: /^undo$/ }).click();
    await person.quiet();
  });
  await person.step('broken', async () => {
    await page.locator('.tool', { hasText: /^the file$/ }).click();
    await page.locator('textarea').fill((await person.text()).replace('620 mm', 'banana'));
    await page.waitForSelector('.wrong', { timeout: patience });
    await person.sees('.wrong', 'Line 3');
    await page.locator('.tool', { hasText: /^the sheet$/ }).click();
    await person.quiet();
    await person.sees('.wrong', 'banana');
    await person.sees('.summary', 'What is drawn is the one before');
    if ((await page.locator('button.verdict').count()) > 0) person.tell('a bench that can not be read has a verdict');
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
    await person.sees('.answer pre', 'What to buy for Window bench');
    await page.keyboard.press('Escape');
  });
  await person.step('beside', async () => {
    await page.locator('.ask', { hasText: 'side by side' }).click();
    await page.locator('.slip button', { hasText: 'keep this one' }).click();
    await page.waitForSelector('.stick .before', { state: 'attached', timeout: 5000 });
    await person.sees('.noted', 'Kept');
    if ((await page.locator('.slip').count()) > 0) person.tell('the slip stays after "keep this one"');
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
  await person.step('on-paper', async () => {
    await page.emulateMedia({ media: 'print' });
    await page.evaluate(() => dispatchEvent(new Event('beforeprint')));
    for (const selector of ['.verdict', '.on-paper', '.lying .drawing, .upright .drawing', '.rod'])
      if ((await page.locator(selector).filter({ visible: true }).count()) === 0) person.tell(`${selector} is not printed`);
    for (const selector of ['.tools', '.ask'])
      if ((await page.locator(selector).filter({ visible: true }).count()) > 0) person.tell(`${selector} is printed`);
    await person.picture('paper');
    await page.emulateMedia({ media: 'screen' });
    await page.evaluate(() => dispatchEvent(new Event('afterprint')));
    await page.waitForSelector('#page:not(.printed) .drawing', { timeout: 5000 });
  });
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

/** Enlarged twofold, or on a phone that lies: what does not fit is scrolled to, not crushed. */
async function has_room(person, width, height) {
  const { page } = person;
  await page.setViewportSize({ width, height });
  await page.waitForFunction((w) => document.querySelector('.drawing').getBoundingClientRect().right <= w, width);
  const found = await page.evaluate(() => {
    const box = (n) => n.getBoundingClientRect();
    const block = box(document.querySelector('.title-block'));
    const meets = (r) => r.left < block.right && block.left < r.right && r.top < block.bottom && block.top < r.bottom;
    return {
      drawing: box(document.querySelector('.drawing')).height,
      front: box(document.querySelector('.drawing .floor')).width,
      rod: box(document.querySelector('footer')).bottom,
      hidden: [...document.querySelectorAll('.drawing text')].filter((t) => meets(box(t))).map((t) => t.textContent),
      across: document.documentElement.scrollWidth,
    };
  });
  if (found.drawing < 330 || found.front < 140) person.tell(`the drawing is ${found.drawing} high, the front ${found.front}`);
  if (found.rod > height + 1) person.tell(`the rod ends at ${found.rod} of ${height}`);
  if (found.hidden.length > 0) person.tell(`the title block hides ${found.hidden.join(', ')}`);
  if (found.across > width) person.tell(`the page is ${found.across} wide`);
}

const own_is_kept = () => {
  if (localStorage.getItem('standtrue.bench') === null)
    localStorage.setItem(
      'standtrue.bench',
      'standtrue: 1\ntitle: My own\nsize: 1500 x 700 x 900 mm\ntimber: C24 45 x 95 mm\ntop: 18 mm spruce plywood\n',
    );
};

/** A link takes nothing away that was here before. */
async function comes_by_link(person) {
  const { page } = person;
  await person.step('own-bench-kept', async () => {
    await person.has('a link was opened', 'title: My own');
    await page.locator('.tool', { hasText: /^undo$/ }).click();
    await page.waitForFunction(() => document.querySelector('h1')?.textContent === 'My own', undefined, {
      timeout: patience,
    });
  });
  await person.step('link-cut-short', async () => {
    await page.goto(person.page.url().replace(/#.*$/, '') + '#bench=cutshort');
    await person.sees('.slip', 'cut short or damaged');
    await page.keyboard.press('Escape');
  });
  await person.step('stored', async () => {
    await person.label('stored, as usual: 20 kg on the top').click();
    await page.locator('.slip input').first().fill('35');
    await page.keyboard.press('Enter');
    await person.has('stored', 'load: 35 kg');
    await person.quiet();
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
  const dark = await opened(browser, person.link ?? url, size, `${name}-dark`, 'dark', own_is_kept);
  await dark.step('linked', async () => {
    await dark.sees('h1', 'Window bench');
    await dark.reached('dark');
  });
  if (name === 'phone') await comes_by_link(dark);
  await dark.page.close();
}
const alone = await opened(browser, url, sizes.phone, 'no-worker', 'light', () => {
  delete window.Worker;
});
await alone.step('answer', () => alone.sees('.summary', 'safe to load'));
for (const [width, height] of [
  [720, 450],
  [844, 390],
  [320, 568],
  [1024, 768],
  [960, 600],
])
  await alone.step(`${width}x${height}`, () => has_room(alone, width, height));
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
await stranger.step('warned', async () => {
  await stranger.page.locator('.tool', { hasText: /^the file$/ }).click();
  const walled = `${own}  - {kind: air compressor, at: [300 mm, 200 mm]}\nwall: {rail: back top rail, at: [300 mm, 1200 mm]}\n`;
  await stranger.page.locator('textarea').fill(walled);
  await stranger.sees('.warned', 'same ground');
  await stranger.page.locator('.tool', { hasText: /^the sheet$/ }).click();
  await stranger.quiet();
  if ((await stranger.page.locator('.wall').count()) < 2) stranger.tell('the wall is not drawn in plan and end view');
  await stranger.page.locator('.joint').last().click();
  await stranger.sees('.slip', 'on the same spot');
  await stranger.reached('warned');
});
await stranger.step('foreseen', async () => {
  const ready = stranger.page.locator('.ask', { hasText: 'Can it sit here?' }).locator('.answered').first();
  await ready.waitFor({ state: 'attached', timeout: patience }).catch(() => stranger.tell('nothing was looked for ahead'));
});
await browser.close();
for (const fault of new Set(faults)) console.error(fault);
console.log(faults.length === 0 ? 'page: nothing to complain of' : `page: ${faults.length} faults`);
process.exit(faults.length === 0 ? 0 : 1);
