// Proposals as pencil notes at their place on the drawing: what to change, and what becomes of what is wrong.
import type { Note } from './scene';
import type { Answer, AnswerJson, Option, Place } from './types';

const most = 2;

function place_of(option: Option, good: Answer): Place {
  const picture = good.picture!;
  const machine = picture.machines.find((m) => option.name.includes(m.name));
  if (machine) return machine.at;
  const [x, z] = [picture.length / 2, picture.height];
  if (/wall|back/.test(option.name)) return [x * 1.4, picture.depth, z * 0.93];
  if (/lower/.test(option.name)) return [x, 0, z * 0.25];
  if (/end|left|right|across/.test(option.name)) return [x * 1.8, 0, z * 0.5];
  return [x * 0.5, 0, z];
}

/** What it does to what is wrong now. */
function outcome(option: Option, before: Option | undefined): string {
  const figures = option.figures!;
  if (figures.verdict === 'stands') return 'then it stands';
  const [a, b] = [before?.figures?.failing.length ?? 0, figures.failing.length];
  const [was, is] = [before?.figures?.sag_ratio ?? 0, figures.sag_ratio ?? 0];
  if (b < a) return `${a} failures, then ${b}`;
  return `sag ${was.toFixed(2)} to ${is.toFixed(2)} of what is allowed`;
}

export function notes_of(improve: AnswerJson, good: Answer, accept: (write: string) => void): Note[] {
  const [before, ...others] = improve.options ?? [];
  const left = before?.figures?.failing.length ?? 0;
  return others.filter((o) => o.figures && !o.why && o.write && (o.figures.failing.length < left || o.figures.verdict === 'stands')).slice(0, most)
    .map((o) => ({ text: `${o.name}: ${outcome(o, before)}`, at: place_of(o, good), accept: () => accept(o.write) }));
}
