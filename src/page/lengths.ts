// Lengths as people type them. What can not be understood goes to the core as it is, which says what is wrong.
const inch = 0.0254;

export function is_imperial(size: string, units: string): boolean {
  return units === 'imperial' || (units === '' && /\b(in|ft|inch|feet)\b|["']/.test(size));
}

/** `74"` is 74 in, `6'` 6 ft, a bare number in the unit of the file. */
export function with_unit(typed: string, unit: string): string {
  const text = typed
    .trim()
    .replace(/[″“”]/g, '"')
    .replace(/[′’]/g, "'")
    .replace(/(\d)\s*'\s*/g, '$1 ft ')
    .replace(/(\d)\s*"/g, '$1 in')
    .trim();
  return /^[\d.\s/]+$/.test(text) && text !== '' ? `${text} ${unit}` : text;
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
  const unit: Record<string, number> = { mm: 1e-3, cm: 1e-2, m: 1, in: inch, inch: inch, ft: 12 * inch };
  let sum = NaN;
  for (const [, number = '', name = ''] of text.matchAll(/([\d.\s/]+?)\s*(mm|cm|m|inch|in|ft)\b/g)) {
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

/** "2140 x 800 x 900 mm" as three lengths, each with its unit. */
export function size_parts(size: string): string[] {
  const parts = size.split(/\s*[x×]\s*/);
  const unit = /(mm|cm|m|inch|in|ft)\s*$/.exec(size)?.[1] ?? 'mm';
  return parts.map((p) => with_unit(p, unit));
}
