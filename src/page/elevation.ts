// Front and left end: what stands, and the machines in outline.
import { s, tappable } from './dom';
import { first_post, outline, painted_order, path_of, type View } from './frame';
import { dimension, type Labels } from './marks';
import { ground, reach, weight, type Scene } from './scene';
import type { JointDrawn, Place } from './types';

function pieces(view: View, scene: Scene): SVGElement {
  const group = s('g', {});
  const once = first_post();
  for (const solid of painted_order(view.looks, scene.picture.solids)) {
    const d = path_of(outline(solid.corners.map((c) => view.at(c))));
    const piece = s(
      'g',
      { class: `piece ${solid.of}` },
      s('path', { d, class: 'wide-hit' }),
      s('path', { d, class: 'seen' }),
    );
    group.append(tappable(piece, `${solid.part}: change it`, (e) => scene.tap({ kind: 'part', solid }, e)));
    once(piece, solid);
  }
  return group;
}

/** Between its joints a post is easily hit, however thin it is drawn. */
function posts_to_tap(view: View, scene: Scene): SVGElement {
  const held = s('g', {});
  const seen = new Set<number>();
  for (const solid of painted_order(view.looks, scene.picture.solids.filter((p) => p.of === 'post')).reverse()) {
    const [xs, ys] = [0, 1].map((i) => solid.corners.map((c) => view.at(c)[i]!)) as [number[], number[]];
    const [left, right, top, low] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
    const middle = Math.round((left + right) / 2);
    if (seen.has(middle)) continue;
    seen.add(middle);
    const [width, height] = [Math.max(right - left, 44), (low - top) * 0.4];
    const target = s(
      'g',
      {},
      s('rect', { x: middle - width / 2, y: top + (low - top) * 0.3, width, height, class: 'hit' }),
    );
    tappable(target, `${solid.part}: change it`, (e) => scene.tap({ kind: 'part', solid }, e));
    target.setAttribute('tabindex', '-1'); // the post itself is a stop
    held.append(target);
  }
  return held;
}

/** Joints that lie behind one another are one ring: the nearest. Where rings meet, that under the pointer wins. */
function joints(view: View, scene: Scene): SVGElement {
  const nearest = new Map<string, JointDrawn>();
  for (const joint of scene.picture.joints) {
    const [x, y] = view.at(joint.at);
    const name = `${Math.round(x / 9)} ${Math.round(y / 9)}`;
    const other = nearest.get(name);
    if (!other || view.looks.away(joint.at) < view.looks.away(other.at)) nearest.set(name, joint);
  }
  const rings = [...nearest.values()];
  const off = (joint: JointDrawn, [x, y]: [number, number]) => {
    const at = view.at(joint.at);
    return Math.hypot(at[0] - x, at[1] - y);
  };
  const group = s('g', {});
  for (const joint of rings) {
    const [x, y] = view.at(joint.at);
    const ring = s(
      'g',
      { class: joint.released ? 'joint off' : 'joint' },
      s('circle', { cx: x, cy: y, r: 15, class: 'hit' }),
      s('circle', { cx: x, cy: y, r: 4 }),
    );
    const tap = (e: Event) => {
      const at = pointer_on(ring, e) ?? [x, y];
      const meant = [...rings].sort((a, b) => off(a, at) - off(b, at))[0] ?? joint;
      // What lies on the same spot, near the eye: a rail and its neighbour round the corner, not the far side's.
      const deep = view.looks.away(meant.at);
      const also = scene.picture.joints.filter(
        (j) => j !== meant && off(j, view.at(meant.at)) < 9 && Math.abs(view.looks.away(j.at) - deep) < 0.15,
      );
      scene.tap({ kind: 'joint', joint: meant, also }, e);
    };
    group.append(tappable(ring, `joint, ${joint.name}: ${joint.kind}`, tap));
  }
  return group;
}

/** Where on the drawing, in px of its own; null of a key. */
function pointer_on(node: SVGElement, e: Event): [number, number] | null {
  const box = node.ownerSVGElement?.getBoundingClientRect();
  if (!box || !(e instanceof MouseEvent) || e.detail === 0) return null;
  return [e.clientX - box.left, e.clientY - box.top];
}

