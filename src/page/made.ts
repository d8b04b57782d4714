// Of what the bench is made, in one line: what else is asked about is an answer about these.
import type { Bench } from './bench';
import type { Picture } from './types';

export function made_of(bench: Bench, picture: Picture | null): string {
  const timber = [bench.say(['timber', 'class']), bench.say(['timber', 'section'])].filter((w) => w).join(' ');
  const layers = Number(bench.say(['top', 'layers']) || 1);
  const top = bench.say(['top', 'sheet']) || bench.say(['top']);
  const kinds = new Set((picture?.joints ?? []).map((j) => j.kind));
  const [first = ''] = kinds;
  return [
    timber || bench.say(['timber']),
    top && top !== 'none' ? `top ${layers > 1 ? `${layers} x ` : ''}${top}` : '',
    kinds.size > 1 ? `${first} and others` : first,
  ]
    .filter((w) => w)
    .join('; ');
}
