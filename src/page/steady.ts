/** The most room that was needed in a window of this size: words that come and go do not move the drawing. */
export class Steady {
  private window = '';
  private most = 0;

  get room(): number {
    const now = `${innerWidth} x ${innerHeight}`;
    if (this.window !== now) this.most = 0;
    this.window = now;
    return this.most;
  }
  /** The room from now on, where this much is needed. */
  keep(needed: number): number {
    this.most = Math.max(this.room, needed);
    return this.most;
  }
}
