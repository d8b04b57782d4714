// What comes to the page from outside of it: links, files that are dropped, keys, the printer.
import { Bench } from './bench';
import { examples } from './chosen';
import { from_link, read_file } from './files';

type Told = (fault: string) => void;

/** What a link brings, or what was there. */
export async function open_link(bench: Bench, told: Told): Promise<void> {
  const linked = await from_link();
  if (linked !== null && linked !== 'damaged') return bench.visit(linked);
  const own = bench.text || Bench.stored();
  if (!bench.text) bench.set(own || (examples[0]?.text ?? ''));
  if (linked === 'damaged')
    told(`This link is cut short or damaged: ask for it again. Here is ${own ? 'your own bench' : 'an example'}.`);
}

export function hears_the_window(bench: Bench, told: Told): void {
  addEventListener('hashchange', () => void open_link(bench, told));
  addEventListener('dragover', (e) => e.preventDefault());
  addEventListener('drop', (e) => {
    e.preventDefault();
    const file = e.dataTransfer?.files[0];
    if (file) read_file(file, bench, told);
  });
  addEventListener('keydown', (e) => {
    if (!(e.ctrlKey || e.metaKey) || e.target instanceof HTMLInputElement || e.target instanceof HTMLTextAreaElement)
      return;
    if (e.key === 'z') {
      e.preventDefault();
      if (e.shiftKey) bench.redo();
      else bench.undo();
    }
    if (e.key === 'y') {
      e.preventDefault();
      bench.redo();
    }
  });
}

/** At once before, and once the page is laid out for the screen again after. */
export function around_print(change: (begins: boolean) => void): void {
  const over = () => requestAnimationFrame(() => change(false));
  addEventListener('beforeprint', () => change(true));
  addEventListener('afterprint', over);
  matchMedia('print').addEventListener('change', (e) => !e.matches && over());
}