function machines(view: View, scene: Scene, labels: Labels): SVGElement {
  const group = s('g', {});
  const names: (() => void)[] = []; // once it is known what is in their way
  const along = view.looks.name === 'front';
  scene.picture.machines.forEach((m, index) => {
    const half = reach(m)[along ? 0 : 1];
    const [x, y] = view.at(m.at);
    const top = view.at([m.at[0], m.at[1], m.at[2] + m.height])[1];
    const w = 2 * half * view.scale;
    const [cx, cy] = view.at(m.centre_of_mass);
    const drawn = s(
      'g',
      { class: 'machine' },
      s('rect', { x: x - w / 2, y: top, width: w, height: y - top, class: 'phantom' }),
      s('circle', { cx, cy, r: 5, class: 'thin' }),
      s('path', { d: `M${cx - 8} ${cy}h16M${cx} ${cy - 8}v16`, class: 'thin' }),
    );
    const tap = (e: Event): void => scene.tap({ kind: 'machine', machine: m, index }, e);
    group.append(tappable(drawn, `${m.name}, ${weight(m.mass, scene.imperial)}: change it`, tap));
    labels.block({ x: x - w / 2, y: top, w, h: y - top });
    if (!along) return;
    names.push(() => {
      const name = labels.put_by(`${m.name}, ${weight(m.mass, scene.imperial)}`, x, w / 2, top - 5, 'name');
      name.classList.add('handle'); // who aims at the words means the machine
      name.addEventListener('click', (e) => {
        e.stopPropagation();
        tap(e);
      });
    });
  });
  for (const name of names) name();
  return group;
}

function floor(view: View, scene: Scene): SVGElement {
  const y = view.at([0, 0, 0] as Place)[1];
  const group = s('g', {}, s('line', { x1: view.left - 14, x2: view.right + 14, y1: y, y2: y, class: 'floor' }));
  for (const strip of scene.keep_off) {
    const [a, b] = view.looks.name === 'front' ? strip.x : [-strip.y[1], -strip.y[0]];
    const [x1, x2] = [Math.max(view.x(a), view.left), Math.min(view.x(b), view.right)];
    group.append(
      s('path', {
        d: `M${x1} ${y}H${x2}V${y + 7}H${x1}Z`,
        class: 'off-edge',
      }),
    );
  }
  return group;
}

/** Behind the back, seen on edge. */
function wall(view: View, scene: Scene): SVGElement {
  if (!scene.wall || view.looks.name === 'front') return s('g', {});
  const [x, y] = [view.left - 3, view.at([0, 0, 0])[1]];
  const top = view.at([0, 0, scene.picture.height])[1] - 18;
  return s(
    'g',
    { class: 'wall' },
    s('rect', { x: x - 8, y: top, width: 8, height: y - top, class: 'wall-hatch' }),
    s('line', { x1: x, x2: x, y1: top, y2: y, class: 'floor' }),
    s('text', { x: x - 10, y: top - 6, class: 'small', 'text-anchor': 'middle' }, 'wall'),
  );
}

export function elevation(view: View, scene: Scene, labels: Labels): SVGElement {
  const group = s(
    'g',
    { class: 'view' },
    floor(view, scene),
    wall(view, scene),
    machines(view, scene, labels),
    pieces(view, scene),
    posts_to_tap(view, scene),
    joints(view, scene),
  );
  const is_front = view.looks.name === 'front';
  const y = view.at([0, 0, 0])[1];
  const sizes = scene.dimensions;
  const top = ground(scene.picture, 'top');
  const ends = top
    ? [
        [top.x[0], top.y[1], 0],
        [top.x[1], top.y[0], 0],
      ].map((p) => view.at(p as Place)[0])
    : [view.left, view.right];
  const lie: [[number, number], [number, number]] = [
    [ends[0]!, y + 44],
    [ends[1]!, y + 44],
  ];
  if (sizes) {
    const which = is_front ? 'length' : 'depth';
    group.append(
      dimension(...lie, sizes[which], `${which} ${sizes[which]}: type another`, (e) =>
        scene.tap({ kind: 'dimension', which }, e),
      ),
    );
    if (is_front) {
      const height = view.at([0, 0, scene.picture.height])[1];
      group.append(
        dimension(
          [view.left - 26, y],
          [view.left - 26, height],
          sizes.height,
          `height ${sizes.height}: type another`,
          (e) => scene.tap({ kind: 'dimension', which: 'height' }, e),
        ),
      );
    }
  }
  group.append(
    s(
      'text',
      { x: (view.left + view.right) / 2, y: y + 20, class: 'small', 'text-anchor': 'middle' },
      is_front ? 'front' : 'left end',
    ),
  );
  if (!is_front) {
    group.append(
      s('text', { x: view.left, y: y + 20, class: 'small', 'text-anchor': 'middle' }, 'back'),
      s('text', { x: view.right, y: y + 20, class: 'small', 'text-anchor': 'middle' }, 'front'),
    );
  }
  return group;
}
