/** Weigh tickets: taken in, understood, what they tell, whether the plan was right, what they would change in it, and for whoever asks how they vary. */
import { useEffect } from "preact/hooks";
import { checkedPlan } from "../change/tried.ts";
import { PlanLine } from "../page/Verdict.tsx";
import { words as common } from "../words.ts";
import { plan, trouble as planTrouble } from "../state.ts";
import { ticketWords as words } from "../words/tickets.ts";
import { Judged } from "./Judged.tsx";
import { Patch } from "./Patch.tsx";
import { Shapes } from "./Shapes.tsx";
import { Take } from "./Take.tsx";
import { file, reading, worked, workOut } from "./taken.ts";
import { Told } from "./Told.tsx";
import { Understood } from "./Understood.tsx";
import "../change/change.css";
import "../plan/plan.css";
import "./tickets.css";

export function Tickets() {
  const read = reading.value;
  const scenario = checkedPlan();
  const isRead = read !== null && read.tickets.length > 0;
  useEffect(() => (isRead ? workOut(read, scenario) : undefined), [read, scenario, isRead]);
  const done = worked.value?.reading === read ? worked.value : null;
  return (
    <div class="tickets">
      <section aria-labelledby="tickets-title">
        <h1 id="tickets-title">{words.title}</h1>
        <p class="quiet screen-only">{words.lead}</p>
        {file.value && <p class="on-paper">{words.take.now(file.value.name)}</p>}
        <div class="on-paper"><PlanLine /></div>
        <Take />
      </section>
      {read && <Understood read={read} />}
      {isRead && (done === null ? <p class="quiet" role="status">{words.told.working}</p> : (
        <>
          <Told worked={done} />
          {read.tickets.length > 1 && <Judged />}
          {plan.value === null ? <p role="status">{planTrouble.value ?? common.waitingForFirst}</p> : <Patch patch={done.patch} />}
          <Shapes weighed={done.weighed} />
        </>
      ))}
    </div>
  );
}
