// A slip of paper laid on the drawing beside what was tapped; on a phone it rises from the rod.
import { found_again, h } from './dom';

let open: HTMLElement | null = null;
let back: () => HTMLElement | null = () => null; // what was tapped

/** It hears that it is put away, by hand or for another. */
function take_up(): void {
  const slip = open;
  open = null;
  slip?.remove();
  slip?.dispatchEvent(new Event('gone'));
}

export function close_slip(): void {
  take_up();
  back()?.focus({ preventScroll: true });
}

export function lay_slip(title: string, from: Event | null, ...body: (Node | string | null | false)[]): HTMLElement {
  const target = (from?.currentTarget ?? document.activeElement) as HTMLElement | null;
  take_up();
  back = found_again(target);
  const slip = h(
    'section',
    { class: 'slip', role: 'dialog', 'aria-label': title },
    h(
      'header',
      {},
      h('h2', {}, title),
      h('button', { type: 'button', class: 'plain close', 'aria-label': 'close', onclick: close_slip }, '×'),
    ),
    ...body,
  );
  document.body.append(slip);
  open = slip;
  // What was tapped may be drawn anew meanwhile: where it was is asked for once. A question asked in the title
  // block is answered beside it.
  const block = target?.closest('.title-block');
  const at = target?.isConnected ? (block ?? target).getBoundingClientRect() : null;
  place(slip, at, Boolean(block));
  queueMicrotask(() => place(slip, at, Boolean(block))); // it may have been made wider meanwhile
  slip.querySelector<HTMLElement>('input, select, [autofocus]')?.focus();
  const typed = slip.querySelector<HTMLInputElement>('input[type=text]');
  if (typed && typed === document.activeElement) typed.select();
  return slip;
}

export function retitle(slip: HTMLElement, title: string): void {
  slip.setAttribute('aria-label', title);
  slip.querySelector('h2')?.replaceChildren(title);
}
export const is_slip_open = (slip: HTMLElement): boolean => open === slip;

/** One that was put away, with what was typed on it, unless another lies there; whether it lies there now. */
export function relay_slip(slip: HTMLElement): boolean {
  if (!open) {
    document.body.append(slip);
    open = slip;
  }
  return open === slip;
}

interface Lies {
  x: number;
  top: number | null; // else it grows upwards from
  bottom: number;
}

/** Beside what was tapped, where it hides least of what answers: the verdict, the questions, the rod. */
function place(slip: HTMLElement, at: DOMRect | null, is_block: boolean): void {
  if (innerWidth < 900 || !at) return;
  const { width, height: now } = slip.getBoundingClientRect();
  const height = slip.classList.contains('wide') ? Math.max(now, 420) : now; // an answer is to come
  const beside = [at.right + 14, at.left - 14 - width].filter((x) => x > 0 && x + width < innerWidth);
  const xs = beside.length > 0 ? beside : [Math.max(10, Math.min(at.left, innerWidth - width - 10))];
  const low = 112;
  const down = (x: number): Lies => ({ x, top: Math.max(10, at.top - 20), bottom: low });
  const up = (x: number): Lies => ({
    x,
    top: null,
    bottom: Math.max(low, Math.min(innerHeight - at.bottom - 20, innerHeight - 420)),
  });
  // What is low on the page has its slip grow upwards: an answer may be long.
  const is_low = (at.top + at.bottom) / 2 >= innerHeight * 0.45;
  const ways = (is_low ? [up, down] : [down, up]).flatMap((way) => xs.map(way));
  // Above the title block there is more of the paper than of the drawing.
  if (is_block) ways.unshift({ x: innerWidth - width - 24, top: 56, bottom: innerHeight - at.top + 10 });
  const shown = [...document.querySelectorAll('.verdict-box, .asks, .rod')].map((e) => e.getBoundingClientRect());
  const room = (lies: Lies) => innerHeight - lies.bottom - (lies.top ?? 10);
  const hidden = (lies: Lies) => {
    const top = lies.top ?? innerHeight - lies.bottom - height;
    const over = (r: DOMRect) => common(lies.x, width, r.left, r.width) * common(top, height, r.top, r.height);
    return shown.reduce((sum, r) => sum + over(r), 10 * width * Math.max(0, height - room(lies)));
  };
  const best = ways.reduce((a, b) => (hidden(b) < hidden(a) ? b : a));
  const { style } = slip;
  style.right = 'auto';
  style.left = `${best.x}px`;
  style.top = best.top === null ? 'auto' : `${best.top}px`;
  style.bottom = best.top === null ? `${best.bottom}px` : 'auto';
  style.maxHeight = `${room(best)}px`;
}

const common = (a: number, w: number, b: number, v: number) => Math.max(0, Math.min(a + w, b + v) - Math.max(a, b));

/** On a desk: beside what it speaks of, or above it, and above the verdict too. */
export function lay_beside(slip: HTMLElement, what: DOMRect, verdict: number): void {
  if (innerWidth < 900) return;
  const gap = 24;
  const beside = innerWidth - what.right - 2 * gap;
  const { style } = slip;
  style.right = 'auto';
  if (beside >= 340) {
    style.left = `${what.right + gap}px`;
    style.width = `${Math.min(beside, 580)}px`;
    style.bottom = 'auto';
    style.top = '56px';
    style.maxHeight = `${Math.max(220, verdict - 66)}px`;
    return;
  }
  style.left = `${gap}px`;
  style.bottom = 'auto';
  style.top = '10px';
  style.maxHeight = `${Math.max(240, what.top - gap)}px`;
}

/** A phone's keyboard lies over the page: the slip is lifted above it. What is enlarged by two fingers is not. */
function lift(): void {
  const seen = window.visualViewport;
  if (!seen) return;
  const hidden = seen.scale > 1.01 ? 0 : Math.max(0, innerHeight - seen.height - seen.offsetTop);
  document.documentElement.style.setProperty('--keyboard', `${Math.round(hidden)}px`);
}
window.visualViewport?.addEventListener('resize', lift);
window.visualViewport?.addEventListener('scroll', lift);

document.addEventListener('keydown', (e) => {
  if (e.key === 'Escape' && open) close_slip();
});
