import { findHand } from '../app/find-hand.ts';
import { ok, type Result } from '../base/result.ts';
import type { KeptText } from '../ledger/ledger-store.ts';
import { readProcedure } from '../procedure/read-procedure.ts';
import { findingsText } from '../reports/findings.ts';
import { readPicture } from '../storage/picture-files.ts';
import { findProcedure, textOf } from '../storage/procedure-files.ts';
import { inRoom, type OpenRoom, type RoomOption } from './in-room.ts';
import { cannot, type ExitCode, type Io } from './io.ts';

interface ReleaseOptions extends RoomOption {
  readonly hand: string;
  readonly json?: boolean;
}

/** Freezes a draft and its pictures, by digest, as the next revision; refuses while the draft has errors. */
export function releaseProcedure(named: string, options: ReleaseOptions, io: Io): Promise<ExitCode> {
  return inRoom(options, io, async (open) => {
    const hand = findHand(open.ledger.room(), options.hand);
    if (!hand.ok) return cannot(io, hand.error.message);
    const draft = findProcedure(open.room.folder, named);
    if (!draft.ok) return cannot(io, draft.error.message);
    const text = textOf(draft.value.bytes);
    if (text === undefined)
      return cannot(io, `${draft.value.name} is no UTF-8 text: save it as UTF-8 and release again.`);
    const { procedure, findings } = readProcedure(text, draft.value.name);
    if (findings.some(({ severity }) => severity === 'error')) {
      io.err(findingsText(findings, new Map([[draft.value.name, text]])));
      io.err(`Not released: mend the errors in ${draft.value.name} first.\n`);
      return 1;
    }
    const pictures = gather(
      open,
      draft.value.path,
      procedure.steps.flatMap((step) => step.pictures.map(({ address }) => address)),
    );
    if (!pictures.ok) return cannot(io, pictures.error.message);
    const { name, bytes, digest } = draft.value;
    // The texts are on disk before the entry that names them.
    await open.store.keep([{ digest, name, bytes }, ...pictures.value.map(({ kept }) => kept)]);
    const done = await open.ledger.attempt(null, {
      do: 'release',
      hand: hand.value.id,
      procedure: procedure.id,
      title: procedure.title,
      digest,
      pictures: pictures.value.map(({ address, kept }) => ({ address, digest: kept.digest })),
    });
    if (!done.ok) return cannot(io, done.error.message);
    const revision = done.value.room.releases.get(procedure.id)?.at(-1)?.revision ?? '';
    if (options.json) io.out(`${JSON.stringify({ procedure: procedure.id, revision, digest })}\n`);
    else
      io.out(
        `${procedure.id} revision ${revision} is released by ${hand.value.name}. Bundles opened from now on are sewn by it.\n`,
      );
    return 0;
  });
}

function gather(
  { room }: OpenRoom,
  path: string,
  addresses: readonly string[],
): Result<readonly { readonly address: string; readonly kept: KeptText }[]> {
  const gathered: { readonly address: string; readonly kept: KeptText }[] = [];
  for (const address of new Set(addresses)) {
    const picture = readPicture(room.folder, path, address);
    if (!picture.ok) return picture;
    gathered.push({ address, kept: picture.value });
  }
  return ok(gathered);
}
