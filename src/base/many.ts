/** A number of things in words: `1 set`, `2 sets`. `more` is the word for several, where it is not `one` with an s. */
export const many = (count: number, one: string, more = `${one}s`): string => `${count} ${count === 1 ? one : more}`;
