/** Texts that need no quotes anywhere in a file: they begin with a letter or a number and hold nothing that YAML obeys. */
const plainForm = /^(?:-?\d|\p{L})(?:[\p{L}\p{M}\d .°%/+_~()²³Ω±×–—’·=@;!?$€£<>^-]|:(?=\S))*$/u;

/** Plain words that are no text once they are read (YAML 1.2, core schema). */
const notText = /^(?:null|true|false)$/iu;

/** Readable as a number, so quoted where a text is meant. */
const numeric = /^[-+]?(?:\d[\d_]*(?:\.\d*)?(?:e[-+]?\d+)?|0x[\da-f]+|0o[0-7]+|\.?inf|\.nan)$/iu;

const inQuotes = (value: string): string =>
  JSON.stringify(value).replace(/[\u007f-\u009f\u2028\u2029\ufeff\ufffe\uffff]/gu, (character) => {
    const code = character.codePointAt(0) ?? 0;
    return `\\u${code.toString(16).padStart(4, '0')}`;
  });

/**
 * A text as a YAML scalar on one line, the same inside and outside of brackets: plain where that reads back as this
 * text, in double quotes where it does not.
 *
 * @param quoted true in a file whose texts all stand in quotes
 */
export const scalarText = (value: string, quoted = false): string => {
  const plain =
    !quoted && plainForm.test(value) && !notText.test(value) && !numeric.test(value) && !value.endsWith(' ');
  return plain ? value : inQuotes(value);
};
