// Makes the page: one HTML file with the core, what can be chosen, the examples, and a policy that lets it
// reach nothing outside.
//
//   node build.mjs CORE.js PAGE.html
import { createHash } from 'node:crypto';
import { spawnSync } from 'node:child_process';
import { existsSync, readFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { buildSync } from 'esbuild';
import { choices } from './choices.mjs';

const here = path.dirname(fileURLToPath(import.meta.url));
const root = path.join(here, '../..');
const [coreFile, pageFile] = process.argv.slice(2);

/** 85 letters that mean nothing to HTML; four bytes are five of them, base64 would take a fifteenth more. */
const letters = '0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz!#$%()*+,-./:;=?@[]^_{|';

function base85(bytes) {
  const padded = Buffer.concat([bytes, Buffer.alloc((4 - (bytes.length % 4)) % 4)]);
  let text = '';
  for (let i = 0; i < padded.length; i += 4) {
    let n = padded.readUInt32BE(i);
    let five = '';
    for (let k = 0; k < 5; ++k, n = Math.floor(n / 85)) five = letters[n % 85] + five;
    text += five;
  }
  return `${bytes.length}~${text}`;
}

/** By zopfli, which makes it a twentieth smaller than zlib does and takes its time: once for each core. */
function deflated(wasm) {
  const file = path.join(
    path.dirname(pageFile),
    `core-${createHash('sha256').update(wasm).digest('hex').slice(0, 16)}.deflate`,
  );
  if (!existsSync(file)) {
    writeFileSync(`${file}.wasm`, wasm);
    const { status, stdout, error } = spawnSync('zopfli', ['--i5', '--deflate', '-c', `${file}.wasm`], {
      maxBuffer: 1 << 26,
    });
    if (status !== 0) throw error ?? new Error('zopfli fails: ./setup.sh --page');
    writeFileSync(file, stdout);
    rmSync(`${file}.wasm`);
  }
  return readFileSync(file);
}

/** The core's WebAssembly lies beside its JavaScript. */
function parted(file) {
  return { glue: readFileSync(file, 'utf8'), wasm: base85(deflated(readFileSync(file.replace(/\.js$/, '.wasm')))) };
}

function bundled(entry, define = {}) {
  return buildSync({
    entryPoints: [path.join(here, entry)],
    bundle: true,
    write: false,
    minify: true,
    format: 'iife',
    target: 'es2022',
    charset: 'utf8',
    define,
    legalComments: 'none',
  }).outputFiles[0].text;
}

/** What stands in a script must not end it. */
const guarded = (text) => text.replaceAll('</script', '<\\/script').replaceAll('<!--', '<\\!--');
const hash = (text) => `'sha256-${createHash('sha256').update(text).digest('base64')}'`;

const examples = readdirSync(path.join(root, 'examples'))
  .filter((f) => f.endsWith('.yaml'))
  .sort()
  .map((f) => ({ name: f, text: readFileSync(path.join(root, 'examples', f), 'utf8') }));
const { glue, wasm } = parted(coreFile);
const scripts = [
  glue,
  bundled('worker.ts'),
  bundled('main.ts', {
    CHOICES: JSON.stringify(choices(path.join(root, 'reference'))),
    EXAMPLES: JSON.stringify(examples),
    LETTERS: JSON.stringify(letters),
  }),
].map(guarded);

// Styles may stand in the page, for the core's report brings its own; scripts only as they are here.
const policy = [
  "default-src 'none'",
  `script-src ${scripts.map(hash).join(' ')} 'wasm-unsafe-eval'`,
  'worker-src blob:',
  "style-src 'unsafe-inline'",
  'img-src data: blob:',
  "base-uri 'none'",
  "form-action 'none'",
].join('; ');
const parts = {
  POLICY: policy,
  STYLE: readFileSync(path.join(here, 'style.css'), 'utf8'),
  WASM: wasm,
  GLUE: scripts[0],
  WORKER: scripts[1],
  MAIN: scripts[2],
};
const page = readFileSync(path.join(here, 'page.html'), 'utf8').replace(/\{\{(\w+)\}\}/g, (_, name) => parts[name]);
writeFileSync(pageFile, page);
const most = 2_000_000;
console.log(`${path.basename(pageFile)}: ${Buffer.byteLength(page)} bytes`);
if (Buffer.byteLength(page) > most) throw new Error(`the page is larger than ${most} bytes`);
