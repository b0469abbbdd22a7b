import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { desk } from '../../src/commands/desk.ts';
import { listHands, setLanguage } from '../../src/commands/hand.ts';
import { proofreadCommand } from '../../src/commands/proofread.ts';
import { receipt } from '../../src/commands/receipt.ts';
import { releaseProcedure } from '../../src/commands/release.ts';
import { openStation, sew, sew as sewTicket } from '../../src/commands/sew.ts';
import { station } from '../../src/commands/station.ts';
import { ticket } from '../../src/commands/ticket.ts';
import { verify } from '../../src/commands/verify.ts';
import { who } from '../../src/commands/who.ts';
import { tempFolder } from '../storage/temp-folder.ts';
import { callDemo, called } from './demo-room.ts';

/** A practice room, where Tomas reads Spanish; everything in it by lines of input. */
async function practice() {
  const cwd = tempFolder();
  await callDemo(cwd, 'room');
  const room = join(cwd, 'room');
  const sheet = join(room, 'procedures/LIN-2207.es.md');
  return {
    cwd,
    room,
    rewrite: (from: string, to: string) => {
      const text = readFileSync(sheet, 'utf8');
      expect(text).toContain(from);
      writeFileSync(sheet, text.replace(from, to));
    },
    sew: (hand: string, ...lines: readonly string[]) =>
      called(
        (io) => sew('B-1047', { room, hand, plain: true }, io),
        cwd,
        undefined,
        lines.map((line) => `${line}\n`).join(''),
      ),
    who: (options: Parameters<typeof who>[1]) => called((io) => who('B-1047', { room, ...options }, io), cwd),
    release: () =>
      called(
        (io) => releaseProcedure('LIN-2207', { room, hand: 'Vera', openBundles: 'finish' }, io),
        cwd,
        undefined,
        '7305\n',
      ),
    verify: () => called((io) => verify(undefined, { room }, io), cwd),
  };
}

test('a sewer plays their language: its words on the screen, the main text’s ids, limits and values in the ledger', async () => {
  const { sew, who, verify } = await practice();
  const played = await sew('Tomas', '21', '22', '', 'R-1', 'R-2', 'igual', '');
  expect(played.out).toContain('Piezas en el atado, exacto 22 pcs');
  expect(played.out).toContain('21 no llega a 22 por 1');
  expect(played.out).toContain('Aguja. La aguja puede atravesarte el dedo.');
  const rows = JSON.parse((await who({ json: true })).out);
  const checks = rows.filter(({ kind }: { kind: string }) => kind === 'checked');
  expect(checks).toHaveLength(7);
  expect(checks.every(({ language }: { language: string }) => language === 'es')).toBe(true);
  expect(checks.at(-2)).toMatchObject({ point: 'Shade against the swatch', value: 'match', verdict: 'within' });
  const text = await who({ step: '1', text: true });
  expect(text.out).toMatch(/1 Count the kit.*Tomas read it in es.*1 Contar las piezas/s);
  expect(await verify()).toMatchObject({ code: 0 });
});

test('another hand plays the main text of the same bundle, and a language is changed from the next taking up on', async () => {
  const { sew, room, cwd } = await practice();
  await sew('Tomas', '22');
  expect((await sew('Ines', '')).out).toContain('Left and right corner patches');
  const changed = await called((io) => setLanguage('Ines', 'es', { room }, io), cwd);
  expect(changed).toMatchObject({ code: 0, out: 'Ines reads español.\n' });
  expect((await called((io) => listHands({ room }, io), cwd)).out).toMatch(/OP-02 .*Ines .*español/);
  expect((await sew('Ines')).out).toContain('Rollo del vinilo liso');
  expect(await called((io) => setLanguage('Ines', 'klingon', { room }, io), cwd)).toMatchObject({
    code: 2,
    err: expect.stringContaining('en, es, vi, zh-Hans'),
  });
});

test('a receipt lists both texts, and is good', async () => {
  const { sew, room, cwd } = await practice();
  await sew('Tomas', '22', '');
  const key = JSON.parse((await called((io) => station({ room, json: true }, io), cwd)).out).key as string;
  expect(await called((io) => receipt('B-1047', { room }, io), cwd)).toMatchObject({ code: 0 });
  expect(readFileSync(join(cwd, 'B-1047.receipt'), 'utf8').match(/^text /gm)).toHaveLength(2);
  expect(await called((io) => verify('B-1047.receipt', { room, key }, io), cwd)).toMatchObject({ code: 0 });
});

