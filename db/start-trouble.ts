/** Why a start failed, for the one line that the person at the keyboard reads. */
export type StartTroubleCode =
  | "bad-config"
  | "binaries-missing"
  | "database-refused"
  | "disk-full"
  | "folder-in-use"
  | "migration-refused"
  | "no-database"
  | "no-permission"
  | "no-unprivileged-user"
  | "port-in-use"
  | "pages-missing"
  | "role-too-strong"
  | "role-too-weak"
  | "unsafe-database"
  | "wrong-database-version";

/** A start that cannot go on. The message is one line: what is wrong, and what to do about it. */
export class StartTrouble extends Error {
  readonly code: StartTroubleCode;

  constructor(code: StartTroubleCode, message: string, options?: ErrorOptions) {
    super(message.replaceAll(/\s*\n\s*/g, " "), options);
    this.name = "StartTrouble";
    this.code = code;
  }
}

/** Names the trouble behind what the operating system or PostgreSQL said; undefined when it is another one. */
export function troubleFromSystemText(text: string, folder: string): StartTrouble | undefined {
  if (/ENOSPC|EDQUOT|No space left on device|Disk quota exceeded/i.test(text)) {
    return new StartTrouble(
      "disk-full",
      `The disk that holds ${folder} is full. Free some space there, or set DATA_DIR to a folder on another disk.`,
    );
  }
  if (/EACCES|EPERM|EROFS|Permission denied|Operation not permitted|Read-only file system/i.test(text)) {
    return new StartTrouble(
      "no-permission",
      `No permission to write in ${folder}. Give this user the folder, or set DATA_DIR to a folder that it may write.`,
    );
  }
  return undefined;
}
