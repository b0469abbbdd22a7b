/** What stands in the practice room's folder for whoever finds it. */
export const readme = (name: string): string => `# ${name}

Everything in this folder is invented: the workroom, its people, procedures, rolls, bundles and readings. It is there to
be played with. Nothing here is a real person, firm or job, and no reading was ever measured.

Vera signs with the PIN 7305, Henk with 4692. Printed PINs are for practice only: a PIN of your own is told to nobody.

- \`procedures/\`: four procedures. Change one and release it to see what a new revision does.
- \`media/\`: their drawings.
- \`.walkfoot/\`: the ledger, in which nothing is ever changed.

The procedures are common practice, no source. They are no instruction for your machines: local codes, machine makers'
manuals and competent people decide. The program reminds; it guards nothing.

To start afresh, delete this folder and run \`walkfoot demo\` again.
`;
