// Opens every report as a person would, in Debian's Chromium, and fails on a console error, a request
// to anybody, anything that runs over the page at 360, 800 and 1400 px or on paper, a text that is
// hard to read, a drawing without words.
//
//   node reports.mjs FOLDER          every *.html there; pictures and PDFs are written beside them
//
// Contrast is that of WCAG 2.1, 1.4.3: 4.5 to 1.
import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { chromium } from 'playwright-core';

const widths = [360, 800, 1400];
const folder = path.resolve(process.argv[2]);
const faults = [];

/** In the page: what runs over it, and what can not be read. */
function lookAround() {
  const found = [];
  const over = document.documentElement.scrollWidth - window.innerWidth;
  if (over > 0) found.push(`the page runs ${over} px over its right edge`);
  const scrolls = (node) => node && (['auto', 'scroll'].includes(getComputedStyle(node).overflowX) || scrolls(node.parentElement));
  for (const node of document.querySelectorAll('p, li, td, th, h1, h2, h3, dd, dt')) {
    const box = node.getBoundingClientRect();
    if (box.width > 0 && box.right > window.innerWidth + 1 && !scrolls(node)) {
      found.push(`"${node.textContent.trim().slice(0, 40)}" runs over the right edge`);
    }
  }
  const light = (text) => {
    const [r, g, b] = text.match(/[\d.]+/g).slice(0, 3).map((v) => {
      const c = v / 255;
      return c <= 0.03928 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
    });
    return 0.2126 * r + 0.7152 * g + 0.0722 * b;
  };
  const ground = light(getComputedStyle(document.querySelector('.sheet')).backgroundColor);
  const poor = new Set();
  for (const node of document.querySelectorAll('p, li, td, th, h1, h2, h3, dd, dt, b, figcaption, svg text')) {
    const style = getComputedStyle(node);
    const ink = light(node instanceof SVGElement ? style.fill : style.color);
    const ratio = (Math.max(ink, ground) + 0.05) / (Math.min(ink, ground) + 0.05);
    if (ratio < 4.5) poor.add(`${node.tagName}.${node.getAttribute('class') ?? ''} has a contrast of ${ratio.toFixed(2)}`);
  }
  found.push(...poor);
  for (const svg of document.querySelectorAll('svg[role=img]')) {
    if (!svg.querySelector('title')?.textContent || !svg.querySelector('desc')?.textContent) {
      found.push('a drawing has no words for who can not see it');
    }
    // Nothing drawn outside its own frame, where it would be cut off.
    const frame = svg.viewBox.baseVal;
    for (const text of svg.querySelectorAll('text')) {
      const b = text.getBBox();
      const turned = text.hasAttribute('transform');
      if (!turned && (b.x < -0.5 || b.x + b.width > frame.width + 0.5)) {
        found.push(`"${text.textContent}" runs out of the drawing "${svg.querySelector('title').textContent}"`);
      }
    }
  }
  let level = 0;
  for (const heading of document.querySelectorAll('h1, h2, h3, h4, h5, h6')) {
    const next = Number(heading.tagName[1]);
    if (next > level + 1) found.push(`heading "${heading.textContent}" skips a level`);
    level = next;
  }
  return found;
}

/** The first page must hold all of the first sheet: what comes next begins on a page of its own. */
async function pagesOf(page, file) {
  const pdf = await page.pdf({ path: file, preferCSSPageSize: true, printBackground: true });
  return (pdf.toString('latin1').match(/\/Type\s*\/Page[^s]/g) ?? []).length;
}

const browser = await chromium.launch({
  executablePath: '/usr/bin/chromium',
  args: ['--no-sandbox', '--disable-gpu', '--disable-quic', '--disable-background-networking', '--disable-component-update', '--disable-sync'],
});
for (const name of readdirSync(folder).filter((n) => n.endsWith('.html')).sort()) {
  const base = path.join(folder, name.slice(0, -5));
  for (const scheme of ['light', 'dark']) {
    for (const width of scheme === 'light' ? widths : [800]) {
      const page = await browser.newPage({ viewport: { width, height: 900 }, colorScheme: scheme });
      const tell = (what) => faults.push(`${name}, ${width} px, ${scheme}: ${what}`);
      page.on('console', (m) => ['error', 'warning'].includes(m.type()) && tell(`console: ${m.text()}`));
      page.on('pageerror', (e) => tell(`error: ${e.message}`));
      page.on('request', (r) => r.url().startsWith('file:') || tell(`asks for ${r.url()}`));
      await page.goto(pathToFileURL(`${base}.html`).href);
      for (const fault of await page.evaluate(lookAround)) tell(fault);
      await page.screenshot({ path: `${base}-${width}-${scheme}.png` });
      if (width === 800 && scheme === 'light') {
        const pages = await pagesOf(page, `${base}.pdf`);
        const is_card = readFileSync(`${base}.html`, 'utf8').includes('class="sheet card"');
        console.log(`${name}: ${pages} ${pages === 1 ? 'sheet' : 'sheets'} of A4`);
        if (pages > (is_card ? 2 : 70)) tell(`${pages} sheets of paper`);
        // The first sheet alone, as it prints.
        await page.emulateMedia({ media: 'print' });
        await page.addStyleTag({ content: 'main>:not(:first-child){display:none}' });
        const first = await pagesOf(page, undefined);
        if (!is_card && first !== 1) tell(`its first sheet takes ${first} sheets of paper`);
      }
      await page.close();
    }
  }
}
await browser.close();
for (const fault of new Set(faults)) console.error(fault);
console.log(faults.length === 0 ? 'reports: nothing to complain of' : `reports: ${faults.length} faults`);
process.exit(faults.length === 0 ? 0 : 1);
