import { useRef } from "preact/hooks";
import type { ActAnswer, ActToSend, Client, CommandName } from "../../api/client.ts";
import type { Asked } from "../sign-in-screen.tsx";

export type CommandOf<Name extends CommandName> = ActToSend<Name>["command"];
export type Written = Extract<ActAnswer, { ok: true }>["answer"];
export type SendAct = <Name extends CommandName>(
  name: Name,
  command: CommandOf<Name>,
) => Promise<Asked<Written>>;

/**
 * Sends acts of a form. An act that nobody answered is kept: when the same is sent again it goes with the same id, so
 * that it is written once however often somebody presses.
 */
export function useActs(client: Client): SendAct {
  const unsure = useRef<{ readonly says: string; readonly act: ActToSend } | undefined>(undefined);
  return async (name, command) => {
    const says = JSON.stringify([name, command]);
    const kept = unsure.current?.says === says ? unsure.current.act : undefined;
    const act = kept ?? (client.newAct(name, command) as ActToSend);
    const answer = await client.sendAct(act);
    unsure.current = !answer.ok && answer.isUnsure ? { says, act } : undefined;
    return answer.ok ? { answer: answer.answer } : { problem: answer.problem };
  };
}
