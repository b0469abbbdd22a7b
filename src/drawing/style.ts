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
