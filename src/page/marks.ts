// What a draughtsman draws besides the thing itself: dimension lines, labels that keep out of each other's way.
import { s, tappable } from './dom';

export interface Box {
  x: number;
  y: number;
  w: number;
  h: number;
}

export class Labels {
  private readonly boxes: Box[] = [];
  constructor(
    private readonly into: SVGElement,
    readonly right: number,
  ) {}

  block(box: Box): void {
    this.boxes.push(box);
  }

  /** As near above (`step` < 0) or below `y` as there is room. */
  put(
    text: string,
    x: number,
    y: number,
    style: string,
    anchor: 'start' | 'middle' | 'end' = 'middle',
    step = -14,
  ): SVGElement {
    const w = text.length * 6.4;
    const from = anchor === 'middle' ? x - w / 2 : anchor === 'end' ? x - w : x;
    const shift = Math.max(4 - from, 0) - Math.max(from + w - this.right + 4, 0);
    const box: Box = { x: from + shift, y: y - 10, w, h: 13 };
    for (let n = 0, by = step; n < 16 && (box.y < 2 || this.boxes.some((b) => meets(b, box))); ++n) {
      if (box.y < 2) {
        box.y = 2;
        by = 14;
      }
      if (this.boxes.some((b) => meets(b, box))) box.y += by;
    }
    this.boxes.push(box);
    const label = s('text', { x: x + shift, y: box.y + 10, class: style, 'text-anchor': anchor }, text);
    this.into.append(label);
    return label;
  }
}

const meets = (a: Box, b: Box) => a.x < b.x + b.w && b.x < a.x + a.w && a.y < b.y + b.h && b.y < a.y + a.h;

/** A dimension with its slashes; its number can be tapped and typed over. */
export function dimension(
  a: [number, number],
  b: [number, number],
  text: string,
  label: string,
  act?: (e: Event) => void,
): SVGElement {
  const upright = Math.abs(a[0] - b[0]) < 1;
  const slash = (p: [number, number]) =>
    s('line', { x1: p[0] - 5, y1: p[1] + 5, x2: p[0] + 5, y2: p[1] - 5, class: 'slash' });
  const mid: [number, number] = [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
  const place = upright
    ? { transform: `translate(${mid[0] - 7} ${mid[1]}) rotate(-90)` }
    : { transform: `translate(${mid[0]} ${mid[1] - 6})` };
  const w = Math.max(text.length * 8.2, 44);
  const number = s(
    'g',
    { ...place, class: 'number' },
    s('rect', { x: -w / 2, y: -26, width: w, height: 44, class: 'hit' }),
    s('text', { 'text-anchor': 'middle' }, text),
  );
  return s(
    'g',
    { class: 'dimension' },
    s('line', { x1: a[0], y1: a[1], x2: b[0], y2: b[1], class: 'dim' }),
    slash(a),
    slash(b),
    act ? tappable(number, label, act, label.split(' ')[0]) : number,
  );
}

/** Beyond a limit: the same ink as the report. */
export function patterns(): SVGElement {
  const lines = (id: string, size: number, turn: number, path: string, style: string) =>
    s(
      'pattern',
      { id, width: size, height: size, patternUnits: 'userSpaceOnUse', patternTransform: `rotate(${turn})` },
      s('path', { d: path, class: style }),
    );
  return s(
    'defs',
    {},
    lines('pencil', 4, 58, 'M1 0V4', 'hatch-ink'),
    lines('raddled', 3.4, 58, 'M1 0V3.4', 'hatch-raddle'),
    lines('keepoff', 5, 45, 'M1 0V5', 'hatch-off'),
    lines('care', 8, 45, 'M2 0V8', 'hatch-care'),
    lines('barred', 6, 45, 'M1.5 0V6M0 1.5H6', 'hatch-barred'),
  );
}
