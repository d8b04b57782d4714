// What is likely asked next is looked for while nobody asks: an answer shall lie ready. Then the cures.
import { Stopped } from './core';
import { likely, type Questions } from './questions';

interface Known {
  to_cure: boolean;
  machines: string[];
  about?: string; // the machine that is asked about
}

export class Foresight {
  private timer = 0;
  private seen = new Set<string>(); // of this bench; what has no answer is not asked again

  /** `known`: nothing while the bench has no answer yet. */
  constructor(
    private readonly questions: Questions,
    private readonly known: () => Known | null,
    private readonly found: () => void,
  ) {}

  /** The bench is another one. */
  forget(): void {
    this.seen.clear();
  }

  look(): void {
    clearTimeout(this.timer);
    const known = this.known();
    if (!known) return;
    const { to_cure, machines, about } = known;
    const next = likely(to_cure, machines.length > 0).find((c) => !this.seen.has(c) && this.questions.state(c) === '');
    if (!next) return;
    this.timer = setTimeout(() => {
      if (!this.questions.has_room) return;
      this.seen.add(next);
      const extra = next === 'place' && about ? { machine: about } : {};
      void this.questions.find(next, () => undefined, extra).then(
        () => {
          this.found();
          this.look();
        },
        (e) => e instanceof Stopped && this.seen.delete(next), // for what somebody asked
      );
      this.look();
    }, 2000);
  }
}