test('a changed sheet is a new revision, one that does not agree is released by nobody, and proofreading says why', async () => {
  const { rewrite, release, room, cwd } = await practice();
  rewrite('Rollo del vinilo liso', 'Número de rollo del vinilo liso');
  expect(await release()).toMatchObject({ code: 0, out: expect.stringContaining('revision D is released') });
  rewrite('(312 ±1.5 of', '(312 ±2.5 of');
  expect(await release()).toMatchObject({ code: 2, err: expect.stringContaining('LIN-2207.es.md, line') });
  const read = await called((io) => proofreadCommand([], { room }, io), cwd);
  expect(read).toMatchObject({
    code: 1,
    out: expect.stringContaining('limit of point 2: the main text has 310.5 to 313.5 mm'),
  });
});

test('in a room that speaks Spanish everybody does who has said nothing else, before and after signing on', async () => {
  const { sew, room, cwd } = await practice();
  const file = join(room, 'walkfoot.yaml');
  writeFileSync(file, readFileSync(file, 'utf8').replace('language: en', 'language: es'));
  const strange = await called((io) => openStation({ room, plain: true }, io), cwd, undefined, 'zoe\nleave\n');
  expect(strange.out).toContain('¿Quién está? Nombre o tarjeta');
  expect(strange.out).toContain('Nadie aquí se llama zoe');
  expect((await sew('Ines')).out).toContain('Contar las piezas');
  await called((io) => setLanguage('Ines', 'en', { room }, io), cwd);
  expect((await sew('Ines')).out).toContain('Count the kit');
});

test('while the main text has errors its sheet has one finding, which says so', async () => {
  const { room, cwd } = await practice();
  const file = join(room, 'procedures/LIN-2207.md');
  writeFileSync(file, readFileSync(file, 'utf8').replace('pcs (22)', 'pcs (22'));
  const sheet = [join(room, 'procedures/LIN-2207.es.md')];
  const read = await called((io) => proofreadCommand(sheet, { room, json: true }, io), cwd);
  expect(read.code).toBe(1);
  const errors = JSON.parse(read.out).filter(({ severity }: { severity: string }) => severity === 'error');
  expect(errors).toMatchObject([{ rule: 'sheet-differs', mend: 'Mend procedures/LIN-2207.md first.' }]);
});

test('a sheet that cannot be read is a finding of its draft', async () => {
  const { room, cwd } = await practice();
  writeFileSync(join(room, 'procedures/LIN-2207.es.md'), Buffer.from([0xff, 0xfe, 0x41]));
  const seen = await called((io) => desk({ room, json: true }, io), cwd);
  const rows = JSON.parse(seen.out) as readonly {
    readonly kind: string;
    readonly procedure?: string;
    readonly errors?: number;
  }[];
  expect(rows.filter(({ kind }) => kind === 'draft').find((row) => row.procedure === 'LIN-2207')).toMatchObject({
    errors: 1,
  });
});

test('what changed is told by the sheets in the hand’s language, limits and all', async () => {
  const { sew, room, cwd, rewrite, release } = await practice();
  await sew('Tomas', '22');
  const main = join(room, 'procedures/LIN-2207.md');
  writeFileSync(main, readFileSync(main, 'utf8').replaceAll('(312 ±1.5 of', '(312 ±1 of'));
  rewrite('(312 ±1.5 of', '(312 ±1 of');
  rewrite('(312 ±1.5 of', '(312 ±1 of');
  expect(await release()).toMatchObject({ code: 0, out: expect.stringContaining('revision D is released') });
  await called((io) => ticket('LIN-2207', { room, name: 'B-77' }, io), cwd);
  const tomas = await called((io) => sewTicket('B-77', { room, hand: 'Tomas', plain: true }, io), cwd, undefined, '\n');
  expect(tomas.out).toMatch(/paso 4, más estrecho: límite: .*: 310\.5 a 313\.5 mm → 311 a 313 mm/);
  expect(tomas.out).not.toMatch(/\bto\b \d|limit/);
});
