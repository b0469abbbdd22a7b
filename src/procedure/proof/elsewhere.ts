/** Rules of the list that no text can decide alone, and where they are kept instead; for some, that they are not kept. */
export const ELSEWHERE: ReadonlyMap<string, string> = new Map([
  [
    'L14',
    'Limit not finer than the gauge: not kept yet. The text does not say which gauge is used; it needs the table of gauges.',
  ],
  [
    'L23',
    'No loop without a stop: kept while sewing. “If out: back to” can be taken again and again, and each time the sewer may hold instead.',
  ],
  ['L24', 'Every step leads to the end: kept while sewing. Steps follow each other, and every hold can be settled.'],
  [
    'L25',
    'The second person is another one: kept while sewing. A hold point takes a role that may release it, and never the one who did the work.',
  ],
  [
    'L37',
    'Bobbin before a long visible seam: kept at the machine, which asks for a fresh bobbin where the seam would not fit; walkfoot thread says beforehand where bobbins change. The text does not state the length of a seam; the drawing does.',
  ],
  [
    'L39',
    'Revision, date, author, approver: kept at the release, which gives the revision and records who released it and when.',
  ],
  ['L40', 'A changed text raises the revision: kept at the release, and shown by walkfoot changes.'],
  [
    'L43',
    'A translation has the same steps, points, numbers and cautions: kept when both sheets are compared, not in one text.',
  ],
]);
