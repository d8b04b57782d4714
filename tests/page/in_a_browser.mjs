// The core in Debian's Chromium, as a page that was opened from file:// has it: the WebAssembly packed into
// the page, run by a worker made of a Blob, and once more without a worker. Prints what it took.
//
//     node tests/page/in_a_browser.mjs FOLDER BENCH.yaml      FOLDER is build/page
import {chromium} from '../browser/node_modules/playwright-core/index.mjs';
import {mkdtempSync, readFileSync, rmSync, writeFileSync} from 'node:fs';
import {tmpdir} from 'node:os';
import path from 'node:path';
import {pathToFileURL} from 'node:url';
import {gzipSync} from 'node:zlib';
import {load_core} from './core.mjs';

const [folder, bench] = process.argv.slice(2);
const glue = readFileSync(path.join(folder, 'standtrue_core.js'), 'utf8');
const packed = gzipSync(readFileSync(path.join(folder, 'standtrue_core.wasm')), {level: 9}).toString('base64');
const request = JSON.stringify({command: 'check', text: readFileSync(bench, 'utf8')});

/// Runs in the worker, or in the page itself: from packed text to answers.
const unpack = `
async function make_core(packed) {
  const bytes = Uint8Array.from(atob(packed), c => c.charCodeAt(0));
  const stream = new Blob([bytes]).stream().pipeThrough(new DecompressionStream('gzip'));
  return standtrue_core({wasmBinary: await new Response(stream).arrayBuffer()});
}
const answer_of = (core, request) => core.ccall('standtrue_answer', 'string', ['string'], [request]);
`;
const worker = `
let core;
onmessage = async ({data}) => {
  try {
    core ??= await make_core(data.packed);
    postMessage(data.request ? answer_of(core, data.request) : '');
  } catch (fault) { postMessage(JSON.stringify({fault: String(fault)})); }
};
`;
const html = `<!doctype html><meta charset="utf-8"><title>core</title>
<script type="text/plain" id="glue">${glue.replaceAll('</script', '<\\/script')}</script>
<script type="text/plain" id="packed">${packed}</script>
<script>${glue.replaceAll('</script', '<\\/script')}${unpack}
const text_of = id => document.getElementById(id).textContent;
async function in_worker(request, times) {
  const code = text_of('glue') + ${JSON.stringify(unpack + worker)};
  const worker = new Worker(URL.createObjectURL(new Blob([code], {type: 'text/javascript'})));
  const ask = message => new Promise((done, fail) => {
    worker.onmessage = e => done(e.data);
    worker.onerror = e => fail(new Error(e.message));
    worker.postMessage(message);
  });
  const took = [], start = performance.now();
  await ask({packed: text_of('packed')});
  took.push(performance.now() - start);
  let answer;
  for (let i = 0; i < times; ++i) {
    const from = performance.now();
    answer = await ask({request});
    took.push(performance.now() - from);
  }
  return {took, answer};
}
async function in_page(request) {
  return {answer: answer_of(await make_core(text_of('packed')), request)};
}
</script>`;

const place = mkdtempSync(path.join(tmpdir(), 'standtrue-'));
const file = path.join(place, 'core.html');
writeFileSync(file, html);
const browser = await chromium.launch({executablePath: '/usr/bin/chromium', args: ['--no-sandbox']});
const faults = [];
try {
  const page = await browser.newPage();
  page.on('console', m => m.type() === 'error' && faults.push(m.text()));
  page.on('pageerror', e => faults.push(String(e)));
  page.on('request', r => r.url().startsWith('http') && faults.push(`asks for ${r.url()}`));
  await page.goto(pathToFileURL(file).href);
  const expected = JSON.parse((await load_core(folder))(request));
  const worker_told = await page.evaluate(([r]) => in_worker(r, 4), [request]);
  const page_told = await page.evaluate(([r]) => in_page(r), [request]);
  for (const [where, told] of [['worker', worker_told], ['page', page_told]]) {
    if (JSON.stringify(JSON.parse(told.answer)) !== JSON.stringify(expected)) faults.push(`${where}: another answer`);
  }
  const ms = worker_told.took.map(t => t.toFixed(0));
  console.log(`page of ${html.length - glue.length} bytes; the core is there after ${ms[0]} ms; ` +
              `checks took ${ms.slice(1).join(', ')} ms`);
} finally {
  await browser.close();
  rmSync(place, {recursive: true});
}
for (const fault of faults) console.log(`  ${fault}`);
process.exit(faults.length ? 1 : 0);
