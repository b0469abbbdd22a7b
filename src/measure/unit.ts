import Fraction from 'fraction.js';

/** Kinds of quantity; only units of one kind convert into each other. */
export type UnitKind =
  | 'length'
  | 'mass'
  | 'force'
  | 'pressure'
  | 'temperature'
  | 'ratio'
  | 'count'
  | 'time'
  | 'stitch density';

/** The units a blank may have, spelled as in a procedure and on every screen. */
export type UnitId =
  | 'mm'
  | 'cm'
  | 'm'
  | 'in'
  | 'g'
  | 'kg'
  | 'N'
  | 'kPa'
  | '°C'
  | '°F'
  | '%'
  | 'pcs'
  | 's'
  | 'min'
  | 'h'
  | 'st/100mm'
  | 'st/25mm'
  | 'spi';

/**
 * The unit a spelling stands for, or `undefined`. Symbols keep the case the SI gives them (`M` is no metre, `Mm` no
 * millimetre, `n` no newton), but symbols of several letters are also known wholly in capitals, because scanners and a
 * stuck shift key write `MM`. English words are known in any case. A foot mark is no unit here.
 */
export function findUnit(text: string): UnitId | undefined {
  if (text.length > LONGEST_SPELLING) return undefined;
  const tidy = text.trim().replace(/\s+/g, ' ');
  return SYMBOLS.get(tidy) ?? WORDS.get(tidy.toLowerCase()) ?? densityUnit(tidy);
}

export function unitKind(unit: UnitId): UnitKind {
  return UNITS[unit].kind;
}

/** The units that convert into each other, the one most used in a procedure first. */
export function unitsOfKind(kind: UnitKind): readonly UnitId[] {
  return UNIT_IDS.filter((unit) => UNITS[unit].kind === kind);
}

/**
 * The same amount in another unit of the same kind, exact. An inch is 25.4 mm (24 FR 5348, 1959); degrees Fahrenheit are
 * (F - 32) x 5/9 degrees Celsius (NIST SP 811, B.8); stitch densities are counts over 100 mm, 25 mm and 25.4 mm.
 * Throws when the kinds differ, which the caller has ruled out.
 */
export function convert(amount: Fraction, from: UnitId, to: UnitId): Fraction {
  const source = UNITS[from];
  const target = UNITS[to];
  if (source.kind !== target.kind) throw new Error(`${from} does not convert into ${to}`);
  return amount.sub(source.zero).mul(source.size).div(target.size).add(target.zero);
}

interface UnitFacts {
  readonly kind: UnitKind;
  /** One of this unit, in the kind's first unit. */
  readonly size: Fraction;
  /** What this unit reads where the kind's first unit reads 0. */
  readonly zero: Fraction;
}

const facts = (kind: UnitKind, size: string, zero = '0'): UnitFacts => ({
  kind,
  size: new Fraction(size),
  zero: new Fraction(zero),
});

const UNITS: Readonly<Record<UnitId, UnitFacts>> = {
  mm: facts('length', '1'),
  cm: facts('length', '10'),
  m: facts('length', '1000'),
  in: facts('length', '25.4'),
  g: facts('mass', '1'),
  kg: facts('mass', '1000'),
  N: facts('force', '1'),
  kPa: facts('pressure', '1'),
  '°C': facts('temperature', '1'),
  '°F': facts('temperature', '5/9', '32'),
  '%': facts('ratio', '1'),
  pcs: facts('count', '1'),
  s: facts('time', '1'),
  min: facts('time', '60'),
  h: facts('time', '3600'),
  'st/100mm': facts('stitch density', '1'),
  'st/25mm': facts('stitch density', '4'),
  spi: facts('stitch density', '500/127'),
};

const UNIT_IDS = Object.keys(UNITS) as UnitId[];

const SYMBOLS: ReadonlyMap<string, UnitId> = new Map<string, UnitId>([
  ...UNIT_IDS.map((unit): [string, UnitId] => [unit, unit]),
  ...(['mm', 'cm', 'in', 'kg', 'kPa'] as const).map((unit): [string, UnitId] => [unit.toUpperCase(), unit]),
  ['"', 'in'],
  ['″', 'in'],
  ['”', 'in'],
  ['C', '°C'],
  ['° C', '°C'],
  ['℃', '°C'],
  ['degC', '°C'],
  ['deg C', '°C'],
  ['F', '°F'],
  ['° F', '°F'],
  ['℉', '°F'],
  ['degF', '°F'],
  ['deg F', '°F'],
]);

const WORDS: ReadonlyMap<string, UnitId> = new Map<string, UnitId>([
  ['millimetre', 'mm'],
  ['millimetres', 'mm'],
  ['millimeter', 'mm'],
  ['millimeters', 'mm'],
  ['centimetre', 'cm'],
  ['centimetres', 'cm'],
  ['centimeter', 'cm'],
  ['centimeters', 'cm'],
  ['metre', 'm'],
  ['metres', 'm'],
  ['meter', 'm'],
  ['meters', 'm'],
  ['inch', 'in'],
  ['inches', 'in'],
  ['gram', 'g'],
  ['grams', 'g'],
  ['kilogram', 'kg'],
  ['kilograms', 'kg'],
  ['newton', 'N'],
  ['newtons', 'N'],
  ['percent', '%'],
  ['per cent', '%'],
  ['pc', 'pcs'],
  ['pcs', 'pcs'],
  ['piece', 'pcs'],
  ['pieces', 'pcs'],
  ['sec', 's'],
  ['second', 's'],
  ['seconds', 's'],
  ['min', 'min'],
  ['mins', 'min'],
  ['minute', 'min'],
  ['minutes', 'min'],
  ['hour', 'h'],
  ['hours', 'h'],
  ['spi', 'spi'],
]);

const LONGEST_SPELLING = 40;
const DENSITY = /^(?:st|stitches)? ?(?:\/|per) ?(?:(100|25) ?mm|in|inch)$/i;

function densityUnit(text: string): UnitId | undefined {
  const found = DENSITY.exec(text);
  if (!found) return undefined;
  if (found[1] === undefined) return 'spi';
  return found[1] === '100' ? 'st/100mm' : 'st/25mm';
}
