// The core under Node.js, from build/page.
import {readFileSync} from 'node:fs';
import {createRequire} from 'node:module';
import path from 'node:path';

/// `folder` holds standtrue_core.js and .wasm. Gives a function from a request to its answer, as texts.
export async function load_core(folder) {
  const file = path.resolve(folder, 'standtrue_core');
  const make = createRequire(import.meta.url)(`${file}.js`);
  // The bytes are handed over: the glue's own way to them fails under Node.js 18 and later.
  const core = await make({wasmBinary: readFileSync(`${file}.wasm`)});
  return request => core.ccall('standtrue_answer', 'string', ['string'], [request]);
}
