// The plan: the top from above, what carries it dashed, machines that can be dragged, where one may stand.
import type { Hear } from './carried';
import { s, say, tappable } from './dom';
import { draggable } from './drag';
import { first_post, outline, path_of, type View } from './frame';
import { dimension, type Labels } from './marks';
import { ground, reach, weight, type Scene } from './scene';
import { written } from './lengths';
import type { MachineDrawn, Moved } from './types';

function hidden(view: View, scene: Scene): SVGElement {
  const group = s('g', {});
  const once = first_post();
  for (const solid of scene.picture.solids) {
    if (solid.of === 'sheet' || solid.of === 'foot') continue;
    const d = path_of(outline(solid.corners.map((c) => view.at(c))));
    const piece = s('g', { class: 'piece' }, s('path', { d, class: 'wide-hit' }), s('path', { d, class: 'hidden' }));
    tappable(piece, `${solid.part}: change it`, (e) => scene.tap({ kind: 'part', solid }, e));
    once(piece, solid);
    if (solid.of === 'bearer') {
      const x = (Math.min(...solid.corners.map((c) => c[0])) + Math.max(...solid.corners.map((c) => c[0]))) / 2;
      draggable(piece, {
        step: scene.imperial ? 0.0127 : 0.01,
        scale: view.scale,
        moved: (dx) => piece.setAttribute('transform', `translate(${dx * view.scale} 0)`),
        back: () => piece.removeAttribute('transform'),
        done: (dx) => scene.move_bearer(solid.part, x + dx),
      });
    }
    group.append(piece);
  }
  return group;
}

/** Hatched where the machine may not, or with care; white where it may. */
function load_plan(view: View, scene: Scene): SVGElement {
  const group = s('g', { 'aria-hidden': 'true' });
  const shown = scene.load_plan;
  const top = shown && ground(scene.picture, 'top');
  const way = shown?.plan.ways.find((w) => w.turned === shown.turned) ?? shown?.plan.ways[0];
  if (!shown || !top || !way) return group;
  const [dx, dy] = [shown.plan.length / shown.plan.nx, shown.plan.depth / shown.plan.ny];
  for (const spot of way.places) {
    const style = !spot.has_room ? 'noroom' : spot.stand;
    if (style === 'clear') continue;
    const [x, y] = [view.x(top.x[0] + spot.x - dx / 2), view.y(top.y[0] + spot.y + dy / 2)];
    group.append(
      s('rect', { x, y, width: dx * view.scale + 0.3, height: dy * view.scale + 0.3, class: `ground ${style}` }),
    );
  }
  return group;
}

function footprint(view: View, m: MachineDrawn): SVGElement {
  const [rx, ry] = reach(m);
  const [x, y] = view.at(m.at);
  const pad = m.pad * view.scale;
  const [w, d] = [2 * rx * view.scale, 2 * ry * view.scale];
  const pads = [
    [-1, -1],
    [1, -1],
    [-1, 1],
    [1, 1],
  ].map(([i = 0, j = 0]) =>
    s('rect', {
      x: x + (i * m.pads_x * view.scale) / 2 - pad / 2,
      y: y + (j * m.pads_y * view.scale) / 2 - pad / 2,
      width: pad,
      height: pad,
      class: 'thin',
    }),
  );
  const side = (l: number) => Math.max(l, 44);
  return s(
    'g',
    { class: 'machine standing' },
    s('rect', { x: x - side(w) / 2, y: y - side(d) / 2, width: side(w), height: side(d), class: 'hit' }),
    s('rect', { x: x - w / 2, y: y - d / 2, width: w, height: d, class: 'thick', rx: 1 }),
    ...pads,
    s('path', { d: `M${x - 5} ${y}h10M${x} ${y - 5}v10`, class: 'thin' }),
  );
}

