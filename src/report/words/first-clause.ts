/** What a text says first, up to the first semicolon or colon: the rest explains it. */
export const firstClause = (text: string): string => text.split(/[;:] /u)[0] ?? text;
