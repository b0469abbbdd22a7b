import { ok, type Result, refuse } from '../base/result.ts';
import type { KeptText } from '../ledger/ledger-store.ts';
import { nameInside } from './name-inside.ts';
import { readPicture } from './picture-files.ts';
import type { ProcedureFile } from './procedure-files.ts';

/** What a release freezes. */
export interface ReleaseTexts {
  readonly procedure: KeptText;
  /** One for each address, in the order given; the same picture may come twice. */
  readonly pictures: readonly (KeptText & { readonly address: string })[];
}

/**
 * Gathers a procedure's text and its pictures, ready to be kept. `addresses` are its pictures' as written, without
 * fragments. Refused when the file or a picture is not in the room or cannot be read.
 */
export function releaseTexts(room: string, file: ProcedureFile, addresses: readonly string[]): Result<ReleaseTexts> {
  if (nameInside(room, file.path) === undefined) {
    return refuse(
      'procedure-outside',
      `${file.name} is not in the room: copy it into procedures/ before it is released.`,
    );
  }
  const pictures: (KeptText & { readonly address: string })[] = [];
  for (const address of addresses) {
    const picture = readPicture(room, file.name, address);
    if (!picture.ok) return picture;
    pictures.push({ address, ...picture.value });
  }
  return ok({ procedure: { digest: file.digest, name: file.name, bytes: file.bytes }, pictures });
}