/** In the core's words; where all is well how much the top gives there. */
function tell(text: SVGElement, moved: Moved, is_imperial: boolean): void {
  const { sag } = moved;
  const small = (v: number) => (is_imperial ? `${(v / 0.0254).toFixed(2)} in` : `${(v * 1000).toFixed(1)} mm`);
  const well = sag ? `the top sags ${small(sag.demand)}, ${small(sag.limit)} allowed` : 'it may stand here';
  const lines = moved.stand === 'clear' ? [well] : in_lines(moved.sentence, 44);
  const x = text.getAttribute('x') ?? '0';
  text.replaceChildren(...lines.map((line, i) => s('tspan', { x, dy: i === 0 ? 15 * (1 - lines.length) : 15 }, line)));
  text.classList.toggle('red', moved.stand === 'barred');
}

function in_lines(sentence: string, longest: number): string[] {
  const lines: string[] = [];
  for (const word of sentence.split(' ')) {
    const last = lines.at(-1);
    if (last !== undefined && last.length + word.length < longest) lines[lines.length - 1] = `${last} ${word}`;
    else lines.push(word);
  }
  return lines;
}

function machine(view: View, scene: Scene, m: MachineDrawn, index: number): SVGElement {
  const drawn = footprint(view, m);
  const top = ground(scene.picture, m.sheet);
  const [rx, ry] = reach(m);
  const tag = s('text', { class: 'drag-tag', 'text-anchor': 'middle' });
  const told = s('text', { class: 'drag-tag told', 'text-anchor': 'middle' });
  const grounds = s('g', { 'aria-hidden': 'true', class: 'carried' });
  drawn.append(tag, told);
  let over: [number, number] = [0, 0];
  const hear: Hear = ([x, y], [hx, hy], moved) => {
    if (Math.abs(x - over[0]) <= hx && Math.abs(y - over[1]) <= hy) tell(told, moved, scene.imperial);
    if (moved.stand !== 'care' && moved.stand !== 'barred') return;
    const [left, upper] = [view.x((top?.x[0] ?? 0) + x - hx), view.y((top?.y[0] ?? 0) + y + hy)];
    const [width, height] = [2 * hx * view.scale + 0.3, 2 * hy * view.scale + 0.3];
    grounds.append(s('rect', { x: left, y: upper, width, height, class: `ground ${moved.stand}` }));
  };
  /** Where its middle comes to lie, on the sheet. */
  const place = (dx: number, dy: number): [number, number] => {
    if (!top) return [m.at[0] + dx, m.at[1] + dy];
    const keep = (v: number, [a, b]: [number, number], r: number) =>
      Math.min(Math.max(v, a + Math.min(r, (b - a) / 2)), b - Math.min(r, (b - a) / 2));
    return [keep(m.at[0] + dx, top.x, rx), keep(m.at[1] + dy, top.y, ry)];
  };
  const words = ([x, y]: [number, number]) =>
    `${written(x - (top?.x[0] ?? 0), scene.imperial)} from the left, ${written(y - (top?.y[0] ?? 0), scene.imperial)} from the front`;
  draggable(drawn, {
    step: scene.imperial ? 0.0127 : 0.01,
    scale: view.scale,
    moved: (dx, dy) => {
      const to = place(dx, dy);
      drawn.setAttribute(
        'transform',
        `translate(${((to[0] - m.at[0]) * view.scale).toFixed(1)} ${(-(to[1] - m.at[1]) * view.scale).toFixed(1)})`,
      );
      const [x, y] = view.at(m.at);
      tag.setAttribute('x', String(x));
      tag.setAttribute('y', String(y - ry * view.scale - 8));
      told.setAttribute('x', String(x));
      told.setAttribute('y', String(y - ry * view.scale - 24)); // a finger covers what is below
      if (!grounds.isConnected) drawn.before(grounds);
      over = [to[0] - (top?.x[0] ?? 0), to[1] - (top?.y[0] ?? 0)];
      told.replaceChildren();
      scene.carry(m, over, hear);
      tag.textContent = `${written(to[0] - (top?.x[0] ?? 0), scene.imperial)}, ${written(to[1] - (top?.y[0] ?? 0), scene.imperial)}`;
    },
    back: () => {
      drawn.removeAttribute('transform');
      tag.textContent = told.textContent = '';
      grounds.replaceChildren();
      scene.let_go();
    },
    done: (dx, dy) => {
      const to = place(dx, dy);
      say(`${m.name}: ${words(to)}`);
      scene.move(m, to);
    },
  });
  return tappable(
    drawn,
    `${m.name}, ${weight(m.mass, scene.imperial)}, ${words([m.at[0], m.at[1]])}: arrow keys move it, Enter changes it`,
    (e) => scene.tap({ kind: 'machine', machine: m, index }, e),
    `${m.name} on the plan`,
  );
}

