/** A box whose text is taken when the reader leaves or enters it, half a name or figure being another one; until then it stands, whatever answers come in meanwhile. */
import { useSignal } from "@preact/signals";

interface TypedBoxProps {
  readonly id?: string;
  readonly label?: string | undefined;
  readonly kind?: "text" | "time" | "number" | "decimal";
  readonly value: string;
  readonly placeholder?: string | undefined;
  readonly title?: string;
  readonly maxLength?: number;
  readonly invalid?: boolean;
  readonly describedBy?: string | undefined;
  readonly class?: string | undefined;
  readonly style?: { readonly width: string };
  /** all of it is chosen when the box is entered, to be typed over */ readonly selects?: boolean;
  take(text: string): void;
}

export function TypedBox({ id, label, kind = "text", value, placeholder, maxLength, invalid = false, describedBy, selects = false, take, ...looks }: TypedBoxProps) {
  /** Nobody writes over what is being typed. */
  const draft = useSignal<string | null>(null);
  const common = {
    ...looks, ...(id !== undefined && { id }), ...(placeholder !== undefined && { placeholder }), ...(maxLength !== undefined && { maxLength }),
    "aria-label": label, "aria-invalid": invalid, "aria-describedby": describedBy, autocomplete: "off", value: draft.value ?? value,
    onFocus: (event: { readonly currentTarget: HTMLInputElement }) => { if (selects) event.currentTarget.select(); },
    onInput: (event: { readonly currentTarget: HTMLInputElement }) => { draft.value = event.currentTarget.value; },
    onBlur: () => { draft.value = null; },
    onChange: (event: { readonly currentTarget: HTMLInputElement }) => {
      draft.value = null;
      take(event.currentTarget.value.trim());
    },
  } as const;
  switch (kind) {
    case "time": return <input {...common} type="time" step={300} />;
    case "number": return <input {...common} type="number" inputMode="numeric" min={0} />;
    case "decimal": return <input {...common} type="text" inputMode="decimal" />;
    case "text": return <input {...common} type="text" />;
  }
}
