import { randomBytes } from 'node:crypto';
import type { HandId } from '../../base/brand.ts';
import type { Language } from '../../base/language.ts';
import { type Role, THE_ROOM } from '../../bundle/entries.ts';
import type { Level } from '../../bundle/skill.ts';
import { SALT_BYTES, sealPin } from '../../ledger/scrypt-pin.ts';
import { happens, type Stage } from './stage.ts';

export const piet = 'OP-01' as HandId;
export const ines = 'OP-02' as HandId;
export const tomas = 'OP-03' as HandId;
export const maj = 'OP-04' as HandId;
export const vera = 'V-01' as HandId;
export const henk = 'V-02' as HandId;
const ruth = 'AU-1' as HandId;

/** The invented people of the practice room; the room itself takes in the first, who takes in the others. */
export async function enrolHands(stage: Stage): Promise<void> {
  for (const { who, name, role, language } of people) {
    // Their badges say in the list of hands what they are.
    const badge = `INVENTED-${who}`;
    await happens(stage, null, {
      do: 'enrol',
      hand: who === vera ? THE_ROOM : vera,
      who,
      name,
      role,
      badge,
      ...(language ? { language } : {}),
    });
    stage.time.pass(45);
    const pin = practicePins.get(who);
    if (pin === undefined) continue;
    await happens(stage, null, { do: 'set pin', hand: who, who, ...(await sealPin(pin, randomBytes(SALT_BYTES))) });
    stage.time.pass(30);
  }
  for (const [skill, ...known] of matrix)
    for (const [index, level] of known.entries()) {
      const who = sewers[index];
      if (who === undefined) throw new Error(`the skills of ${skill} are of more hands than there are`);
      await happens(stage, null, { do: 'set skill', hand: vera, who, skill, level });
      stage.time.pass(10);
    }
}

/** The columns of the matrix. */
const sewers: readonly HandId[] = [ines, tomas, maj];

/** Who does what how well, 0 none to 4 can teach. */
const matrix: readonly (readonly [string, Level, Level, Level])[] = [
  ['sleeve to line', 4, 3, 1],
  ['perforated join', 4, 2, 0],
  ['top-stitch vinyl', 4, 3, 0],
  ['piping and zip', 2, 4, 3],
  ['window rows', 1, 3, 2],
  ['binding', 3, 4, 3],
];

/** Invented and printed, as no other PIN is. */
const practicePins: ReadonlyMap<HandId, string> = new Map([
  [vera, '7305'],
  [henk, '4692'],
]);

const people: readonly {
  readonly who: HandId;
  readonly name: string;
  readonly role: Role;
  readonly language?: Language;
}[] = [
  { who: vera, name: 'Vera', role: 'supervisor' },
  { who: henk, name: 'Henk', role: 'supervisor' },
  { who: piet, name: 'Piet', role: 'sewer' },
  { who: ines, name: 'Ines', role: 'sewer' },
  { who: tomas, name: 'Tomas', role: 'sewer', language: 'es' },
  { who: maj, name: 'Maj', role: 'sewer' },
  { who: ruth, name: 'Ruth', role: 'auditor' },
];