/** Of the floor: hatched inside its edge alone, for what stands on the top is not meant. */
function keep_off(x1: number, x2: number, y1: number, y2: number): SVGElement {
  const edge = 5;
  const inner = `M${x1 + edge} ${y1 + edge}H${x2 - edge}V${y2 - edge}H${x1 + edge}Z`;
  const outer = `M${x1} ${y1}H${x2}V${y2}H${x1}Z`;
  return s(
    'g',
    {},
    s('path', { d: `${outer}${inner}`, class: 'off-edge', 'fill-rule': 'evenodd' }),
    s('path', { d: outer, class: 'off dashed' }),
  );
}

/** Along the back, with what lies behind it hatched. */
function wall(view: View, scene: Scene, labels: Labels): SVGElement {
  if (!scene.wall) return s('g', {});
  const [x1, x2, y] = [view.left - 12, view.right + 12, view.top - 3];
  labels.put('screwed to the wall', view.right - 30, view.top + 34, 'small', 'end', 14);
  return s(
    'g',
    { class: 'wall' },
    s('rect', { x: x1, y: y - 8, width: x2 - x1, height: 8, class: 'wall-hatch' }),
    s('line', { x1, x2, y1: y, y2: y, class: 'floor' }),
  );
}

/** A post is thin on a phone, and its ends lie under joints: its foot is easily hit. */
function feet_to_tap(view: View, scene: Scene, r: number): SVGElement {
  const posts = scene.picture.solids.filter((p) => p.of === 'post');
  const held = s('g', {});
  for (const foot of scene.picture.feet) {
    const solid = posts.find((p) => p.part === foot.name) ?? posts[0];
    const [cx, cy] = view.at([foot.x, foot.y, 0]);
    if (!solid) continue;
    const target = s('g', { class: 'foot-hit' }, s('circle', { cx, cy, r, class: 'hit' }));
    tappable(target, `${foot.name} and its foot: change it`, (e) => scene.tap({ kind: 'part', solid }, e));
    target.setAttribute('tabindex', '-1'); // the post itself is a stop
    held.append(target);
  }
  return held;
}

