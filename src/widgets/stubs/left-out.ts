/**
 * Stands in the bundle for libraries that marked-terminal loads but prose never reaches: its ways of drawing code, tables, emoji and
 * links are replaced or switched off. They would be most of the chunk's weight and of its time to load. Calling one is a bug.
 */
export const highlight = leftOut;
export const get = leftOut;
export default leftOut;

function leftOut(): never {
  throw new Error('left out of the bundle: prose does not use it');
}
