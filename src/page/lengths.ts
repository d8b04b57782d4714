// Lengths as people type them. What can not be understood goes to the core as it is, which says what is wrong.
const inch = 0.0254;

export function is_imperial(size: string, units: string): boolean {
  return units === 'imperial' || (units === '' && /\b(in|ft|inch|feet)\b|["']/.test(size));
}

/** `74"` is 74 in, `6'` 6 ft, `5' 11` 5 ft 11 in, a bare number in the unit of the file. */
export function with_unit(typed: string, unit: string): string {
  const text = typed
    .trim()
    .replace(/[″“”]/g, '"')
    .replace(/[′’]/g, "'")
    .replace(/(\d)\s*'\s*/g, '$1 ft ')
    .replace(/(\d)\s*"/g, '$1 in')
    .replace(/(ft|foot|feet)(\s+[\d.\s/]*\d)$/, '$1$2 in')
    .trim();
  return is_plain(text) ? `${text} ${unit}` : text;
}
const is_plain = (text: string): boolean => /^[\d.\s/]+$/.test(text) && /\d/.test(text);

const one_number = String.raw`(?:\d+\s+\d+\/[1-9]\d*|\d+\/[1-9]\d*|\d+(?:\.\d+)?|\.\d+)`;
const one_length = new RegExp(`^(?:${one_number}\\s*(?:mm|cm|m|inches|inch|in|feet|foot|ft)\\b\\s*)+$`);
const most = 6; // m: no bench is as long
const least = 0.01; // of what was there

/** One length that was typed, with its unit; or what is wrong with it. `was`: what is not shrunk a hundredfold. */
export function length_typed(typed: string, unit: string, was = ''): { text: string; fault: string } {
  const text = with_unit(typed, unit);
  const no = (fault: string) => ({ text, fault });
  if (typed.trim() === '') return no(`A length is wanted here, such as ${unit === 'in' ? '71 in' : '1800 mm'}.`);
  if (/\d,\d/.test(text)) return no('The decimal sign is a point: 1.8 m.');
  if (!one_length.test(text)) return no("One length is wanted here, such as 1800 mm, 1.8 m, 71 in or 5' 11\".");
  if (!is_plain(typed.trim())) return { text, fault: '' }; // whoever writes a unit means it
  const [now, before] = [metres(text), metres(was)];
  const plain = typed.trim();
  const other = unit === 'in' ? 'ft' : 'm';
  if (now > most) {
    const instead = unit === 'in' && number_of(plain) / 1000 <= most ? `${plain} mm, or ` : '';
    return no(`${text} is ${Math.round(now)} m: write ${instead}${text} if you mean it.`);
  }
  if (now < before * least) return no(`${text} is very little: write ${plain} ${other}, or ${text} if you mean it.`);
  return { text, fault: '' };
}
/** What a number without a unit is taken for. */
export const plain_number = (unit: string): string =>
  unit === 'in'
    ? `a plain number is in inches: 71, 5' 11", 1800 mm`
    : `a plain number is in millimetres: 1800, 1.8 m, 71 in, 5' 11"`;

/** A plain number is in the unit of what was there: 60 where 32 kg stood is 60 kg. */
export function in_unit_of(was: string, typed: string): string {
  const unit = was.replace(/^[\d.\s/]+/, '').trim();
  return is_plain(typed.trim()) ? `${typed.trim()} ${unit}`.trim() : typed.trim();
}

function number_of(text: string): number {
  return text
    .trim()
    .split(/\s+/)
    .reduce((sum, part) => {
      const [a = '', b] = part.split('/');
      return sum + (b === undefined ? Number(a) : Number(a) / Number(b));
    }, 0);
}

/** In metres, or NaN. */
export function metres(text: string): number {
  const unit: Record<string, number> = { mm: 1e-3, cm: 1e-2, m: 1, in: inch, inch: inch, inches: inch, ft: 12 * inch, foot: 12 * inch, feet: 12 * inch };
  let sum = NaN;
  for (const [, number = '', name = ''] of text.matchAll(/([\d.\s/]+?)\s*(mm|cm|m|inches|inch|in|feet|foot|ft)\b/g)) {
    sum = (Number.isNaN(sum) ? 0 : sum) + number_of(number) * (unit[name] ?? NaN);
  }
  return sum;
}

/** As the file writes lengths: whole mm, or inches to the eighth. */
export function written(length: number, imperial: boolean): string {
  if (!imperial) return `${Math.round(length * 1000)} mm`;
  const eighths = Math.round((length / inch) * 8);
  const whole = Math.floor(eighths / 8);
  let [a, b] = [eighths % 8, 8];
  while (a > 0 && a % 2 === 0) {
    a /= 2;
    b /= 2;
  }
  return `${a === 0 ? whole : whole === 0 ? `${a}/${b}` : `${whole} ${a}/${b}`} in`;
}

/** "2140 x 800 x 900 mm" as three lengths, each with its unit; none where there are not three. */
export function size_parts(size: string): string[] {
  const parts = size.split(/\s*[x×]\s*/);
  const unit = /(mm|cm|m|inches|inch|in|feet|foot|ft)\s*$/.exec(size)?.[1] ?? 'mm';
  return parts.length === 3 ? parts.map((p) => with_unit(p, unit)) : [];
}
