import Fraction from 'fraction.js';

/**
 * Ways of numbering thread: by mass (`tex` g in 1,000 m, `dtex` g in 10,000 m, `den` g in 9,000 m), or by length (`Nm` metres to the gram,
 * `Ne` hanks of 840 yards to the pound, and the tickets, three times the Nm or Ne of the finished thread).
 */
export const threadNumberings = ['tex', 'dtex', 'den', 'Nm', 'Ne', 'metric ticket', 'cotton ticket'] as const;
export type ThreadNumbering = (typeof threadNumberings)[number];

/**
 * The same thread in another numbering, exact, by the definitions of the Tex system (ISO 1144) with a yard of 0.9144 m and a pound of
 * 453.59237 g (24 FR 5348, 1959). A number on a cone is nominal: a ticket 40 may measure 70 to 80 tex. `amount` is above 0.
 */
export function threadNumber(amount: Fraction, from: ThreadNumbering, to: ThreadNumbering): Fraction {
  const tex = inTex(amount, from);
  // By mass or by length, each numbering is its own way back.
  const { by, size } = NUMBERINGS[to];
  return by === 'mass' ? tex.mul(size) : size.div(tex);
}

function inTex(amount: Fraction, from: ThreadNumbering): Fraction {
  const { by, size } = NUMBERINGS[from];
  return by === 'mass' ? amount.div(size) : size.div(amount);
}

/** Grams in 1,000 m of a thread of which one hank of 840 yards weighs a pound. */
const TEX_OF_NE_1 = new Fraction('453.59237').mul(1000).div(new Fraction('0.9144').mul(840));

/** `mass`: one tex in this numbering; `length`: the tex of a thread with the number 1. */
const NUMBERINGS: Readonly<Record<ThreadNumbering, { readonly by: 'mass' | 'length'; readonly size: Fraction }>> = {
  tex: { by: 'mass', size: new Fraction(1) },
  dtex: { by: 'mass', size: new Fraction(10) },
  den: { by: 'mass', size: new Fraction(9) },
  Nm: { by: 'length', size: new Fraction(1000) },
  Ne: { by: 'length', size: TEX_OF_NE_1 },
  'metric ticket': { by: 'length', size: new Fraction(3000) },
  'cotton ticket': { by: 'length', size: TEX_OF_NE_1.mul(3) },
};
