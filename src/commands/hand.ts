import { findHand } from '../app/find-hand.ts';
import type { HandId } from '../base/brand.ts';
import { type Language, languageNames, languages } from '../base/language.ts';
import { ok, type Result } from '../base/result.ts';
import { type Role, roles, THE_ROOM } from '../bundle/entries.ts';
import type { Hand, Room } from '../bundle/room.ts';
import { levelOf, levelWords } from '../bundle/skill.ts';
import { handTable } from '../reports/hands.ts';
import { attemptSigned } from './attempt-signed.ts';
import { onLedger, type RoomOption } from './in-room.ts';
import { cannot, type ExitCode, type Io, say, sayJson, widthOf } from './io.ts';
import { unaskedSkill } from './unasked-skill.ts';

interface AddOptions extends RoomOption {
  readonly role?: string;
  readonly id?: string;
  readonly badge?: string;
  readonly language?: Language;
  readonly hand?: string;
}

/** Adds a person to the room, with the next free id of their role unless one is given. */
export function addHand(name: string, options: AddOptions, io: Io): Promise<ExitCode> {
  return onLedger(options, io, async ({ ledger }) => {
    const role = roles.find((each) => each === (options.role ?? 'sewer'));
    if (!role) return cannot(io, `A role is ${roles.join(', ')}, not ${options.role}.`);
    const by = whoActs(options.hand, ledger.room());
    if (!by.ok) return cannot(io, by.error.message);
    const who = (options.id ?? nextId(role, [...ledger.room().hands.values()])) as HandId;
    const badge = options.badge ? { badge: options.badge } : {};
    const language = options.language ? { language: options.language } : {};
    const done = await attemptSigned(
      ledger,
      null,
      { do: 'enrol', hand: by.value, who, name, role, ...badge, ...language },
      io,
    );
    if (!done.ok) return cannot(io, done.error.message);
    say(io, `${name} is ${who}, ${role}.`);
    if (role === 'supervisor') say(io, `Let ${name} choose a PIN before anybody else does: walkfoot hand pin ${who}`);
    return 0;
  });
}

interface RetireOptions extends RoomOption {
  readonly reason?: string;
  readonly hand?: string;
}

/** A retired hand can't sign on any more; what they recorded stays. */
export function retireHand(name: string, options: RetireOptions, io: Io): Promise<ExitCode> {
  return onLedger(options, io, async ({ ledger }) => {
    const who = findHand(ledger.room(), name);
    if (!who.ok) return cannot(io, who.error.message);
    const by = whoActs(options.hand, ledger.room());
    if (!by.ok) return cannot(io, by.error.message);
    const reason = options.reason ? { reason: options.reason } : {};
    const command = { do: 'retire', hand: by.value, who: who.value.id, ...reason } as const;
    const done = await attemptSigned(ledger, null, command, io);
    if (!done.ok) return cannot(io, done.error.message);
    say(io, `${who.value.name} (${who.value.id}) is retired. What they recorded stays.`);
    return 0;
  });
}

/** Enters what a hand reads, from now on. */
export function setLanguage(
  name: string,
  tag: string,
  options: RoomOption & { readonly hand?: string },
  io: Io,
): Promise<ExitCode> {
  return onLedger(options, io, async ({ ledger }) => {
    const language = languages.find((each) => each.toLowerCase() === tag.toLowerCase());
    if (!language) return cannot(io, `A language is ${languages.join(', ')}, not ${tag}.`);
    const who = findHand(ledger.room(), name);
    if (!who.ok) return cannot(io, who.error.message);
    const by = options.hand === undefined ? ok(who.value.id) : whoActs(options.hand, ledger.room());
    if (!by.ok) return cannot(io, by.error.message);
    const done = await attemptSigned(
      ledger,
      null,
      { do: 'set language', hand: by.value, who: who.value.id, language },
      io,
    );
    if (!done.ok) return cannot(io, done.error.message);
    say(io, `${who.value.name} reads ${languageNames[language]}.`);
    return 0;
  });
}

/** Enters how well a hand does an operation, from now on. */
export function setSkill(
  name: string,
  skill: string,
  level: string,
  options: RoomOption & { readonly hand?: string },
  io: Io,
): Promise<ExitCode> {
  return onLedger(options, io, async ({ ledger }) => {
    const who = findHand(ledger.room(), name);
    if (!who.ok) return cannot(io, who.error.message);
    const by = whoActs(options.hand, ledger.room());
    if (!by.ok) return cannot(io, by.error.message);
    const asked = /^\d$/.test(level) ? Number(level) : Number.NaN;
    const command = { do: 'set skill', hand: by.value, who: who.value.id, skill, level: asked } as const;
    const done = await attemptSigned(ledger, null, command, io);
    if (!done.ok) return cannot(io, done.error.message);
    const now = levelOf(done.value.room, who.value.id, skill);
    say(io, `${who.value.name}: ${skill}, ${now} ${levelWords[now]}.`);
    const unasked = await unaskedSkill(ledger, skill);
    if (unasked !== undefined) say(io, unasked);
    return 0;
  });
}

export function listHands(options: RoomOption & { readonly json?: boolean }, io: Io): Promise<ExitCode> {
  return onLedger<ExitCode>(options, io, async ({ ledger }) => {
    const { hands, skills } = ledger.room();
    const all = [...hands.values()];
    if (options.json)
      sayJson(
        io,
        all.map((each) => ({ ...each, skills: [...(skills.get(each.id)?.values() ?? [])] })),
      );
    else io.out(`${handTable(all, skills, widthOf(io))}\n`);
    return 0;
  });
}

/** `--hand NAME`, or the room itself where nobody is named. */
export function whoActs(named: string | undefined, room: Room): Result<HandId> {
  if (named === undefined) return ok(THE_ROOM);
  const hand = findHand(room, named);
  return hand.ok ? ok(hand.value.id) : hand;
}

const letters: Record<Role, string> = { sewer: 'OP', supervisor: 'V', auditor: 'AU' };

function nextId(role: Role, hands: readonly Hand[]): string {
  const numbers = hands.map(({ id }) => Number(new RegExp(`^${letters[role]}-(\\d+)$`).exec(id)?.[1] ?? 0));
  return `${letters[role]}-${String(Math.max(0, ...numbers) + 1).padStart(2, '0')}`;
}
