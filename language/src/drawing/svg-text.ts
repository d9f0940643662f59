// The small pieces of SVG that the drawings are made of, as text; whatever an author wrote is escaped here.

/** Text that may stand between tags or in an attribute. Characters that XML cannot hold become U+FFFD. */
export function escapeXml(text: string): string {
    return text.replace(unholdable, '\uFFFD').replace(/[&<>"']/g, sign => entities[sign] ?? sign);
}

/** One tag with its attributes; without content it closes itself. `content` is SVG already, not text of an author. */
export function tag(name: string, attributes: Readonly<Record<string, string | number>>, content?: string): string {
    const written = Object.entries(attributes).map(
        ([key, value]) => ` ${key}="${typeof value === 'number' ? round(value) : escapeXml(value)}"`,
    );
    return content === undefined ? `<${name}${written.join('')}/>` : `<${name}${written.join('')}>${content}</${name}>`;
}

/** Lines of text under each other; `y` is the base line of the first. */
export function textLines(
    lines: readonly string[],
    place: { readonly x: number; readonly y: number; readonly lineHeight: number },
    attributes: Readonly<Record<string, string | number>>,
): string {
    return lines
        .map((line, index) =>
            tag('text', { x: place.x, y: place.y + index * place.lineHeight, ...attributes }, escapeXml(line)),
        )
        .join('\n');
}

/** A number for SVG: at most two digits behind the point, so that the same drawing is the same text everywhere. */
export function round(value: number): string {
    return String(Math.round(value * 100) / 100);
}

const entities: Readonly<Record<string, string>> = {
    '&': '&amp;',
    '<': '&lt;',
    '>': '&gt;',
    '"': '&quot;',
    "'": '&#39;',
};

// Everything but the characters of XML 1.0 (production 2), and marks that would turn the direction of what follows.
const unholdable =
    /[\u0000-\u0008\u000B\u000C\u000E-\u001F\u007F-\u009F\uFFFE\uFFFF\u202A-\u202E\u2066-\u2069]|[\uD800-\uDBFF](?![\uDC00-\uDFFF])|(?<![\uD800-\uDBFF])[\uDC00-\uDFFF]/g;
