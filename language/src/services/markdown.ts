// Keeps authored text from being taken for Markdown.

/** The text with every sign escaped that Markdown gives a meaning. */
export function escapeMarkdown(text: string): string {
    return text.replace(/[\\`*_{}[\]()#+\-.!|<>~&]/g, sign =>
        sign === '<' ? '&lt;' : sign === '&' ? '&amp;' : `\\${sign}`,
    );
}
