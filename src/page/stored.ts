// What lies on the top and the shelf: part of every answer, though no machine.
import type { Bench, Path } from './bench';
import { put } from './edits';
import { field } from './fields';
import { in_unit_of } from './lengths';
import { lay_slip } from './slip';
import type { Assessment, Picture } from './types';

export interface Stored {
  sheet: string;
  load: string;
  is_usual: boolean; // not in the file: assumed
}

const path_of = (bench: Bench, sheet: string): Path =>
  bench.get(['stored', sheet]) === undefined ? [sheet, 'load'] : ['stored', sheet];

/** Assumed loads are told per square metre in kN; the file and the shop write kg. */
const in_kilograms = (load: string): string =>
  load
    .replace(/([\d.]+) kN\/m2/, (_, n: string) => `${Math.round(Number(n) / kilonewtons)} kg/m2`)
    .replace(' of small things', '');
const kilonewtons = 0.00980665; // of a kilogram, at standard gravity (9.80665 m/s2, third CGPM, 1901)

export function stored_of(bench: Bench, picture: Picture, assessment: Assessment): Stored[] {
  return ['top', 'shelf'].flatMap((sheet): Stored[] => {
    if (!picture.solids.some((s) => s.of === 'sheet' && s.part === sheet)) return [];
    const load = bench.say(path_of(bench, sheet));
    if (load) return load === 'none' ? [] : [{ sheet, load, is_usual: false }];
    const told = new RegExp(`^I assumed (.*) stored on the ${sheet}$`);
    const [usual] = assessment.assumptions.flatMap((a) => told.exec(a)?.[1] ?? []);
    return usual ? [{ sheet, load: in_kilograms(usual), is_usual: true }] : [];
  });
}

/** "stored: 30 kg on the top, 40 kg/m2 on the shelf". */
export function stored_words(stored: Stored[]): string {
  const usual = stored.every((s) => s.is_usual);
  const one = (s: Stored) => `${s.load} on the ${s.sheet}${s.is_usual && !usual ? ' (as usual)' : ''}`;
  return stored.length === 0 ? 'stored: nothing' : `stored${usual ? ', as usual' : ''}: ${stored.map(one).join(', ')}`;
}

export function change_stored(bench: Bench, stored: Stored[], sheets: string[], from: Event): void {
  lay_slip(
    'stored on it',
    from,
    ...sheets.map((sheet) => {
      const now = stored.find((s) => s.sheet === sheet)?.load ?? 'none';
      const keep = (v: string) =>
        bench.edit((doc) => put(doc, path_of(bench, sheet), in_unit_of(now === 'none' ? 'kg' : now, v), 'sheet'));
      return field(`on the ${sheet}`, now, keep, '40 kg in all, 50 kg/m2, or none');
    }),
  );
}
