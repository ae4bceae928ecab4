/** A sheet that is fetched when it is first opened, so that the first answer does not wait for it. */
import { signal } from "@preact/signals";
import type { ComponentType } from "preact";
import { words } from "../words.ts";

/** @param fetched gives the sheet's component; asked for once, and again after it failed */
export function later(fetched: () => Promise<ComponentType>): ComponentType {
  const sheet = signal<{ readonly Component: ComponentType } | null>(null);
  const failed = signal(false);
  let underWay = false;
  const ask = () => {
    if (underWay) return;
    underWay = true;
    failed.value = false;
    fetched().then((Component) => { sheet.value = { Component }; }, () => { failed.value = true; }).finally(() => { underWay = false; });
  };
  return function Later() {
    if (sheet.value) return <sheet.value.Component />;
    if (failed.value) return <p role="alert">{words.trouble.unreachable} <button type="button" onClick={ask}>{words.again}</button></p>;
    ask();
    return <p class="quiet" role="status">{words.fetching}</p>;
  };
}