export function plan_view(view: View, scene: Scene, labels: Labels, with_depth: boolean): SVGElement {
  const group = s('g', { class: scene.load_plan ? 'view plan-view hatched' : 'view plan-view' });
  const lift = scene.wall ? 10 : 0; // px: what is written along the back stands clear of the wall
  for (const solid of scene.picture.solids.filter(
    (p) => p.of === 'sheet' && p.part !== 'shelf' && Math.abs(p.corners[0]![2] - p.corners[4]![2]) < 0.2,
  )) {
    if (solid.part !== 'top' && scene.picture.solids.some((p) => p.part === 'top')) continue;
    const d = path_of(outline(solid.corners.map((c) => view.at(c))));
    group.append(
      tappable(s('g', { class: 'piece' }, s('path', { d, class: 'seen' })), `${solid.part}: change it`, (e) =>
        scene.tap({ kind: 'part', solid }, e),
      ),
    );
  }
  group.append(load_plan(view, scene), hidden(view, scene));
  for (const strip of scene.keep_off) {
    const clip = (a: number, [lo, hi]: [number, number]) => Math.min(Math.max(a, lo), hi);
    const [x1, x2] = strip.x.map((x) => view.x(clip(x, view.extent.u)));
    const [y1, y2] = strip.y.map((y) => view.y(clip(y, view.extent.v)));
    group.append(keep_off(x1, x2, Math.min(y1, y2), Math.max(y1, y2)));
    const middle = (x1 + x2) / 2;
    const name = view.width > 420 ? 'no foot of the bench here; machines may stand above' : 'no foot of the bench';
    const half = name.length * 3.2;
    const y = Math.min(y1, y2) - lift;
    const words = s(
      'g',
      {},
      s('rect', { x: middle - half, y: y - 26, width: 2 * half, height: 44, class: 'hit' }),
      s('text', { x: middle, y: y - 6, class: 'strip-name', 'text-anchor': 'middle' }, name),
    );
    group.append(
      tappable(words, 'no foot of the bench here; machines may stand above: change it', (e) => scene.tap({ kind: 'strip', strip }, e)),
    );
    labels.block({ x: middle - half, y: y - 16, w: 2 * half, h: 13 });
  }
  group.append(wall(view, scene, labels));
  for (const foot of scene.picture.feet) {
    const [x, y] = view.at([foot.x, foot.y, 0]);
    const front_row = foot.y < (view.extent.v[0] + view.extent.v[1]) / 2;
    group.append(
      s('circle', { cx: x, cy: y, r: 6, class: 'foot-ring' }),
      s('circle', { cx: x, cy: y, r: 1.5, class: 'dot' }),
    );
    if (foot.mean !== null)
      labels.put(
        weight(foot.mean / 9.80665, scene.imperial),
        x,
        front_row ? view.bottom + 15 : view.top - 6 - lift,
        'fig',
        'middle',
        front_row ? 14 : -14,
      );
  }
  group.append(feet_to_tap(view, scene, labels.right < 600 ? 22 : 13));
  // The larger first, so that the smaller can still be taken hold of.
  scene.picture.machines
    .map((m, i) => ({ m, i }))
    .sort((a, b) => b.m.pads_x * b.m.pads_y - a.m.pads_x * a.m.pads_y)
    .filter(({ m }) => m.sheet === 'top' || !scene.picture.solids.some((p) => p.part === 'top'))
    .forEach(({ m, i }) => group.append(machine(view, scene, m, i)));
  if (with_depth && scene.dimensions) {
    const depth = scene.dimensions.depth;
    const top = ground(scene.picture, 'top');
    group.append(
      dimension(
        [view.left - 26, view.y(top?.y[0] ?? 0)],
        [view.left - 26, view.y(top?.y[1] ?? 1)],
        depth,
        `depth ${depth}: type another`,
        (e) => scene.tap({ kind: 'dimension', which: 'depth' }, e),
      ),
    );
  }
  labels.put(
    scene.load_plan ? 'plan: blank may, crossed may not' : 'plan, the front below',
    (view.left + view.right) / 2,
    view.bottom + 15,
    'small',
    'middle',
    14,
  );
  group.append(stored(view, scene, labels));
  return group;
}

/** Part of every answer, though nothing of it is drawn. */
function stored(view: View, scene: Scene, labels: Labels): SVGElement {
  const middle = (view.left + view.right) / 2;
  const is_long = scene.stored.length * 6.2 > labels.right - 40;
  const lines = is_long ? scene.stored.split(/(?<=,) (?=\S+ .*on the shelf)/) : [scene.stored];
  const held = s('g', {});
  lines.forEach((line, i) => {
    const text = labels.put(line, middle, view.bottom + 32 + 15 * i, 'stored', 'middle', 14);
    const [x, y] = [Number(text.getAttribute('x')), Number(text.getAttribute('y'))];
    const w = line.length * 6.4;
    held.append(s('rect', { x: x - w / 2, y: y - 20, width: w, height: 44, class: 'hit' }), text);
  });
  return tappable(held, `${scene.stored}: change it`, (e) => scene.tap({ kind: 'stored' }, e));
}
