import { parseXml, XmlDocumentType, XmlElement, XmlError, XmlProcessingInstruction } from '@rgrove/parse-xml';
import type { Problem } from '../base/collect-findings.ts';
import type { Source } from '../base/source.ts';

/** Characters and elements of a drawing; one of this program's own has some 9,000 and 120. The parser calls itself for each level, of which there are no more than elements. */
const LARGEST = 2_000_000;
const MOST_ELEMENTS = 5_000;

/** The root element of a drawing; `undefined` where there is none that may be read, which is noted. */
export function readTree(source: Source, note: (problem: Problem) => void): XmlElement | undefined {
  const say = (rule: string, at: number, message: string, found: string, mend: string): undefined => {
    note({ rule, at, message, found, mend });
    return undefined;
  };
  const { text } = source;
  if (text.length > LARGEST) {
    const mend = `Keep a drawing below ${LARGEST / 1_000_000} million characters: leave out pictures laid into it, and simplify its paths.`;
    return say('drawing-large', 0, 'This drawing is too large to be read.', `${text.length} characters`, mend);
  }
  const count = text.match(/<[^!?/]/g)?.length ?? 0;
  if (count > MOST_ELEMENTS) {
    const mend = `Keep a drawing below ${MOST_ELEMENTS} elements, or make several drawings of it.`;
    return say('drawing-large', 0, 'This drawing has too many elements to be read.', `${count} elements`, mend);
  }
  try {
    const whole = parseXml(text, { includeOffsets: true, preserveDocumentType: true });
    for (const node of whole.children) {
      const found = text.slice(node.start, node.end);
      if (node instanceof XmlDocumentType) {
        const message = 'A DOCTYPE can declare things that are not in the file.';
        say('drawing-unsafe', node.start, message, found, 'Take the whole <!DOCTYPE …> out.');
      }
      if (node instanceof XmlProcessingInstruction) {
        const message = 'An instruction to other programs stands here, such as to fetch a style sheet.';
        say('drawing-unsafe', node.start, message, found, 'Take it out, from <? to ?>.');
      }
    }
    const root = whole.root;
    if (root && isTooDeep(root)) {
      const mend = 'Take groups and words apart until they stand in each other no more than 40 levels deep.';
      return say('drawing-deep', root.start, 'Things stand in each other hundreds of levels deep.', '', mend);
    }
    if (root?.name === 'svg' && root.attributes.xmlns === SVG) return root;
    const mend = `Begin the file with <svg xmlns="${SVG}" …>.`;
    const found = text.slice(root?.start ?? 0, root?.end);
    return say('drawing-not-svg', root?.start ?? 0, 'This file is no SVG drawing.', found, mend);
  } catch (error) {
    if (error instanceof XmlError) {
      const [message = ''] = error.message.split(/ \(line \d+/);
      const at = Math.min(error.pos, text.length);
      const mend = 'Mend it there, or save the drawing again from the program it was drawn with.';
      return say('drawing-unreadable', at, `The drawing cannot be read: ${plain(message)}.`, text.slice(at), mend);
    }
    throw error;
  }
}

const SVG = 'http://www.w3.org/2000/svg';

/** Whoever reads the text of an element calls itself for each level under it, and must not run out of room. */
const DEEPEST = 200;

/** Looked at level by level, without a call for each. */
function isTooDeep(root: XmlElement): boolean {
  let level: readonly XmlElement[] = [root];
  for (let depth = 0; depth < DEEPEST; depth++) level = level.flatMap(elementsOf);
  return level.length > 0;
}

/** The parser's reason as part of a sentence. */
const plain = (reason: string): string => reason.replaceAll('`', '').replace(/^./, (letter) => letter.toLowerCase());

/** Offset of the value of an attribute, or of the element where it has none. */
export function placeOfValue({ text }: Source, element: XmlElement, name: string): number {
  const attribute = /\s([^\s=>]+)\s*=\s*("[^"]*"|'[^']*')/gy;
  attribute.lastIndex = element.start + 1 + element.name.length;
  for (let found = attribute.exec(text); found !== null; found = attribute.exec(text))
    if (found[1] === name) return attribute.lastIndex - (found[2]?.length ?? 0) + 1;
  return element.start;
}

export const elementsOf = (parent: XmlElement): readonly XmlElement[] =>
  parent.children.filter((child) => child instanceof XmlElement);
