import { distance } from 'fastest-levenshtein';
import type { RoomLedger } from '../app/room-ledger.ts';
import { currentRelease } from '../bundle/room.ts';
import { skillKey } from '../bundle/skill.ts';

/**
 * Says of a skill that no procedure in use asks for it, and what those that are near it are called: a level in a misspelled one counts
 * for nothing. Undefined where one asks for it.
 */
export async function unaskedSkill(ledger: RoomLedger, skill: string): Promise<string | undefined> {
  const asked = new Map<string, string>();
  for (const procedure of ledger.room().releases.keys()) {
    const release = currentRelease(ledger.room(), procedure);
    const text = release && (await ledger.procedure(release.understood));
    if (!text?.ok) continue;
    for (const { facts } of text.value.steps)
      if (facts.needsSkill !== null) asked.set(skillKey(facts.needsSkill), facts.needsSkill);
  }
  const key = skillKey(skill);
  if (asked.has(key)) return undefined;
  if (asked.size === 0) return `No procedure in use asks for ${skill}, nor for any other skill.`;
  const near = [...asked].sort(([a], [b]) => distance(a, key) - distance(b, key)).slice(0, NEAREST);
  return `No procedure in use asks for ${skill}; the nearest that one asks for: ${near.map(([, name]) => name).join(', ')}.`;
}

const NEAREST = 3;
