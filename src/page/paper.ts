// The paper as it lies on the page: the drawing or the file, the title block, and room enough for both.
import type { Bench } from './bench';
import { h, s } from './dom';
import type { Scene } from './scene';
import { draw_sheet, lay_out, type Face, type Laid } from './sheet';
import { solid_view } from './solid';
import { Steady } from './steady';
import { notes_block } from './title_block';
import { face_names, faces } from './tools';

const beside = 378; // px: the title block where it stands beside the drawing
const readable = 170; // px: a front view is no lower

export interface Paper {
  face: Face;
  scene: Scene | null;
  narrow: boolean;
  block: HTMLElement;
  notes: string; // the core's page
  nothing: string; // said where there is no scene
  turn: { yaw: number; pitch: number };
  turn_to: (face: Face) => void;
  above: number | null; // px: on a phone, where a slip begins that speaks of the drawing
}

function file_face(bench: Bench): HTMLElement {
  const area = h('textarea', { spellcheck: 'false', 'aria-label': 'the bench file', wrap: 'off' });
  area.value = bench.text;
  let timer = 0;
  area.addEventListener('input', () => {
    clearTimeout(timer);
    timer = setTimeout(() => bench.set(area.value), 700);
  });
  return h('div', { class: 'file-face' }, h('h2', {}, bench.name), area);
}

function corner({ face, turn_to }: Paper): HTMLElement {
  const next = faces[(faces.indexOf(face) + 1) % faces.length]!;
  return h(
    'button',
    {
      type: 'button',
      class: 'corner',
      'data-key': 'corner',
      'aria-label': `turn the sheet over, to ${face_names[next]}`,
      onclick: () => turn_to(next),
    },
    s(
      'svg',
      { viewBox: '0 0 48 48', width: 48, height: 48, 'aria-hidden': 'true' },
      s('path', { d: 'M0 48L48 0V48Z', class: 'cut' }),
      s('path', { d: 'M0 48L48 0L9 9Z', class: 'flap' }),
    ),
  );
}

/** Below its least height the paper keeps it, and the page scrolls. */
function keep_height(page: HTMLElement, box: HTMLElement, least: number): void {
  if (box.clientHeight >= least) return;
  page.classList.add('scrolls');
  box.style.height = `${least}px`;
}

const for_block = new Steady(); // px, below the end view

/** All three views, as large as leaves room for the title block below the end view. */
function whole_sheet(page: HTMLElement, box: HTMLElement, of: Paper, now: Scene): void {
  const { block } = of;
  const fit = (): Laid => {
    for (let low = Math.max(236, for_block.room); ; low += 20) {
      const laid = lay_out(now, 'sheet', box.clientWidth, box.clientHeight, false, low);
      const { x, y } = laid.free ?? { x: 0, y: 0 };
      block.style.left = `${Math.min(x, box.clientWidth - beside)}px`;
      block.style.top = `${y}px`;
      // How high it is depends on how broad it may be, and that on how large the views are.
      const is_enough = y + block.offsetHeight <= box.clientHeight - 6;
      if (is_enough) for_block.keep(low);
      if (is_enough || low > 420) return laid;
    }
  };
  let laid = fit();
  const missing = readable - (laid.views[0]?.height ?? readable);
  if (missing > 0) {
    keep_height(page, box, box.clientHeight + Math.ceil(missing * 1.6)); // the plan grows with it
    laid = fit();
  }
  box.append(draw_sheet(now, laid), notes_block(of.notes, laid.notes) ?? '');
}

export function lay_paper(page: HTMLElement, box: HTMLElement, bench: Bench, of: Paper): void {
  const { face, scene, narrow } = of;
  // A keyboard comes to the questions before it goes through the drawing part by part.
  if (!narrow) box.append(of.block);
  const hint = box.querySelector<HTMLElement>('.hint');
  const taken = narrow ? (hint?.offsetHeight ?? 0) : 0;
  if (of.above !== null) box.style.height = `${Math.max(160, of.above - box.getBoundingClientRect().top - 8)}px`;
  else if (narrow) keep_height(page, box, taken + Math.min(Math.max(380, box.clientWidth * 0.72), 560));
  else if (face !== 'sheet') keep_height(page, box, 420);
  if (face === 'file') box.append(file_face(bench));
  else if (!scene) box.append(h('p', { class: 'loading' }, of.nothing));
  else if (face === 'sheet' && !narrow) whole_sheet(page, box, of, scene);
  else {
    const [width, height] = [box.clientWidth - (narrow ? 0 : beside), box.clientHeight - taken];
    box.append(
      face === 'solid'
        ? solid_view(scene, width, height, of.turn, () => undefined)
        : draw_sheet(scene, lay_out(scene, face, width, height, narrow)),
    );
  }
  box.append(corner(of));
}

/** For paper that lies and for paper that stands: which of them it is only the printed page knows. */
export function on_paper(scene: Scene, face: Face): Element[] {
  const drawn = (width: number, height: number, which: string) => {
    const drawing =
      face === 'solid'
        ? solid_view(scene, width, height, { yaw: 0.55, pitch: 0.32 }, () => undefined)
        : draw_sheet(scene, lay_out(scene, face === 'file' ? 'sheet' : face, width, height, false, 0));
    return h('div', { class: which }, drawing);
  };
  // px: A4 within its margins, and what title block and rod leave of its height
  return [drawn(1040, 470, 'lying'), drawn(718, 620, 'upright')];
}
