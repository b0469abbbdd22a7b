import type { HandId } from '../base/brand.ts';
import { languageNames } from '../base/language.ts';
import type { Hand } from '../bundle/room.ts';
import type { Skills } from '../bundle/skill.ts';
import { table } from './table.ts';

/** The hands of a room, and how well they do what, as a table for people. */
export function handTable(hands: readonly Hand[], skills: ReadonlyMap<HandId, Skills>, width: number): string {
  if (hands.length === 0) return 'No hands yet: add one with `walkfoot hand add NAME --role sewer`.';
  const shape = ['id', 'name', 'role', 'badge', 'reads', '', 'skills'].map(
    (name) => ({ name, align: 'left' }) as const,
  );
  const rows = hands.map(({ id, name, role, badge, language, retired }) => [
    id,
    name,
    role,
    badge ?? '',
    language === null ? '' : languageNames[language],
    retired ? 'retired' : '',
    [...(skills.get(id)?.values() ?? [])].map(({ skill, level }) => `${skill} ${level}`).join(', '),
  ]);
  return table(shape, rows, width).join('\n');
}
