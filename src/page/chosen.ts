// What can be chosen, as the build read it from the core's own records.
interface All {
  sections: { key: string; family: string }[];
  timber: string[];
  panels: { key: string; family: string }[];
  joints: string[];
  feet: string[];
  floors: string[];
  duties: string[];
  airs: string[];
  machines: { key: string; mass: number; holds: boolean }[];
}
declare const CHOICES: All;
declare const EXAMPLES: { name: string; text: string }[];
export const all = CHOICES;
export const examples = EXAMPLES;

const by = (list: { key: string; family: string }[], name: (r: { key: string; family: string }) => string) => {
  const groups: Record<string, string[]> = {};
  for (const record of list) (groups[record.family] ??= []).push(name(record));
  return groups;
};
export const sections = by(CHOICES.sections, (r) => r.key);
export const sheets = by(CHOICES.panels, (r) => `${r.key} mm ${r.family}`);
