/** A complaint becomes a title by its first sentence. */
export const titleOf = (complaint: string): string => {
  const one = complaint.replace(/\s+/gu, ' ').trim() || complaint;
  const sentence = /^.*?[.!?](?=\s|$)/u.exec(one)?.[0].replace(/[.!?]+$/u, '');
  const first = sentence || one;
  // Cut between characters, since half of one cannot be written.
  const letters = [...first];
  return letters.length <= 80
    ? first
    : `${letters
        .slice(0, 79)
        .join('')
        .replace(/\s+\S*$/u, '')}…`;
};
