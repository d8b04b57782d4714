// The sheet of paper: which views it shows, how large, where.
import { s } from './dom';
import { elevation } from './elevation';
import { extent, front, left_end, plan, View, type Looks } from './frame';
import { instrument } from './instruments';
import { Labels } from './marks';
import { plan_view } from './plan_view';
import { all_places, type Scene } from './scene';
import { tappable } from './dom';
import type { Place } from './types';

export type Face = 'sheet' | 'front' | 'end' | 'plan' | 'solid' | 'file';
export const margin = { left: 66, top: 40, between: 96, right: 76, dim: 64, low: 46 };
export interface Laid {
  views: View[];
  width: number;
  height: number;
  free: { x: number; y: number } | null;
  notes: number;
}

/** What is far too small for it is drawn all the same, and runs over. */
const positive = (...scales: number[]): number => Math.max(8, Math.min(...scales)); // px/m

/** All that a view must have room for, machines too. */
function places(scene: Scene): Place[] {
  return [
    ...all_places(scene.picture),
    [0, 0, 0],
    ...scene.picture.machines.map((m): Place => [m.at[0], m.at[1], m.at[2] + m.height]),
  ];
}

/** `block`: how high the title block is, below the end view. */
export function lay_out(
  scene: Scene,
  face: Face,
  width: number,
  height: number,
  narrow: boolean,
  block = 236,
): Laid {
  const all = places(scene);
  const bench = all_places(scene.picture);
  const tall = (looks: Looks) => ({ ...extent(looks, bench), v: extent(looks, all).v });
  const [f, e, p] = [tall(front), tall(left_end), extent(plan, bench)];
  const of = (r: [number, number]) => r[1] - r[0];
  // The string is drawn above the top: over an empty bench it wants room of its own.
  const head = of(f.v) > of(extent(front, bench).v) ? margin.top : margin.top + 36;
  const left = narrow ? 58 : margin.left;
  const right = narrow ? 34 : margin.right;
  const one = (looks: Looks, x: { u: [number, number]; v: [number, number] }): Laid => {
    // Below a plan there are words alone, below the others a dimension.
    const [above, under] = looks === plan && narrow ? [34, 42] : [head, margin.dim];
    const scale = positive(
      (width - left - right - (narrow ? 0 : 40)) / of(x.u),
      (height - above - under - 20) / of(x.v),
    );
    const from = narrow ? left + (width - left - right - of(x.u) * scale) / 2 : (width - of(x.u) * scale) / 2;
    const spare = Math.max(0, (height - above - under - of(x.v) * scale) / 2);
    const below = above + of(x.v) * scale + spare;
    return { views: [new View(looks, x, from, below, scale)], width, height, free: null, notes: 0 };
  };
  if (face === 'front') return one(front, f);
  if (face === 'end') return one(left_end, e);
  if (face === 'plan') return one(plan, p);
  const across = narrow ? of(f.u) : of(f.u) + of(e.u);
  const gaps = narrow ? left + right : left + margin.between + right;
  const behind = scene.wall ? 14 : 0; // a wall, drawn behind the plan
  const upright = head + margin.dim + behind + margin.low + (narrow ? 38 : 0); // on a phone the sheet's corner lies below the plan
  const scale = positive(
    (width - gaps) / across,
    (height - upright) / (of(f.v) + of(p.v)),
    (height - head - margin.dim - (narrow ? 0 : block)) / of(f.v),
  );
  const spare = narrow ? (width - gaps - across * scale) / 2 : Math.min(30, (width - gaps - across * scale) / 3);
  const floor = head + of(f.v) * scale;
  const below = floor + margin.dim + behind + (narrow ? 16 : 0) + of(p.v) * scale;
  const x = left + spare;
  const views = [new View(front, f, x, floor, scale), new View(plan, p, x, below, scale)];
  const end_at = x + of(f.u) * scale + margin.between;
  if (!narrow) views.push(new View(left_end, e, end_at, floor, scale));
  // To the right of the end view, and of its bob with words: room for the draughtsman's notes.
  const notes = narrow ? 0 : width - (end_at + of(e.u) * scale + 225);
  return {
    views,
    width,
    height,
    notes,
    free: narrow ? null : { x: x + of(f.u) * scale + margin.between * 0.55, y: floor + margin.dim },
  };
}

function wrapped(text: string, most: number): string[] {
  const lines: string[] = [];
  for (const word of text.split(' ')) {
    const last = lines[lines.length - 1];
    if (last !== undefined && last.length + word.length < most) lines[lines.length - 1] = `${last} ${word}`;
    else lines.push(word);
  }
  return lines;
}

/** In the open of the front, between its rails, each with a lead to where it belongs. */
function pencil_notes(laid: Laid, scene: Scene): SVGElement {
  const group = s('g', { class: 'pencil-notes' });
  const view = laid.views.find((v) => v.looks.name === 'front');
  if (!view) return group;
  const middle = (view.left + view.right) / 2;
  let y = view.at([0, 0, scene.picture.height * 0.78])[1] + 8;
  for (const note of scene.notes) {
    const lines = [...wrapped(note.text, view.width / 7.6), ...wrapped(note.then, view.width / 7.6)];
    const from = y - 14;
    const text = s(
      'text',
      { class: 'pencil-note', 'text-anchor': 'middle' },
      ...lines.map((line, i) => s('tspan', { x: middle, y: y + 15 * i }, line)),
    );
    const [x, to] = view.at(note.at);
    y += 15 * lines.length + 12;
    const width = Math.max(...lines.map((l) => l.length)) * 7;
    const held = s(
      'g',
      {},
      s('rect', { x: middle - width / 2, y: from - 4, width, height: Math.max(44, y - from - 4), class: 'hit' }),
      s('rect', { x: middle - width / 2, y: from, width, height: y - from - 10, class: 'note-ground' }),
      s('path', {
        d: `M${middle + (x > middle ? width / 2 + 4 : -width / 2 - 4)} ${from + 10}L${x} ${to}`,
        class: 'pencil-lead',
      }),
      text,
    );
    group.append(tappable(held, `${note.text}, ${note.then}: accept`, note.accept));
  }
  return group;
}

export function draw_sheet(scene: Scene, laid: Laid): SVGElement {
  const svg = s('svg', {
    width: laid.width,
    height: laid.height,
    viewBox: `0 0 ${laid.width} ${laid.height}`,
    role: 'group',
    'aria-label': 'Drawing of the bench: what can be changed can be tapped',
    class: 'drawing',
  });
  const words = s('g', { class: 'words' });
  const labels = new Labels(words, laid.width);
  const alone = laid.views.length === 1;
  const narrow = laid.views.length === 2;
  const room = (view: View) => (view.looks.name === 'front' && !alone ? 0 : laid.width - view.right);
  const drawn = laid.views.map((view) =>
    s(
      'g',
      {},
      view.looks.name === 'plan' ? plan_view(view, scene, labels, alone || narrow) : elevation(view, scene, labels),
      instrument(view, scene, room(view), labels),
    ),
  );
  svg.append(...drawn, words, pencil_notes(laid, scene));
  return svg;
}
