import { type XmlElement, XmlText } from '@rgrove/parse-xml';
import { readNumbers } from './numbers.ts';

/** Words of a text that follow each other, from one place. `of` is the element whose looks they have. */
interface Run {
  words: string;
  readonly x: number;
  readonly y: number;
  readonly of: XmlElement;
}

/** The words of a `text`, parted where a `tspan` begins somewhere else. Places are those of the file, no transform applied. */
export function textRuns(text: XmlElement): readonly Readonly<Run>[] {
  let run: Run = { words: '', x: number(text, 'x') ?? 0, y: number(text, 'y') ?? 0, of: text };
  const runs = [run];
  const collect = (element: XmlElement): void => {
    for (const child of element.children) {
      if (child instanceof XmlText) run.words += child.text;
      else if ('attributes' in child && child.name === 'tspan') {
        const [x, y, dy] = [number(child, 'x'), number(child, 'y'), number(child, 'dy')];
        if (x !== undefined || y !== undefined || dy !== undefined) {
          run = { words: '', x: x ?? run.x, y: (y ?? run.y) + (dy ?? 0), of: child };
          runs.push(run);
        }
        collect(child);
      }
    }
  };
  collect(text);
  return runs;
}

const number = (element: XmlElement, name: string): number | undefined =>
  readNumbers(element.attributes[name] ?? '')?.[0];
