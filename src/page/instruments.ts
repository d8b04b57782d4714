// The shop's own instrument for each line of the rod, on the drawing: string, bobs, sticks, level, rings.
import { s } from './dom';
import type { View } from './frame';
import { known } from './rod';
import type { Labels } from './marks';
import { ground, type Line, type Scene } from './scene';
import type { Place } from './types';

const allowed = 26; // px that stand for what is allowed; nothing is drawn further than three times that

const far = (ratio: number): number => Math.min(ratio, 3) * allowed;
const span = (line: Line): [number, number] => {
  const r = known([line.finding.ratio.low, line.finding.ratio.soft, line.finding.ratio.mean, line.finding.ratio.stiff]);
  return r.length > 0 ? [Math.min(...r), Math.max(...r)] : [0, 0];
};
const text = (x: number, y: number, words: string, over: boolean, anchor = 'start') =>
  s('text', { x, y, class: over ? 'fig red' : 'fig blue', 'text-anchor': anchor }, words);
const is_over = (line: Line) => line.finding.judgement === 'exceeded' || line.finding.judgement === 'depends';

function string_line(view: View, scene: Scene, line: Line, labels: Labels): SVGElement {
  const group = s('g', { class: 'instrument' });
  const drawn = scene.picture.string;
  if (!drawn || view.looks.name !== 'front') return ring(view, scene, line);
  const z = scene.picture.height;
  const y = view.at([0, 0, z])[1] - 46;
  const [a, b] = [view.left, view.right];
  const most = Math.max(drawn.most, 1e-6);
  const deep = far(span(line)[1]) / most;
  const sagged = drawn.below
    .map(([x, below], i) => `${i === 0 ? 'M' : 'L'}${view.x(x).toFixed(1)} ${(y + below * deep).toFixed(1)}`)
    .join('');
  const mid = view.x(drawn.most_at);
  group.append(
    s('path', { d: `M${a} ${y + 46}V${y}H${b}V${y + 46}`, class: 'string' }),
    s('path', { d: sagged, class: 'sagged' }),
    s('path', { d: `M${mid - 16} ${y + allowed - 1.5}h32M${mid - 16} ${y + allowed + 1.5}h32`, class: 'knife' }),
  );
  labels.put_by(`string: ${line.words}`, (a + b) / 2, (b - a) / 2, y - 5, is_over(line) ? 'fig red' : 'fig blue', false);
  return group;
}

function bob(view: View, scene: Scene, line: Line, room: number): SVGElement {
  const along = line.finding.id.includes('along');
  if (view.looks.name !== (along ? 'front' : 'left end')) return s('g', {});
  const [, top] = view.at([0, 0, scene.picture.height]);
  const floor = view.at([0, 0, 0])[1];
  const x = view.right + 20;
  const [least, most] = span(line);
  const aside = x + 14 + far(most) * 0.5;
  return s(
    'g',
    { class: 'instrument' },
    s('path', { d: `M${x} ${top}V${floor - 14}`, class: 'string' }),
    s('path', { d: `M${x - 4} ${floor - 16}h8l-4 14z`, class: 'bobweight' }),
    s('path', { d: `M${x} ${top}L${x + far(least)} ${floor}L${x + far(most)} ${floor}Z`, class: 'swept' }),
    s('path', { d: `M${x + allowed - 1.5} ${floor - 8}v16M${x + allowed + 1.5} ${floor - 8}v16`, class: 'knife' }),
    ...(room > 150
      ? [
          text(aside, top + 24, `plumb bob: sways`, is_over(line)),
          ...line.words
            .split(/, | at /)
            .map((w, i) => text(aside, top + 40 + 15 * i, i === 1 ? `at ${w}` : w, is_over(line))),
        ]
      : [text(x - 4, top - 7, room > 84 ? 'plumb bob' : 'bob', is_over(line))]),
  );
}

/** The machine of a finding, by its name; else where it stands lowest. */
function about(scene: Scene, line: Line): Place {
  const named = scene.picture.machines.find((m) => line.finding.place.includes(m.name));
  return scene.picture.findings[line.finding.id] ?? named?.at ?? [scene.picture.length / 2, 0, scene.picture.height];
}

function ring(view: View, scene: Scene, line: Line): SVGElement {
  const [x, y] = view.at(about(scene, line));
  return s(
    'g',
    { class: 'instrument' },
    s('circle', { cx: x, cy: y, r: 15, class: is_over(line) ? 'balloon red-line' : 'balloon' }),
    s('path', { d: `M${x - 4} ${y}h8M${x} ${y - 4}v8`, class: 'knife' }),
  );
}

