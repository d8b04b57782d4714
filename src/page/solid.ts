// The bench in the round, from where you stand: every face that looks at you, the far block first.
import { h, s } from './dom';
import { path_of } from './frame';
import type { Scene } from './scene';
import { reach } from './scene';
import type { Place, Solid } from './types';

const faces = [
  [0, 1, 3, 2],
  [4, 5, 7, 6],
  [0, 1, 5, 4],
  [2, 3, 7, 6],
  [0, 2, 6, 4],
  [1, 3, 7, 5],
] as const;
type Vector = [number, number, number];
const minus = (a: Place, b: Place): Vector => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
const dot = (a: Vector, b: Vector) => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const cross = (a: Vector, b: Vector): Vector => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];

interface Face {
  points: Place[];
  normal: Vector;
  at: number;
}
interface Block {
  solid: Solid;
  faces: Face[];
  middle: Place;
}

function block(solid: Solid): Block {
  const sum = solid.corners.reduce<Vector>((t, c) => [t[0] + c[0] / 8, t[1] + c[1] / 8, t[2] + c[2] / 8], [0, 0, 0]);
  return {
    solid,
    middle: sum,
    faces: faces.map((f) => {
      const points = f.map((i) => solid.corners[i]!);
      let normal = cross(minus(points[1]!, points[0]!), minus(points[3]!, points[0]!));
      if (dot(normal, minus(points[0]!, sum)) < 0) normal = [-normal[0], -normal[1], -normal[2]];
      const size = Math.hypot(...normal) || 1;
      normal = [normal[0] / size, normal[1] / size, normal[2] / size];
      return { points, normal, at: dot(normal, points[0]!) };
    }),
  };
}

/** Whether `b` lies behind a face of `a` that parts them, as seen along `eye` (to the viewer). */
function parts(a: Block, b: Block, eye: Vector): 'a first' | 'b first' | null {
  for (const face of a.faces) {
    if (b.solid.corners.every((c) => dot(face.normal, c) > face.at - 1e-6)) {
      const turn = dot(face.normal, eye);
      if (turn > 1e-9) return 'a first';
      if (turn < -1e-9) return 'b first';
    }
  }
  return null;
}

/** Blocks do not cross: of two, a plane tells which hides the other. */
function ordered(blocks: Block[], eye: Vector): Block[] {
  const before = blocks.map(() => new Set<number>());
  for (let i = 0; i < blocks.length; ++i) {
    for (let j = i + 1; j < blocks.length; ++j) {
      const [a, b] = [blocks[i]!, blocks[j]!];
      const other = parts(b, a, eye);
      const order = parts(a, b, eye) ?? (other === 'a first' ? 'b first' : other === 'b first' ? 'a first' : null);
      if (order === 'a first') before[j]!.add(i);
      if (order === 'b first') before[i]!.add(j);
    }
  }
  const out: Block[] = [],
    left = new Set(blocks.keys());
  while (left.size > 0) {
    const free = [...left].filter((i) => ![...before[i]!].some((k) => left.has(k)));
    const from = free.length > 0 ? free : [...left];
    const next = from.reduce((m, i) => (dot(blocks[i]!.middle, eye) < dot(blocks[m]!.middle, eye) ? i : m));
    out.push(blocks[next]!);
    left.delete(next);
  }
  return out;
}

function machine_block(scene: Scene): Solid[] {
  return scene.picture.machines.map((m) => {
    const [rx, ry] = reach(m);
    const corners = [0, 1, 2, 3, 4, 5, 6, 7].map((i): Place => [
      m.at[0] + (i & 1 ? rx : -rx),
      m.at[1] + (i & 2 ? ry : -ry),
      m.at[2] + (i & 4 ? m.height : 0),
    ]);
    return { of: 'machine', part: m.name, corners, written: null };
  });
}

export function solid_view(
  scene: Scene,
  width: number,
  height: number,
  turn: { yaw: number; pitch: number },
  turned: () => void,
): HTMLElement {
  const svg = s('svg', {
    width,
    height,
    viewBox: `0 0 ${width} ${height}`,
    role: 'img',
    'aria-label': `The bench in the round. ${scene.picture.machines.map((m) => m.name).join(', ')}`,
    class: 'round',
  });
  const blocks = [...scene.picture.solids, ...machine_block(scene)].map(block);
  const all = blocks.flatMap((b) => b.solid.corners);
  const mid = [0, 1, 2].map(
    (i) => (Math.min(...all.map((c) => c[i]!)) + Math.max(...all.map((c) => c[i]!))) / 2,
  ) as Vector;
  const looks = () => {
    const [cy, sy, cp, sp] = [Math.cos(turn.yaw), Math.sin(turn.yaw), Math.cos(turn.pitch), Math.sin(turn.pitch)];
    return {
      eye: [sy * cp, -cy * cp, sp] as Vector,
      right: [cy, sy, 0] as Vector,
      up: [-sy * sp, cy * sp, cp] as Vector,
    };
  };
  // As large as fits from where it is seen first; walking round it changes no size.
  const first = looks();
  const most = (axis: Vector) => Math.max(...all.map((c) => Math.abs(dot(minus(c, mid), axis))), 0.1);
  const scale = Math.min((0.44 * width) / most(first.right), (0.42 * height) / most(first.up));
  const paint = () => {
    const { eye, right, up } = looks();
    const at = (p: Place): [number, number] => [
      width / 2 + dot(minus(p, mid), right) * scale,
      height / 2 - dot(minus(p, mid), up) * scale,
    ];
    svg.replaceChildren(
      ...ordered(blocks, eye).map((b) =>
        s(
          'g',
          { class: `solid ${b.solid.of}` },
          ...b.faces
            .filter((f) => dot(f.normal, eye) > 1e-6)
            .map((f) =>
              s('path', { d: path_of(f.points.map(at)), class: Math.abs(f.normal[2]) > 0.7 ? 'face lit' : 'face' }),
            ),
        ),
      ),
    );
  };
  paint();
  let from: [number, number] | null = null;
  svg.addEventListener('pointerdown', (e) => {
    from = [e.clientX, e.clientY];
    svg.setPointerCapture(e.pointerId);
  });
  svg.addEventListener('pointerup', () => {
    from = null;
    turned();
  });
  svg.addEventListener('pointermove', (e) => {
    if (!from) return;
    turn.yaw -= (e.clientX - from[0]) / 160;
    turn.pitch = Math.min(1.4, Math.max(-0.2, turn.pitch + (e.clientY - from[1]) / 200));
    from = [e.clientX, e.clientY];
    requestAnimationFrame(paint);
  });
  const step = (yaw: number, label: string) =>
    h(
      'button',
      {
        type: 'button',
        class: 'plain',
        'aria-label': label,
        onclick: () => {
          turn.yaw += yaw;
          paint();
        },
      },
      label,
    );
  return h(
    'div',
    { class: 'round-box' },
    svg,
    h('p', { class: 'round-turn' }, step(-0.4, 'turn left'), ' drag to walk round it ', step(0.4, 'turn right')),
  );
}
