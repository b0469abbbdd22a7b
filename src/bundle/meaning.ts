/** What a signature says: what the one who signed answers for. */
export const meanings = [
  'done',
  'witnessed',
  'settled',
  'released',
  'withdrawn',
  'struck',
  'typed from paper',
  'reprinted',
  'enrolled',
  'retired',
  'keyed',
  'PIN set',
  'skill entered',
  'signed on',
] as const;

export type Meaning = (typeof meanings)[number];
