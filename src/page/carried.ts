// A machine in hand: while it is dragged the core tells how it would stand, place by place.
import { Engine, Stopped } from './core';
import type { Moved, Opened } from './types';

type At = [number, number]; // m, from the front left corner of the top
/** The middle of a cell of the top, half of the cell's length and depth, and how the machine would stand there. */
export type Hear = (place: At, half: At, moved: Moved) => void;

export class Carried {
  private engine = new Engine();
  private bench = '';
  private name = '';
  private places: At[] = [];
  private half: At = [0, 0];
  private told = new Map<number, Moved>();
  private wanted = -1;
  private is_asking = false;
  private hear: Hear | null = null;

  /** Makes ready, before anybody takes hold: the bench is factorised once. */
  async ready(bench: string, name: string): Promise<void> {
    if (bench === this.bench && name === this.name) return;
    this.engine.stop();
    [this.bench, this.name, this.places] = [bench, name, []];
    this.told.clear();
    try {
      await this.engine.start();
      if (!this.engine.is_apart) return; // it would hold the page up
      if (bench !== this.bench || name !== this.name) return;
      const opened = await this.engine.call<Opened>('standtrue_open_moving', { command: 'place', text: bench, machine: name });
      if (bench !== this.bench || name !== this.name) return;
      this.places = opened.places ?? [];
      const [length, depth] = opened.cell ?? [0, 0];
      this.half = [length / 2, depth / 2];
      void this.ask();
    } catch (e) {
      if (!(e instanceof Stopped)) this.forget();
    }
  }

  forget(): void {
    this.engine.stop();
    this.bench = this.name = '';
    this.places = [];
    this.hear = null;
  }

  /** Over this place; `hear` is told of it and of every other place, as soon as the core knows. */
  over(x: number, y: number, hear: Hear): void {
    if (!this.hear) this.told.forEach((moved, i) => hear(this.places[i]!, this.half, moved));
    this.hear = hear;
    this.wanted = this.nearest(x, y);
    const known = this.told.get(this.wanted);
    if (known) hear(this.places[this.wanted]!, this.half, known);
    else void this.ask();
  }

  let_go(): void {
    this.hear = null;
  }

  private is_held(): boolean {
    return this.hear !== null;
  }

  private nearest(x: number, y: number): number {
    let [best, least] = [-1, Infinity];
    this.places.forEach(([px, py], i) => {
      const off = Math.hypot(px - x, py - y);
      if (off < least) [best, least] = [i, off];
    });
    return best;
  }

  /** One at a time, that in hand first, then those about it. */
  private async ask(): Promise<void> {
    if (this.is_asking || !this.is_held() || this.places.length === 0) return;
    this.is_asking = true;
    const bench = this.bench;
    try {
      while (this.is_held() && bench === this.bench) {
        const [x, y] = this.places[Math.max(this.wanted, 0)]!;
        let [next, least] = [-1, Infinity];
        this.places.forEach((place, i) => {
          const off = Math.hypot(place[0] - x, place[1] - y);
          if (!this.told.has(i) && off < least) [next, least] = [i, off];
        });
        if (next < 0) break;
        const moved = await this.engine.call<Moved>('standtrue_moved', next);
        if (bench !== this.bench || moved.fault) break;
        this.told.set(next, moved);
        this.hear?.(this.places[next]!, this.half, moved);
      }
    } catch (e) {
      if (!(e instanceof Stopped)) this.forget();
    } finally {
      this.is_asking = false;
    }
  }
}
