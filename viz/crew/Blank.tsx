/** A line to be filled in by hand, with what belongs on it. */
export function Blank({ label, wide = false }: { readonly label: string; readonly wide?: boolean }) {
  return <span class={wide ? "blank blank-wide" : "blank"}><span>{label}</span><span class="line" /></span>;
}
