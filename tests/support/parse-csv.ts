/** Rows and cells by RFC 4180: the grammar of its section 2, read a character at a time. */
export const parseCsv = (text: string): string[][] => {
  const rows: string[][] = [];
  let row: string[] = [];
  let at = 0;
  while (at < text.length) {
    let cell = '';
    if (text[at] === '"') {
      for (at += 1; text[at] !== '"' || text[at + 1] === '"'; at += 1) {
        if (text[at] === '"') at += 1;
        cell += text[at];
      }
      at += 1;
    } else for (; !/[,\r]/u.test(text[at] ?? ','); at += 1) cell += text[at];
    row.push(cell);
    if (text.startsWith('\r\n', at)) {
      rows.push(row);
      row = [];
      at += 2;
    } else at += 1;
  }
  return rows;
};
