// Holds what the core says as WebAssembly to what the program says:
//
//     node tests/page/same_numbers.mjs PROGRAM FOLDER [--commands check,level,...] FILE...
//
// Every number of the JSON answers agrees to 1e-8 of itself; all else to the letter. Where the program's
// own audit of a loading tells more than a hundredth of that (residual, equilibrium), to a hundred times it:
// the answer is no better known. What can not agree so far:
//   - a number that is small beside others of its sort, or zero by symmetry, agrees to 1e-8 of the largest
//     movement, force or moment of any loading of the same stiffness: loadings are sums of the same cases, and
//     what rounding leaves of a load moves a frame where it is softest (`sorts`, `floors`);
//   - of parts or loadings that are as bad as each other, by symmetry, the first is told; where the two
//     differ by nearly what counts as the same (check/is_worse.hpp), another may be named. Its words may then
//     be others; its numbers may not (`named_of_equals`).
// FOLDER is build/page. Ends with 1 where something else differs, and names it.
import {execFileSync} from 'node:child_process';
import {readFileSync} from 'node:fs';
import {load_core} from './core.mjs';

// Rounding (2e-16) over the condition of the examples (4e-7, `check --detail`), with a tenfold for sums.
const NEAR = 1e-8;
const words = process.argv.slice(2);
let commands = ['check', 'place', 'parts', 'level'];
const at = words.indexOf('--commands');
if (at >= 0) commands = words.splice(at, 2)[1].split(',');
const [program, folder, ...files] = words;

/// Of the raw answers at one stiffness: what a number is measured against the largest of.
const sorts = [
  [/\/corners\/.*\/[xyz]$/, 'movement'],
  [/\/(feet\/.*\/(down|x|y)|rail_ends\/.*\/(N|V_y|V_z))$/, 'force'],
  [/\/rail_ends\/.*\/(T|M_y|M_z)$/, 'moment'],
];
const sort_of = where => sorts.find(([is]) => is.test(where))?.[1];

/// What small means where there is none of its sort to measure against: the numbers are differences of larger
/// ones. A mesh error is that of two ratios near 1; feet are turned by millimetres; audits are rounding alone.
/// A mass that may be stored is sought to 2.5 kg (src/decide/load_plan.cpp) by steps that aim at the limit
/// itself, where rounding says which side they fall on.
const floors = [
  [/\/mesh_error$/, 1e-8],
  [/^\/findings\/\d+\/(ratio|demand)\//, 1e-11],
  [/^\/(feet\/\d+\/(out|for_load)|readings\/.*\/(warp|slope_x|slope_y|twist))$/, 1e-11],
  [/^\/feet\/\d+\/turns$/, 1e-8],
  [/\/audit\/(residual|equilibrium)$/, 1e-6],
  [/^\/loads\/mass\/\d+$/, 2.5],
];
const floor_of = where => floors.find(([is]) => is.test(where))?.[1] ?? 0;

const named_of_equals = new Set(['combination', 'working', 'place', 'sentence', 'advice']);

function each(value, where, f) {
  if (value && typeof value === 'object') {
    for (const [k, v] of Object.entries(value)) each(v, `${where}/${k}`, f);
  } else {
    f(value, where);
  }
}

/// What is as bad as each other stands in any order.
function by_id(answer) {
  const compared = (a, b) => (a.id < b.id ? -1 : a.id > b.id ? 1 : 0);
  if (answer.findings) answer.findings.sort(compared);
  if (answer.besides) answer.besides.sort();
  return answer;
}

/// What the worst audit of an answer leaves unknown.
function nearness(answer) {
  let near = NEAR;
  each(answer, '', (value, where) => {
    if (/\/audit\/(residual|equilibrium)$/.test(where)) near = Math.max(near, 100 * value);
  });
  return near;
}

class Comparison {
  numbers = 0;
  small = 0;
  equals = 0;
  used = 0;  // of what they may differ by, at most
  at = '';
  faults = [];

  constructor(near) {
    this.near = near;
  }

  compare(a, b, where, largest = {}) {
    if (typeof a === 'number' && typeof b === 'number') return this.number(a, b, where, largest);
    if (!(a && b && typeof a === 'object' && typeof b === 'object')) {
      if (a !== b) this.faults.push(`${where}: ${JSON.stringify(a)} is ${JSON.stringify(b)}`);
      return;
    }
    if (Object.keys(a).join('\n') !== Object.keys(b).join('\n')) {
      this.faults.push(`${where}: other keys`);
      return;
    }
    if (/^\/raw\/[^/]*$/.test(where)) largest = this.largest_of(a, where);
    const other = /^\/findings\/\d+$/.test(where) &&
                  [...named_of_equals].some(k => JSON.stringify(a[k]) !== JSON.stringify(b[k]));
    if (other) ++this.equals;
    for (const k of Object.keys(a)) {
      if (other && named_of_equals.has(k)) continue;
      this.compare(a[k], b[k], `${where}/${k}`, largest);
    }
  }

  largest_of(answers, where) {
    const largest = {};
    each(answers, where, (value, at) => {
      const sort = sort_of(at);
      if (sort && typeof value === 'number') largest[sort] = Math.max(largest[sort] ?? 0, Math.abs(value));
    });
    return largest;
  }

  number(a, b, where, largest) {
    ++this.numbers;
    const by = Math.abs(a - b), size = Math.max(Math.abs(a), Math.abs(b));
    if (by === 0) return;
    const beside = Math.max(this.near / NEAR * floor_of(where), this.near * (largest[sort_of(where)] ?? 0));
    const used = by / Math.max(this.near * size, beside);
    if (used > 1) this.faults.push(`${where}: ${a} is ${b}, by ${(by / size).toExponential(1)}`);
    else if (by > this.near * size) ++this.small;
    if (used > this.used) [this.used, this.at] = [used, where];
  }
}

function natively(command, file) {
  const options = {encoding: 'utf8', maxBuffer: 1 << 28};
  try {
    return execFileSync(program, [command, file, '--json'], options);
  } catch (ended) {
    if (ended.status !== 1) throw ended;  // 1: the answer is not a good one
    return ended.stdout;
  }
}

const ask = await load_core(folder);
let wrong = 0;
for (const file of files) {
  for (const command of commands) {
    const native = JSON.parse(natively(command, file));
    const request = {command, text: readFileSync(file, 'utf8'), file};
    const told = JSON.parse(ask(JSON.stringify(request)));
    if (told.fault) throw new Error(told.fault);
    const held = new Comparison(nearness(native));
    held.compare(by_id(native), by_id(told.answer), '');
    console.log(`${file} ${command}: ${held.numbers} numbers, asked for ${held.near.toExponential(1)}, of which ${(100 * held.used).toPrecision(2)} % is used${held.at ? ` at ${held.at}` : ''}, ` +
                `${held.small} of them small; another of equals is named ${held.equals} times; ` +
                `${held.faults.length} differ`);
    for (const fault of held.faults.slice(0, 20)) console.log(`  ${fault}`);
    wrong += held.faults.length;
  }
}
process.exit(wrong ? 1 : 0);
