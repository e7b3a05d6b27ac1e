export interface XmlElement {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
  /** Text directly inside, entities resolved. */
  text: string;
}

const ENTITIES: Readonly<Record<string, string>> = { amp: '&', lt: '<', gt: '>', quot: '"', '#39': "'" };

const resolve = (text: string): string =>
  text.replace(/&([^;]*);?/g, (whole, name: string) => {
    const character = ENTITIES[name];
    if (character === undefined || !whole.endsWith(';')) throw new Error(`not an entity: ${whole}`);
    return character;
  });

/** The elements of an XML text in their order; throws where it is not well-formed (as far as drawings use XML). */
export function elementsOf(xml: string): XmlElement[] {
  const elements: XmlElement[] = [];
  const open: XmlElement[] = [];
  // biome-ignore lint/suspicious/noControlCharactersInRegex: XML 1.0 forbids them.
  if (/[\u0000-\u0008\u000b\u000c\u000e-\u001f]|\p{Surrogate}/u.test(xml)) throw new Error('a character XML forbids');
  for (const [token] of xml.matchAll(/<[^>]*>|[^<]+/g)) {
    const inside = open.at(-1);
    if (!token.startsWith('<')) {
      if (inside === undefined && token.trim() !== '') throw new Error(`text outside of the root: ${token}`);
      if (inside !== undefined) inside.text += resolve(token);
      continue;
    }
    const closing = /^<\/([\w:-]+)>$/.exec(token);
    if (closing !== null) {
      if (open.pop()?.name !== closing[1]) throw new Error(`closes what is not open: ${token}`);
      continue;
    }
    const match = /^<([\w:-]+)((?: [\w:-]+="[^"<]*")*)(\/?)>$/.exec(token);
    if (match === null) throw new Error(`not a tag: ${token}`);
    if (inside === undefined && elements.length > 0) throw new Error('a second root');
    const [, name = '', written = '', empty] = match;
    const pairs = [...written.matchAll(/ ([\w:-]+)="([^"]*)"/g)].map(([, key = '', value = '']) => [
      key,
      resolve(value),
    ]);
    if (new Set(pairs.map(([key]) => key)).size < pairs.length) throw new Error(`an attribute twice: ${token}`);
    const element: XmlElement = { name, attributes: Object.fromEntries(pairs), text: '' };
    elements.push(element);
    if (empty === '') open.push(element);
  }
  if (open.length > 0) throw new Error(`not closed: ${open.map(({ name }) => name).join(', ')}`);
  return elements;
}
