import type { FromPaper } from './from-paper.ts';

/** When a thing was done: as the paper says where it was on paper first, else when it was recorded. */
export const doneAt = ({ at, body }: { readonly at: string; readonly body: object }): string =>
  'paper' in body ? ((body.paper as FromPaper | undefined)?.doneAt ?? at) : at;
