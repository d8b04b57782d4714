// A view on the sheet: which way it looks, where it lies, how large.
import type { Place, Solid } from './types';

export interface Looks {
  name: string;
  u: (p: Place) => number;
  v: (p: Place) => number;
  away: (p: Place) => number;
}
export const front: Looks = { name: 'front', u: (p) => p[0], v: (p) => p[2], away: (p) => p[1] };
/** First-angle: what is seen from the left end lies on the right of the front. */
export const left_end: Looks = { name: 'left end', u: (p) => -p[1], v: (p) => p[2], away: (p) => p[0] };
export const plan: Looks = { name: 'plan', u: (p) => p[0], v: (p) => p[1], away: (p) => -p[2] };

export interface Extent {
  u: [number, number];
  v: [number, number];
}

export class View {
  constructor(
    readonly looks: Looks,
    readonly extent: Extent,
    readonly left: number,
    readonly bottom: number,
    readonly scale: number,
  ) {}
  x(u: number): number {
    return this.left + (u - this.extent.u[0]) * this.scale;
  }
  y(v: number): number {
    return this.bottom - (v - this.extent.v[0]) * this.scale;
  }
  at(p: Place): [number, number] {
    return [this.x(this.looks.u(p)), this.y(this.looks.v(p))];
  }
  get width(): number {
    return (this.extent.u[1] - this.extent.u[0]) * this.scale;
  }
  get height(): number {
    return (this.extent.v[1] - this.extent.v[0]) * this.scale;
  }
  get right(): number {
    return this.left + this.width;
  }
  get top(): number {
    return this.bottom - this.height;
  }
}

export function extent(looks: Looks, places: Place[]): Extent {
  const us = places.map(looks.u),
    vs = places.map(looks.v);
  return { u: [Math.min(...us), Math.max(...us)], v: [Math.min(...vs), Math.max(...vs)] };
}

/** The outline of a block as it is seen: the convex hull of its corners. */
export function outline(points: [number, number][]): [number, number][] {
  const sorted = [...points].sort((a, b) => a[0] - b[0] || a[1] - b[1]);
  const half = (list: [number, number][]) => {
    const out: [number, number][] = [];
    for (const p of list) {
      for (;;) {
        const a = out[out.length - 2],
          b = out[out.length - 1];
        if (!a || !b || (b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0]) > 1e-9) break;
        out.pop();
      }
      out.push(p);
    }
    return out.slice(0, -1);
  };
  return [...half(sorted), ...half(sorted.reverse())];
}

/** Farthest first. */
export function painted_order(looks: Looks, solids: Solid[]): Solid[] {
  const nearest = (solid: Solid) => Math.min(...solid.corners.map(looks.away));
  return [...solids].sort((a, b) => nearest(b) - nearest(a));
}

export const path_of = (points: [number, number][], closed = true): string =>
  points.map((p, i) => `${i === 0 ? 'M' : 'L'}${p[0].toFixed(1)} ${p[1].toFixed(1)}`).join('') + (closed ? 'Z' : '');

/** All posts and feet open one slip: a keyboard stops at the first of a view. */
export function first_post(): (drawn: SVGElement, solid: Solid) => void {
  let is_there = false;
  return (drawn, solid) => {
    if (solid.of !== 'post' && solid.of !== 'foot') return;
    if (is_there) drawn.setAttribute('tabindex', '-1');
    is_there = true;
  };
}
