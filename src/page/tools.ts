// The row along the top: files, and the ways in which the sheet can lie.
import type { Bench } from './bench';
import { h } from './dom';
import { pick, save } from './files';
import { choose_example, print, show_link } from './papers';
import type { Face } from './sheet';

export const faces: Face[] = ['sheet', 'front', 'end', 'plan', 'solid', 'file'];
export const face_names: Record<Face, string> = {
  sheet: 'the sheet',
  front: 'front',
  end: 'left end',
  plan: 'plan',
  solid: 'solid',
  file: 'the file',
};

/** What is done with files, and which way the sheet lies. */
export function tools(bench: Bench, face: Face, turn_to: (face: Face) => void, told: (fault: string) => void): HTMLElement {
  const tool = (words: string, act: (e: Event) => void, off = false) => {
    const b = h('button', { type: 'button', class: 'tool', onclick: act }, words);
    b.disabled = off;
    return b;
  };
  return h(
    'nav',
    { class: 'tools', 'aria-label': 'files' },
    tool('begin', (e) => choose_example(bench, e)),
    tool('open', () => pick(bench, told)),
    tool('save', () => save(bench.text, bench.name)),
    tool('link', (e) => void show_link(bench, e)),
    tool('print', (e) => void print(bench, e)),
    tool('undo', () => bench.undo(), !bench.canUndo),
    tool('redo', () => bench.redo(), !bench.canRedo),
    h(
      'span',
      { class: 'kind', role: 'group', 'aria-label': 'turn the sheet over' },
      ...faces.map((f) => {
        const b = tool(face_names[f], () => turn_to(f));
        b.setAttribute('aria-pressed', String(f === face));
        return b;
      }),
    ),
  );
}
