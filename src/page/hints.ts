// Three hints that go away: by themselves once done, or by a tap.
import { h } from './dom';

const key = 'standtrue.hints';
const all = {
  size: 'Tap a dimension and type your own.',
  drag: 'Drag a machine on the plan, or add yours.',
  rod: 'Tap a line of the rod below to see it drawn.',
};
export type Hint = keyof typeof all;

function gone(): string[] {
  try {
    return JSON.parse(localStorage.getItem(key) ?? '[]') as string[];
  } catch {
    return [];
  }
}
let done = new Set<string>(gone());

export function learned(hint: Hint): void {
  if (done.has(hint)) return;
  done.add(hint);
  try {
    localStorage.setItem(key, JSON.stringify([...done]));
  } catch {
    /* told again next time */
  }
}

export function hints(redraw: () => void, is_file: boolean): HTMLElement | null {
  if (is_file) return null; // nothing of it is to be seen there
  const left = (Object.keys(all) as Hint[]).filter((k) => !done.has(k));
  const next = left[0];
  if (!next) return null;
  return h(
    'p',
    { class: 'hint' },
    h('span', {}, all[next]),
    h(
      'button',
      {
        type: 'button',
        class: 'plain',
        'aria-label': 'put this hint away',
        onclick: () => {
          learned(next);
          redraw();
        },
      },
      '×',
    ),
  );
}
