// A small note of what was just done, for some seconds.
import { merge, type Bench } from './bench';
import { h, say } from './dom';

const stays = 7000; // ms
let note: HTMLElement | null = null;
let timer = 0;

export function told_shortly(words: string): void {
  say(words);
  note?.remove();
  note = h('p', { class: 'noted', 'aria-hidden': 'true' }, words); // it is said already
  document.body.append(note);
  clearTimeout(timer);
  timer = setTimeout(() => note?.remove(), stays);
}

/** What the core proposes becomes part of the bench. */
export function draw_in(bench: Bench, name: string, write: string): void {
  const before = bench.text;
  bench.edit((doc) => merge(doc, write));
  if (bench.text !== before) told_shortly(`Drawn in: ${name}. "undo" takes it back.`);
}
