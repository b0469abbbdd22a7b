/** What stands in a drawing of 200 by 100 mm, as a whole file. A text that begins with `<svg`, `<?` or `<!` is one already. */
export const svg = (inside: string): string =>
  /^¦?<(?:svg|\?|!)/.test(inside)
    ? inside
    : `<svg xmlns="http://www.w3.org/2000/svg" width="200mm" height="100mm" viewBox="0 0 200 100">\n${inside}\n</svg>\n`;
