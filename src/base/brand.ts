/** A string that must not be mixed up with another kind of string; made by `as` at the place that checked it. */
type Brand<Name extends string> = string & { readonly __brand: Name };

/** SHA-256 in lower-case hexadecimal, 64 characters. */
export type Digest = Brand<'Digest'>;
/** Name of a procedure, such as `LIN-2207`. */
export type ProcedureId = Brand<'ProcedureId'>;
/** Name of a step within its procedure, made from its words or pinned with `{#id}`. */
export type StepId = Brand<'StepId'>;
/** Name of a point within its step. */
export type PointId = Brand<'PointId'>;
/** Name on a bundle's ticket, such as `B-1041`. */
export type TicketId = Brand<'TicketId'>;
/** Name of a hand in the ledger, such as `OP-02`. */
export type HandId = Brand<'HandId'>;
