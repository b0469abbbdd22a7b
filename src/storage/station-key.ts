import { linkSync, lstatSync, readFileSync, rmSync } from 'node:fs';
import { dirname } from 'node:path';
import type { KeyPlace } from '../ledger/key-place.ts';
import { StoreTrouble } from '../ledger/ledger-store.ts';
import { newSigningKey, readSecret, type SigningKey, secretText } from '../ledger/note-key.ts';
import { replaceFile, syncFolder } from './durable.ts';
import { codeOf, inPlainWords } from './trouble.ts';

/** Only the station's user may read and write it. */
const OWN = 0o600;
/** More than a key is a file of something else. Bytes. */
const LIMIT = 4_096;

/** The station's key in this file, as PKCS #8 in PEM. */
export function keyIn(file: string, station: string): KeyPlace {
  const find = (): SigningKey | undefined => inPlainWords(file, () => read(file, station));
  return {
    find,
    make: () =>
      inPlainWords(file, () => {
        const draft = `${file}.${process.pid}`;
        replaceFile(draft, secretText(newSigningKey(station)), OWN);
        try {
          linkSync(draft, file);
        } catch (error) {
          // Another process was faster: its key is the station's.
          if (codeOf(error) !== 'EEXIST') throw error;
        } finally {
          rmSync(draft, { force: true });
        }
        syncFolder(dirname(file));
        return find() ?? neverMade(file);
      }),
    put: (key) => inPlainWords(file, () => replaceFile(file, secretText(key), OWN)),
  };
}

function read(file: string, station: string): SigningKey | undefined {
  const found = lstatSync(file, { throwIfNoEntry: false });
  if (!found) return undefined;
  if (!found.isFile() || found.size > LIMIT) throw new StoreTrouble(unusable(file, 'it is no key file'));
  if ((found.mode & 0o077) !== 0) {
    throw new StoreTrouble(
      `The station’s key ${file} can be read by others: run \`chmod 600\` on it, and if somebody may have copied it, let a supervisor make a new one with \`walkfoot station --new-key\`.`,
    );
  }
  const key = readSecret(station, readFileSync(file, 'utf8'));
  if (!key.ok) throw new StoreTrouble(unusable(file, 'it holds no key'));
  return key.value;
}

const unusable = (file: string, why: string): string =>
  `The station’s key ${file} cannot be used, ${why}: put it back from a copy, or let a supervisor make a new one with \`walkfoot station --new-key\`.`;

function neverMade(file: string): never {
  throw new StoreTrouble(unusable(file, 'it vanished as it was made'));
}
