// What can be typed or chosen on a slip. What can not be taken is told where it was typed, and the slip stays.
import { h } from './dom';
import { close_slip, is_slip_open, relay_slip } from './slip';

/** Takes what was typed, or says what is wrong with it. */
export type Keep = (typed: string) => string | undefined | void;

interface Read {
  field: HTMLElement;
  tell: (fault: string) => void;
  is_told: () => boolean;
  leaves: boolean;
}
let unread: Read | null = null; // written into the file, and the core has yet to say what it makes of it
const soon = 300; // ms: a core that is busy does not hold a slip open for longer

/** What the core makes of the bench: a fault that came of a field is told there, even if its slip was put away. */
export function heard(fault: string | null, is_new: boolean): void {
  const read = unread;
  unread = null;
  if (!read) return;
  const slip = read.field.closest<HTMLElement>('.slip');
  if (fault !== null && (is_new || read.is_told())) {
    if (slip && relay_slip(slip)) {
      read.tell(fault);
      read.field.querySelector<HTMLElement>('input, select')?.focus();
    }
    return;
  }
  read.tell('');
  if (read.leaves && slip && is_slip_open(slip)) close_slip();
}

function told_beneath(field: HTMLElement, input: HTMLElement): Omit<Read, 'leaves'> {
  const fault = h('small', { class: 'red', role: 'alert' });
  const tell = (words: string) => {
    fault.textContent = words;
    input.setAttribute('aria-invalid', String(words !== ''));
    if (words === '') fault.remove();
    else field.append(fault);
  };
  return { field, tell, is_told: () => fault.isConnected };
}

/** By a finger too: what is typed replaces what is there. A second tap sets the caret. */
function selects_all(input: HTMLInputElement): void {
  let is_fresh = false;
  input.addEventListener('pointerdown', () => {
    is_fresh = document.activeElement !== input;
  });
  input.addEventListener('focus', () => input.select());
  input.addEventListener('click', () => {
    if (is_fresh && input.selectionStart === input.selectionEnd) input.select();
    is_fresh = false;
  });
}

export function field(name: string, value: string, keep: Keep, hint = ''): HTMLElement {
  const input = h('input', { type: 'text', value, autocomplete: 'off', spellcheck: 'false', enterkeyhint: 'done' });
  const whole = h('label', { class: 'field' }, h('span', {}, name), input, hint ? h('small', {}, hint) : null);
  const beneath = told_beneath(whole, input);
  let tried = value;
  /** Whether it was taken. */
  const take = (leaves: boolean): boolean => {
    if (input.value === tried) return !beneath.is_told();
    tried = input.value;
    const read = { ...beneath, leaves };
    unread = read; // the core may answer at once
    const fault = keep(input.value);
    if (!fault) return true;
    if (unread === read) unread = null;
    beneath.tell(fault);
    return false;
  };
  selects_all(input);
  input.addEventListener('refilled', () => {
    tried = input.value;
    beneath.tell('');
  });
  input.addEventListener('change', () => void take(false));
  input.addEventListener('keydown', (e) => {
    if (e.key !== 'Enter') return;
    e.preventDefault();
    if (!take(true)) return input.select();
    const slip = whole.closest<HTMLElement>('.slip');
    if (unread?.field !== whole) return close_slip();
    setTimeout(() => slip && unread?.field === whole && is_slip_open(slip) && close_slip(), soon);
  });
  return whole;
}

/** What stands in a field follows something else that was changed; it is not typed. */
export function refill(whole: HTMLElement, value: string): void {
  const input = whole.querySelector('input')!;
  input.value = value;
  input.dispatchEvent(new Event('refilled'));
}

export interface Choices {
  [heading: string]: string[];
}

/** What is written now is there too, even if no list has it. `usual`: what nothing written means. */
export function choice(
  name: string,
  of: string[] | Choices,
  value: string,
  keep: Keep,
  usual = 'as usual',
): HTMLElement {
  const lists: Choices = Array.isArray(of) ? { '': of } : of;
  const select = h('select', {});
  const option = (text: string) => {
    const o = h('option', { value: text }, text || `(${usual})`);
    o.selected = text === value;
    return o;
  };
  if (!Object.values(lists).some((list) => list.includes(value))) select.append(option(value));
  for (const [heading, list] of Object.entries(lists))
    select.append(...(heading ? [h('optgroup', { label: heading }, ...list.map(option))] : list.map(option)));
  const whole = h('label', { class: 'field' }, h('span', {}, name), select);
  const beneath = told_beneath(whole, select);
  select.addEventListener('change', () => {
    unread = { ...beneath, leaves: false };
    const fault = keep(select.value);
    if (fault) beneath.tell(fault);
  });
  return whole;
}

export function button(words: string, act: (e: Event) => void, style = 'ruled'): HTMLElement {
  return h('button', { type: 'button', class: style, onclick: act }, words);
}
export const row = (...of: (Node | null)[]): HTMLElement => h('div', { class: 'row' }, ...of);
