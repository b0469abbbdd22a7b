import { randomBytes } from 'node:crypto';
import { SALT_BYTES } from '../../app/perform.ts';
import type { HandId } from '../../base/brand.ts';
import { type Role, THE_ROOM } from '../../bundle/entries.ts';
import { sealPin } from '../../ledger/scrypt-pin.ts';
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
  for (const { who, name, role } of people) {
    // Their badges say in the list of hands what they are.
    const badge = `INVENTED-${who}`;
    await happens(stage, null, { do: 'enrol', hand: who === vera ? THE_ROOM : vera, who, name, role, badge });
    stage.time.pass(45);
    const pin = practicePins.get(who);
    if (pin === undefined) continue;
    await happens(stage, null, { do: 'set pin', hand: who, who, ...(await sealPin(pin, randomBytes(SALT_BYTES))) });
    stage.time.pass(30);
  }
}

/** Invented and printed, as no other PIN is. */
const practicePins: ReadonlyMap<HandId, string> = new Map([
  [vera, '7305'],
  [henk, '4692'],
]);

const people: readonly { readonly who: HandId; readonly name: string; readonly role: Role }[] = [
  { who: vera, name: 'Vera', role: 'supervisor' },
  { who: henk, name: 'Henk', role: 'supervisor' },
  { who: piet, name: 'Piet', role: 'sewer' },
  { who: ines, name: 'Ines', role: 'sewer' },
  { who: tomas, name: 'Tomas', role: 'sewer' },
  { who: maj, name: 'Maj', role: 'sewer' },
  { who: ruth, name: 'Ruth', role: 'auditor' },
];
