/** A place in degrees, as typed; what is none stays, and is told. */
import { readPlace } from "../../sim/ground/distance.ts";
import { TypedBox } from "../plan/TypedBox.tsx";
import { planWords } from "../words/plan.ts";

interface PlaceBoxProps { readonly id: string; readonly label: string; readonly whose?: string; readonly value: string; set(text: string): void }

export function PlaceBox({ id, label, whose, value, set }: PlaceBoxProps) {
  const read = value.trim() === "" ? null : readPlace(value);
  const wrong = read !== null && "wrong" in read ? read.wrong : null;
  return (
    <p class="slot-row">
      <label for={id}>{label}</label>
      <TypedBox id={id} class="place" maxLength={60} label={whose === undefined ? undefined : `${whose}: ${label}`} invalid={wrong !== null} describedBy={wrong === null ? undefined : `${id}-wrong`}
        placeholder={planWords.notSaid} value={value} take={set} />
      {wrong !== null && <span class="why" id={`${id}-wrong`}>{planWords.map.wrongPlace(wrong)}</span>}
    </p>
  );
}
