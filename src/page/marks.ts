// What a draughtsman draws besides the thing itself: dimension lines, labels that keep out of each other's way.
import { s, tappable } from './dom';

export interface Box {
  x: number;
  y: number;
  w: number;
  h: number;
}

const high = 7; // px: within the border of the sheet

export class Labels {
  private readonly boxes: Box[] = []; // all that is in the way
  private readonly words: Box[] = []; // of it, other labels
  constructor(
    private readonly into: SVGElement,
    readonly right: number,
  ) {}

  block(box: Box): void {
    this.boxes.push(box);
  }

  /** Over what is `half` broad on each side of `x`: moved aside before it is moved up, and rather on another's ground. */
  put_by(text: string, x: number, half: number, y: number, style: string, outside = true): SVGElement {
    const w = text.length * 6.4;
    const beside = outside ? [x - half - w - 4, x + half + 4] : [];
    const from = [x - w / 2, x - half, x + half - w, ...beside].filter(
      (left) => left > 4 && left + w < this.right - 4,
    );
    const clear = (of: Box[]) => from.find((left) => !of.some((b) => meets(b, { x: left, y: y - 10, w, h: 13 })));
    const left = clear(this.boxes) ?? clear(this.words);
    if (left === undefined) return this.put(text, x, y, style);
    return this.write(text, { x: left, y: y - 10, w, h: 13 }, left + w / 2, style, 'middle');
  }

  private write(text: string, box: Box, x: number, style: string, anchor: string): SVGElement {
    this.boxes.push(box);
    this.words.push(box);
    const label = s('text', { x, y: box.y + 10, class: style, 'text-anchor': anchor }, text);
    this.into.append(label);
    return label;
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
    for (let n = 0, by = step; n < 16 && (box.y < high || this.boxes.some((b) => meets(b, box))); ++n) {
      if (box.y < high) {
        box.y = high;
        by = 14;
      }
      if (this.boxes.some((b) => meets(b, box))) box.y += by;
    }
    return this.write(text, box, x + shift, style, anchor);
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
    lines('wall', 6, 45, 'M1 0V6', 'hatch-care'),
    lines('care', 8, 45, 'M2 0V8', 'hatch-care'),
    lines('barred', 6, 45, 'M1.5 0V6M0 1.5H6', 'hatch-barred'),
  );
}
