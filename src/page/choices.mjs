// What a builder can choose from, read from the records that the core is built with: never a list kept by hand.
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { parse } from 'yaml';

/** The rows of all tables of a record, each as {column: text}. */
function rows(folder, file, record) {
  const blocks = parse(readFileSync(path.join(folder, file), 'utf8'))[record];
  return blocks.flatMap((block) => {
    const lines = block.table
      .trim()
      .split('\n')
      .map((l) => l.split('|').map((c) => c.trim()));
    const columns = lines[0];
    return lines
      .slice(1)
      .filter((l) => l[0] !== 'unit' && l[0] !== 'source')
      .map((l) => ({
        ...block.fixed,
        ...Object.fromEntries(columns.map((c, i) => [c, (l[i] ?? '').replace(/ \[\w\]$/, '')])),
      }));
  });
}

export function choices(folder) {
  const keys = (file, record) => rows(folder, file, record).map((r) => r.key);
  return {
    sections: rows(folder, 'sections.yaml', 'section').map((r) => ({ key: r.key, family: r.family })),
    timber: keys('timber.yaml', 'timber'),
    panels: rows(folder, 'panels.yaml', 'panel').map((r) => ({ key: r.key, family: r.family })),
    joints: keys('joints.yaml', 'joint'),
    feet: keys('feet.yaml', 'foot'),
    floors: keys('feet.yaml', 'floor'),
    airs: keys('factors.yaml', 'air'),
    duties: keys('limits.yaml', 'duty'),
    machines: rows(folder, 'machines.yaml', 'machine').map((r) => ({
      key: r.key,
      mass: Number(r.mass),
      holds: r.holds_work === 'yes',
    })),
  };
}
