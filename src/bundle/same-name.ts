/** Whether two names are the same to a person: letters of either case, however composed, without spaces around them. */
export const sameName = (a: string, b: string): boolean => nameKey(a) === nameKey(b);

/** The name among `known` that somebody meant by what they typed or scanned. */
export const named = <T extends string>(known: Iterable<T>, typed: string): T | undefined =>
  [...known].find((each) => sameName(each, typed));

/** The same for every spelling of a name. */
export const nameKey = (name: string): string => name.trim().normalize('NFC').toLowerCase();
