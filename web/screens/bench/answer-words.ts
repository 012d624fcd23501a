import type { ScanAnswer } from "../../../server/domain/scan-answer.ts";
import { sayForeign, sayMisread, sayUnattached, sayUnknownNumber } from "../../look/scan-phrases.ts";
import type { SpokenReason } from "../../look/spoken-reason.ts";
import type { Words } from "../../look/words.ts";

const grouped = (number: string) => number.replace(/(.{4})(?=.)/g, "$1 ");

/** Says an answer that opens no piece straight away. Undefined for one that does, and for cards. */
export function answerWords(answer: ScanAnswer, say: Words): SpokenReason | undefined {
  switch (answer.kind) {
    case "misread":
      return sayMisread(
        answer.suggestions.map(({ number, piece }) => ({
          number: grouped(number),
          title: piece?.title,
          where: piece?.where.name,
        })),
      );
    case "unknown-number":
      return sayUnknownNumber(grouped(answer.number), say, answer.host);
    case "foreign":
      return sayForeign(answer.text);
    case "unattached-tag":
      return sayUnattached(
        grouped(answer.number),
        answer.state,
        answer.meantFor && `${answer.meantFor.title}, ${answer.meantFor.where.name}`,
      );
    case "nothing":
      return { mark: "none", what: say.nothingRead, next: say.scanAgain };
    case "not-yours":
      return { mark: "cannot-tell", what: say.notYours, next: say.askTheCage };
    case "piece":
    case "place":
    case "member":
    case "badge":
    case "action":
      return undefined;
  }
}
