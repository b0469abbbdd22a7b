/** A fragment inside a whole procedure. A fragment that brings its own front matter or headings keeps them. */
export function wrap(fragment: string): string {
  if (fragment.startsWith('---')) return fragment;
  const step = fragment.startsWith('## ') ? '' : '## Sew the sleeves\n\n';
  const hasPoint = /^[ >]*(?:[-*+]|\d+[.)]) \[ \] \S/m.test(fragment);
  return `---\nprocedure: LIN-1\ntitle: Lining\nvalues:\n  allowance: 12\n---\n\n# Lining\n\n${step}${fragment}\n${hasPoint ? '' : '\n- [ ] Sleeves lie flat\n'}`;
}
