import type { XmlElement } from '@rgrove/parse-xml';

/** Something in an element that could run, fetch or bring in what is not drawn. */
interface Unsafe {
  /** The attribute it is in; `null` when it is the element itself. */
  readonly attribute: string | null;
  readonly message: string;
  readonly mend: string;
}

/** What must not be in a drawing, whoever may have put it there: a browser that prints the drawing would obey it. */
export function unsafeIn(element: XmlElement): readonly Unsafe[] {
  const [name = ''] = element.name.toLowerCase().split(':').slice(-1);
  const found: Unsafe[] = [];
  if (FORBIDDEN.has(name)) {
    const message = `A drawing holds no ${element.name}: it could do something when it is shown.`;
    found.push({ attribute: null, message, mend: `Take the ${element.name} out, with all that is in it.` });
  }
  if (name === 'style' && fetches(element.text)) {
    found.push({ attribute: null, message: ELSEWHERE, mend: 'Take @import and url(…) out of the style.' });
  }
  for (const [attribute, value] of Object.entries(element.attributes)) {
    const [local = ''] = attribute.toLowerCase().split(':').slice(-1);
    if (local.startsWith('on')) {
      const message = `${attribute} would run when the drawing is shown.`;
      found.push({ attribute, message, mend: `Take ${attribute} out.` });
    } else if (local === 'href' || local === 'src' || local === 'base') {
      if (value.trim().startsWith('#')) continue;
      const mend = 'Draw it here, or name a thing of this drawing by # and its id.';
      found.push({ attribute, message: ELSEWHERE, mend });
    } else if (fetches(value)) {
      found.push({
        attribute,
        message: ELSEWHERE,
        mend: 'Take url(…) out, or name a thing of this drawing: url(#id).',
      });
    }
  }
  return found.slice(0, MOST_SAID);
}

/** Of one element; a file made to keep a reader busy has a hundred thousand. */
const MOST_SAID = 20;

const ELSEWHERE = 'A drawing holds all that it shows, and this points elsewhere.';

const FORBIDDEN: ReadonlySet<string> = new Set([
  'script',
  'foreignobject',
  'handler',
  'listener',
  'iframe',
  'object',
  'embed',
  'audio',
  'video',
]);

/** Styles may hide letters behind a backslash; none of ours needs one. A picture can be fetched by its plain name, without url. */
function fetches(style: string): boolean {
  if (/@import|(?:image|image-set|src)\(/i.test(style) || (/\\/.test(style) && /[:(@]/.test(style))) return true;
  return Array.from(style.matchAll(/url\(\s*["']?\s*(.?)/gi)).some(([, first]) => first !== '#');
}
