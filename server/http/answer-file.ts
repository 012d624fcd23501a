/** A file that a browser keeps or shows. */
export interface FileAnswer {
  readonly name: string;
  readonly type: string;
  readonly body: string | Uint8Array;
  /** "attachment" is kept as a file, "inline" shown in a frame. */
  readonly shown?: "attachment" | "inline";
  readonly cache?: string;
}

/** Answers a file with its name. Source: RFC 6266 section 5, with a plain name beside the one in UTF-8. */
export function answerFile({ name, type, body, shown = "attachment", cache }: FileAnswer): Response {
  const plain = name.replaceAll(/[^\x20-\x7e]|["\\%]/g, "_");
  const encoded = encodeURIComponent(name).replaceAll(
    /['()*]/g,
    (sign) => `%${sign.charCodeAt(0).toString(16)}`,
  );
  return new Response(body as string | Uint8Array<ArrayBuffer>, {
    headers: {
      "content-type": type,
      "content-disposition": `${shown}; filename="${plain}"; filename*=UTF-8''${encoded}`,
      "cache-control": cache ?? "no-store",
    },
  });
}

/** Answers rows as a CSV file. */
export function answerCsv(name: string, body: string): Response {
  return answerFile({ name, body, type: "text/csv; charset=utf-8" });
}
