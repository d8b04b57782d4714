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

/** What it does to what is wrong now: "sway cured", "sag 1.10 to 0.46 of what is allowed". */
function outcome(option: Option, before: Option | undefined, group: (id: string) => string): string {
  const figures = option.figures!;
  const was = [...new Set(before?.figures?.failing.map(group) ?? [])];
  const stays = new Set(figures.failing.map(group));
  const cured = was.filter((g) => !stays.has(g));
  const [a, b] = [before?.figures?.sag_ratio ?? null, figures.sag_ratio];
  const sag =
    cured.includes('sag') && a !== null && b !== null
      ? `sag ${a.toFixed(1)} to ${b.toFixed(1)} of what is allowed`
      : '';
  const others = cured.filter((g) => g !== 'sag' || !sag);
  const words = [
    others.length > 0 ? `${others.join(', ')} cured` : '',
    sag,
    stays.size > 0 ? `${[...stays].join(', ')} stays` : 'then all is well',
  ];
  return words.filter((w) => w !== '').join('; ');
}

/** Single changes first: they are the smaller ones. */
export function notes_of(improve: AnswerJson, good: Answer, accept: (option: Option) => void): Note[] {
  const [before, ...others] = improve.options ?? [];
  const left = before?.figures?.failing.length ?? 0;
  const group = (id: string) => good.answer?.findings.find((f) => f.id === id)?.group ?? id.split('/')[0] ?? id;
  const better = others.filter(
    (o) => o.figures && !o.why && o.write && (o.figures.failing.length < left || o.figures.verdict === 'stands'),
  );
  const changes = (o: Option) => o.name.split(', and ').length;
  return better
    .sort((a, b) => a.figures!.failing.length - b.figures!.failing.length || changes(a) - changes(b))
    .slice(0, most)
    .map((o) => ({
      text: o.name,
      then: outcome(o, before, group),
      at: place_of(o, good),
      accept: () => accept(o),
    }));
}
