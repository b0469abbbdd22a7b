/** The texts in quotes of a file of the program, with `{}` for what is put in; not those of imports and of errors thrown. */
export function literals(file: string): readonly string[] {
  const code = file
    .replace(/^(?:import|export)[^;]*? from '[^']*';$/gm, '')
    .replace(/new Error\([^;]*;/g, '')
    .replace(/^ *(?:\/\/|\/\*\*|\*).*$/gm, '');
  const found: string[] = [];
  let at = 0;
  /** Up to the brace that closes what is put in, or to the end. */
  const walk = (): void => {
    for (let open = 0; at < code.length; at++) {
      const sign = code[at] ?? '';
      if (sign === '{') open++;
      else if (sign === '}' && open-- === 0) return;
      else if (sign === "'" || sign === '"') quoted(sign);
      else if (sign === '`') template();
      else if (sign === '/' && /[=(,:[!&|?]\s*$/.test(code.slice(Math.max(0, at - 20), at))) pattern();
    }
  };
  const quoted = (mark: string): void => {
    let text = '';
    for (at++; at < code.length && code[at] !== mark; at++) text += code[at] === '\\' ? (code[++at] ?? '') : code[at];
    found.push(text);
  };
  const template = (): void => {
    let text = '';
    for (at++; at < code.length && code[at] !== '`'; at++) {
      if (code.startsWith('${', at)) {
        at += 2;
        walk();
        text += '{}';
      } else text += code[at] === '\\' ? (code[++at] ?? '') : code[at];
    }
    found.push(text);
  };
  const pattern = (): void => {
    for (let inClass = false; ++at < code.length && (inClass || code[at] !== '/'); ) {
      if (code[at] === '\\') at++;
      else if (code[at] === '[') inClass = true;
      else if (code[at] === ']') inClass = false;
    }
  };
  walk();
  return found;
}
