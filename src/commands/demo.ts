import { readdirSync, statSync } from 'node:fs';
import { isAbsolute, relative, resolve } from 'node:path';
import { columns } from '../base/columns.ts';
import { pad } from '../base/text.ts';
import { openRoomFolder } from '../storage/room-folder.ts';
import { ROOM_FILE } from '../storage/settings.ts';
import { inPlainWords } from '../storage/trouble.ts';
import { MAKING, makePracticeRoom, PRACTICE_ROOM, type PracticeRoom } from './demo/practice-room.ts';
import { cannot, type Io } from './io.ts';

interface DemoOptions {
  /** Make the room only when it is missing, then open its station. */
  readonly open?: boolean;
}

/** Makes a practice room with invented people, procedures and bundles in a new folder; `practice-room` unless named. */
export async function demo(named: string | undefined, options: DemoOptions, io: Io): Promise<number> {
  if (/\p{C}/u.test(named ?? ''))
    return cannot(io, 'That folder has characters in its name that cannot be seen: give it another name.');
  const folder = resolve(io.cwd, named ?? 'practice-room');
  const shown = inShort(folder, io.cwd);
  switch (inPlainWords(folder, () => lookAt(folder))) {
    case 'room':
      if (!options.open)
        return cannot(io, `There is a room in ${folder} already, and it stays as it is: name another folder.`);
      if (!(await isPractice(folder)))
        return cannot(io, `${folder} is no practice room: open it with \`walkfoot --room ${shown}\`.`);
      break;
    case 'other':
      return cannot(io, `${folder} holds something else: name a new or empty folder for the practice room.`);
    case 'free':
      io.out(whatWasMade(shown, await makePracticeRoom(folder, io.clock)));
  }
  return options.open ? (await import('./sew.ts')).openStation({ room: folder }, io) : 0;
}

function lookAt(folder: string): 'free' | 'room' | 'other' {
  const found = statSync(folder, { throwIfNoEntry: false });
  if (!found) return 'free';
  if (!found.isDirectory()) return 'other';
  const names = readdirSync(folder).filter((name) => name !== MAKING);
  if (names.includes(ROOM_FILE)) return 'room';
  return names.length === 0 ? 'free' : 'other';
}

async function isPractice(folder: string): Promise<boolean> {
  const room = await openRoomFolder(folder);
  await room.close();
  return room.name === PRACTICE_ROOM;
}

/** As the person called it, where that is shorter than the whole path. */
function inShort(folder: string, cwd: string): string {
  const short = relative(cwd, folder);
  const words = short === '' ? '.' : short.startsWith('..') || isAbsolute(short) ? folder : short;
  return /^[\w./-]+$/.test(words) ? words : `'${words.replaceAll("'", String.raw`'\''`)}'`;
}

function whatWasMade(room: string, { hands, procedures, bundles, entries }: PracticeRoom): string {
  const next = [
    [`walkfoot --room ${room}`, 'the station: sign on as Ines and type B-1041'],
    [`walkfoot sew B-1047 --hand Ines --room ${room}`, 'a lining from its first step'],
    [`walkfoot who B-1042 --room ${room}`, 'who did what, and who signed the recut of C'],
  ] as const;
  const widest = Math.max(...next.map(([command]) => columns(command)));
  return [
    `${PRACTICE_ROOM} is in ${room}: ${hands} hands, ${procedures} procedures, ${bundles} bundles, ${entries} entries.`,
    'All of it is made up. Vera signs with the PIN 7305, Henk with 4692. Try next:',
    ...next.map(([command, what]) => `  ${pad(command, widest)}  ${what}`),
    '',
  ].join('\n');
}
