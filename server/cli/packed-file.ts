import { once } from "node:events";
import fs from "node:fs";
import path from "node:path";
import readline from "node:readline";
import { PassThrough } from "node:stream";
import { finished } from "node:stream/promises";
import { createGunzip, createGzip } from "node:zlib";

/** A packed file that is being written. It bears its name only once it is whole and on the disk. */
export interface NewPackedFile {
  readonly write: (text: string) => Promise<void>;
  /** Ends the file and gives its size in bytes. */
  readonly finish: () => Promise<number>;
  readonly discard: () => Promise<void>;
}

/** Begins a gzip file for its owner's eyes alone; undefined when there is one of that name. */
export function newPackedFile(name: string): NewPackedFile | undefined {
  if (fs.existsSync(name)) return undefined;
  const unfinished = path.join(path.dirname(name), `.${path.basename(name)}.${process.pid}`);
  const handle = fs.openSync(unfinished, "wx", 0o600);
  const packed = createGzip({ level: 6 });
  const file = fs.createWriteStream(unfinished, { fd: handle, autoClose: false });
  const failure = Promise.withResolvers<never>();
  failure.promise.catch(() => {});
  for (const stream of [packed, file]) stream.once("error", failure.reject);
  packed.pipe(file);
  const removeUnfinished = () => fs.rmSync(unfinished, { force: true });
  process.once("exit", removeUnfinished);
  return {
    async write(text) {
      if (!packed.write(text)) await Promise.race([once(packed, "drain"), failure.promise]);
    },
    async finish() {
      packed.end();
      await Promise.race([finished(file), failure.promise]);
      fs.fsyncSync(handle);
      const { size } = fs.fstatSync(handle);
      fs.closeSync(handle);
      fs.renameSync(unfinished, name);
      process.off("exit", removeUnfinished);
      return size;
    },
    async discard() {
      packed.destroy();
      file.destroy();
      removeUnfinished();
      process.off("exit", removeUnfinished);
    },
  };
}

/** The file on the disk is not the one that was written. */
export class DamagedFile extends Error {
  readonly isCutOff: boolean;
  constructor(cause: NodeJS.ErrnoException) {
    super("it cannot be unpacked", { cause });
    this.isCutOff = cause.code === "Z_BUF_ERROR";
  }
}

/** Reads a text file line by line, unpacked where it is packed. Undefined when there is no file to read. */
export function packedLines(name: string): AsyncIterable<string> | undefined {
  const start = readStart(name);
  return start && unpacked(name, start[0] === 0x1f && start[1] === 0x8b);
}

function readStart(name: string): Buffer | undefined {
  try {
    const handle = fs.openSync(name, "r");
    const start = Buffer.alloc(2);
    fs.readSync(handle, start);
    fs.closeSync(handle);
    return start;
  } catch {
    return undefined;
  }
}

async function* unpacked(name: string, isPacked: boolean): AsyncGenerator<string> {
  const text = isPacked ? createGunzip() : new PassThrough();
  fs.createReadStream(name)
    .on("error", (error) => text.destroy(error))
    .pipe(text);
  try {
    yield* readline.createInterface({ input: text, crlfDelay: Number.POSITIVE_INFINITY });
  } catch (error) {
    const { code = "" } = error as NodeJS.ErrnoException;
    throw code.startsWith("Z_") ? new DamagedFile(error as NodeJS.ErrnoException) : error;
  }
}
