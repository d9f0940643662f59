// What stands once in every output: that verification is an aid, and what comes before it. The one place of this text.

/** The notice by locale (BCP 47). A translation is one more line here; nothing else has to change. */
export const safetyNotices: Readonly<Record<string, string>> & { readonly en: string } = {
    en:
        'Verification is an aid: it checks what is written and does not know the machine. ' +
        "The equipment maker's instructions, local codes and licensed practice come first.",
};

/** The notice in a locale, else in its language, else in English. */
export function safetyNotice(locale = 'en'): string {
    const language = locale.split('-')[0] ?? locale;
    const own = [locale, language].find(name => Object.hasOwn(safetyNotices, name));
    return safetyNotices[own ?? 'en'] ?? safetyNotices.en;
}
