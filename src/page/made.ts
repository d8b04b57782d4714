// Of what the bench is made, in one line: what else is asked about is an answer about these.
import type { Bench } from './bench';
import type { Picture } from './types';

export function made_of(bench: Bench, picture: Picture | null): string {
  const timber = [bench.say(['timber', 'class']), bench.say(['timber', 'section'])].filter((w) => w).join(' ');
  const layers = Number(bench.say(['top', 'layers']) || 1);
  const top = bench.say(['top', 'sheet']) || bench.say(['top']);
  return [
    timber || bench.say(['timber']),
    top && top !== 'none' ? `top ${layers > 1 ? `${layers} x ` : ''}${top}` : '',
    picture?.joints[0]?.kind ?? '',
  ]
    .filter((w) => w)
    .join('; ');
}
