// Taking hold of something on the plan: with a pointer, or with the arrow keys.
export interface Drag {
  step: number; // m, of an arrow key; a pointer keeps to half of it
  scale: number; // px/m
  moved: (dx: number, dy: number) => void;
  back: () => void; // let go of without a move
  done: (dx: number, dy: number) => void;
}

const least = 4; // px: less is a tap

export function draggable(node: SVGElement, drag: Drag): void {
  node.classList.add('draggable');
  let from: [number, number] | null = null;
  let now: [number, number] = [0, 0];
  let is_moving = false;
  let frame = 0;
  const snapped = (v: number) => (Math.round(v / drag.scale / (drag.step / 2)) * drag.step) / 2;

  node.addEventListener('pointerdown', (e) => {
    if (e.button !== 0) return;
    from = [e.clientX, e.clientY];
    is_moving = false;
    node.setPointerCapture(e.pointerId);
    e.stopPropagation();
  });
  node.addEventListener('pointermove', (e) => {
    if (!from) return;
    const [px, py] = [e.clientX - from[0], e.clientY - from[1]];
    if (!is_moving && Math.hypot(px, py) < least) return;
    is_moving = true;
    node.classList.add('held');
    now = [snapped(px), snapped(-py)];
    if (frame === 0)
      frame = requestAnimationFrame(() => {
        frame = 0;
        drag.moved(...now);
      });
  });
  const let_go = (keep: boolean) => {
    if (!from) return;
    from = null;
    node.classList.remove('held');
    if (is_moving && keep) drag.done(...now);
    else if (is_moving) {
      cancelAnimationFrame(frame);
      frame = 0;
      drag.back();
    }
  };
  // A finger that holds something must not push the page about: browsers take `touch-action` of a part of a
  // drawing for nothing, and end the drag. Two fingers enlarge the page as ever.
  node.addEventListener(
    'touchmove',
    (e) => {
      if (from && e.touches.length === 1) e.preventDefault();
    },
    { passive: false },
  );
  node.addEventListener('pointerup', () => let_go(true));
  node.addEventListener('pointercancel', () => let_go(false));
  node.addEventListener(
    'click',
    (e) => {
      if (is_moving) {
        e.stopImmediatePropagation();
        is_moving = false;
      }
    },
    true,
  );

  // Several presses of a key are one move.
  let keyed: [number, number] = [0, 0];
  let timer = 0;
  node.addEventListener('keydown', (e) => {
    const way: Record<string, [number, number]> = {
      ArrowLeft: [-1, 0],
      ArrowRight: [1, 0],
      ArrowUp: [0, 1],
      ArrowDown: [0, -1],
    };
    const to = way[e.key];
    if (!to) return;
    e.preventDefault();
    keyed = [keyed[0] + to[0] * drag.step, keyed[1] + to[1] * drag.step];
    drag.moved(...keyed);
    clearTimeout(timer);
    timer = setTimeout(() => {
      drag.done(...keyed);
      keyed = [0, 0];
    }, 500);
  });
}
