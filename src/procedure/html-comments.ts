import type { Span } from './inline-spans.ts';

/**
 * The comments in a piece of HTML, in order. `<!-->` and `<!--->` are whole comments (CommonMark 0.31.2, section 6.6): taken for the
 * beginning of one, they would hide every point below them. A comment that never ends goes to the end.
 */
export function htmlComments(html: string): readonly (Span & { readonly is: 'closed' | 'open' })[] {
  return [...html.matchAll(/<!--(?:-?>|[\s\S]*?-->|([\s\S]*))/g)].map(({ 0: comment, 1: rest, index }) => ({
    start: index,
    end: index + comment.length,
    is: rest === undefined ? 'closed' : 'open',
  }));
}
