import type { XmlElement } from '@rgrove/parse-xml';

/** What an element says of its looks, in its `style` or else in an attribute of that name. */
export function styleOf({ attributes }: XmlElement): (name: string) => string | undefined {
  const declared = new Map(
    (attributes.style ?? '').split(';').map((each) => {
      const colon = each.indexOf(':');
      return [each.slice(0, colon).trim(), each.slice(colon + 1).trim()] as const;
    }),
  );
  return (name) => declared.get(name) ?? attributes[name]?.trim();
}

/** What a browser lets a style change of where a thing is and how large. No drawing program needs it. */
const PLACED = 'transform|translate|rotate|scale|zoom|d|c?x|c?y|r[xy]?|width|height';

/** The property by which a style moves, turns or sizes what the numbers of the drawing say, or in a style sheet hides it; `undefined` for none. */
export function placedByStyle(element: XmlElement): string | undefined {
  if (element.name !== 'style') return property(element.attributes.style ?? '', PLACED);
  const rules = Array.from(element.text.matchAll(/([^{}]*)\{([^{}]*)\}/g));
  // How large the whole is shown makes no difference to what is in it.
  const ofParts = rules.filter(([, of = '']) => of.trim() !== 'svg').map(([, , declared = '']) => declared);
  return ofParts.map((each) => property(each, `${PLACED}|display|visibility`)).find((found) => found !== undefined);
}

const property = (declared: string, names: string): string | undefined =>
  new RegExp(`(?:^|;)\\s*(${names})\\s*:`, 'i').exec(declared)?.[1];
