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
