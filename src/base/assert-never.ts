/** Ends a `switch` over a union: the compiler objects when a member has been forgotten. */
export function assertNever(value: never): never {
  throw new Error(`a case that cannot be: ${JSON.stringify(value)}`);
}
