import fs from "node:fs";
import { BadInput } from "./command.ts";

/** Reads a file that the command line names. Throws BadInput, in words, where there is none or it is a folder. */
export function readNamedFile(name: string): Buffer {
  try {
    return fs.readFileSync(name);
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    if (code === "ENOENT")
      throw new BadInput(`There is no file ${name}. Next: look at the path, then call again.`);
    if (code === "EISDIR") throw new BadInput(`${name} is a folder. Next: name the file in it.`);
    throw error;
  }
}