function fork_rings(view: View, scene: Scene, line: Line): SVGElement {
  const [x, y] = view.at(about(scene, line));
  const group = s('g', { class: 'instrument' });
  const [least, most] = span(line);
  for (let r = 1; r <= 6; ++r) {
    const ratio = r / 2;
    const style = ratio <= Math.max(least, 0.4) ? 'string' : ratio <= most ? 'sagged' : '';
    if (style) group.append(s('circle', { cx: x, cy: y, r: r * 11, class: style }));
  }
  group.append(
    s('circle', { cx: x, cy: y, r: 23, class: 'knife' }),
    s('circle', { cx: x, cy: y, r: 21, class: 'knife' }),
  );
  return group;
}

function sticks(view: View, scene: Scene, line: Line): SVGElement {
  const m = scene.picture.machines.find((o) => line.finding.place.includes(o.name)) ?? scene.picture.machines[0];
  if (!m || view.looks.name !== 'plan') return s('g', {});
  const group = s('g', { class: 'instrument' });
  const twist = Math.min((line.finding.ratio.mean ?? 0.5) * 8, 24);
  [-1, 1].forEach((side) => {
    const [x, y] = view.at([m.at[0] + (side * m.pads_x) / 2, m.at[1], m.at[2]]);
    const turn = side > 0 ? twist : 0;
    group.append(
      s('rect', {
        x: x - 3,
        y: y - 42,
        width: 6,
        height: 84,
        class: 'stick-edge',
        transform: `rotate(${turn} ${x} ${y})`,
      }),
      s('path', { d: `M${x} ${y - 42}V${y + 42}`, class: 'string', transform: `rotate(${turn} ${x} ${y})` }),
    );
  });
  return group;
}

function arrow(view: View, scene: Scene, line: Line, z: number): SVGElement {
  if (view.looks.name === 'plan') return s('g', {});
  const y = view.at([0, 0, z])[1] - (z > 0.1 ? 10 : 0); // clear of the slash of the height
  const x = view.left - 14;
  return s(
    'g',
    { class: 'instrument' },
    s('path', { d: `M${x - 34} ${y}H${x}m-9 -5l9 5l-9 5`, class: is_over(line) ? 'push red-line' : 'push' }),
    z > 0
      ? s('path', {
          d: `M${view.right - 8} ${view.at([0, 0, scene.picture.height])[1] - 10}a60 60 0 0 1 34 40`,
          class: 'sagged',
        })
      : null,
  );
}

function level(view: View, scene: Scene): SVGElement {
  if (view.looks.name === 'plan') return s('g', {});
  const group = s('g', { class: 'instrument' });
  for (const foot of scene.picture.feet) {
    const [x, y] = view.at([foot.x, foot.y, 0]);
    const near = view.looks.name === 'front' ? foot.y < 0.2 : foot.x < 0.2;
    if (near && foot.mean !== null)
      group.append(s('path', { d: `M${x} ${y - 44}V${y - 4}m-5 -8l5 8l5 -8`, class: 'push' }));
  }
  const top = ground(scene.picture, 'top');
  if (top && view.looks.name === 'front') {
    const [x, y] = view.at([(top.x[0] + top.x[1]) / 2, 0, top.z]);
    group.append(
      s('rect', { x: x - 34, y: y - 13, width: 68, height: 12, class: 'stick-edge' }),
      s('rect', { x: x - 11, y: y - 11, width: 22, height: 8, rx: 4, class: 'string' }),
      s('circle', { cx: x, cy: y - 7, r: 3, class: 'bobweight' }),
    );
  }
  return group;
}

/** `room`: to the right of the view, in px. */
export function instrument(view: View, scene: Scene, room: number, labels: Labels): SVGElement {
  const line = scene.chosen;
  if (!line) return s('g', {});
  switch (line.group) {
    case 'sag':
      return string_line(view, scene, line, labels);
    case 'sway':
      return bob(view, scene, line, room);
    case 'hum':
      return fork_rings(view, scene, line);
    case 'twist':
      return sticks(view, scene, line);
    case 'tip':
      return arrow(view, scene, line, scene.picture.height);
    case 'slide':
      return arrow(view, scene, line, 0.02);
    case 'feet':
      return level(view, scene);
    default:
      return ring(view, scene, line);
  }
}
