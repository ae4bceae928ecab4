/** `/api/v1/scenarios`: the worked examples to begin from, and the scenarios that are kept, with every revision of each. */
import type { Express, Request, Response } from "express";
import { scenarioBody, writtenIn } from "./bodies.ts";
import { jsonDocument, matches, send } from "./documents.ts";
import { asForm, formFor } from "./forms.ts";
import type { WrittenText } from "./forms.ts";
import type { Limits } from "./limits.ts";
import { refusals, WANTED } from "./problems.ts";
import { checkedText } from "./question.ts";
import { resource } from "./resource.ts";
import { hashOf } from "../sim/scenario/hash.ts";
import { ID, LONGEST_ID } from "./store/scenarios.ts";
import type { Hindrance, Revision, Stamp } from "./store/scenarios.ts";
import type { Store } from "./store/store.ts";
import type { Template } from "./templates.ts";

export const SCENARIOS = "/api/v1/scenarios";

/** A revision that has not been taken away. */
type Standing = Revision & WrittenText;
const isStanding = (revision: Revision | undefined): revision is Standing => revision !== undefined && revision.text !== null;

/** The tags under which a revision goes out, one for each form. */
const tagOf = (revision: Standing, form: Revision["form"]): string => asForm(revision, form, revision.revision).tag;

const told = ({ savedAt, id, revision, name, hash }: Stamp) => ({ id, revision, savedAt: new Date(savedAt).toISOString(), name, hash });

export function putScenarios(app: Express, templates: readonly Template[], store: Store, limits: Limits): void {
  const examples = new Map(templates.map((template) => [template.id, template]));
  const idIn = (request: Request) => String(request.params.id);

  const sendForm = (request: Request, response: Response, written: WrittenText, revision: number) => {
    response.vary("Accept");
    send(request, response, asForm(written, formFor(request), revision));
  };

  const list = (request: Request, response: Response) => send(request, response, jsonDocument({
    scenarios: templates.map(({ id, name, shows }) => ({ id, name, shows })),
    saved: store.with(({ scenarios }) => scenarios.list()).map(told),
  }));

  const get = (request: Request, response: Response) => {
    const id = idIn(request);
    const example = examples.get(id);
    if (example !== undefined) {
      response.vary("Accept");
      return send(request, response, example[formFor(request)]);
    }
    const newest = store.with(({ scenarios }) => scenarios.newest(id));
    if (!isStanding(newest)) throw refusals.noSuchThing("scenario of that name");
    sendForm(request, response, newest, newest.revision);
  };

  const put = (request: Request, response: Response) => {
    const id = ownId(request);
    const written = writtenIn(request, WANTED.scenario);
    const { scenario } = checkedText(written, limits);
    const { stamp, isNew } = store.with(({ scenarios }) => {
      const newest = scenarios.newest(id);
      if (!isStanding(newest)) {
        if (request.headers["if-match"] !== undefined) throw refusals.changedMeanwhile(null);
      } else {
        const tag = tagOf(newest, written.form);
        if (request.headers["if-none-match"]?.trim() === "*") throw refusals.isThereAlready(tag);
        // Whoever did not hear that a save had succeeded and sends it again is told so now (RFC 9110, 13.1.1).
        if (newest.form === written.form && newest.text === written.text) return { stamp: newest, isNew: false };
        onlyIfRead(request, newest, tag);
      }
      return { stamp: saved(scenarios.save(id, { ...written, name: scenario.name, hash: hashOf(scenario) }, Date.now())), isNew: !isStanding(newest) };
    });
    response.status(isNew ? 201 : 200).set({ ETag: asForm(written, written.form, stamp.revision).tag, "Cache-Control": "no-store" });
    if (isNew) response.set("Location", `${SCENARIOS}/${id}`);
    response.json(told(stamp));
  };

  const remove = (request: Request, response: Response) => {
    const id = ownId(request);
    store.with(({ scenarios }) => {
      const newest = scenarios.newest(id);
      if (!isStanding(newest)) throw refusals.noSuchThing("scenario of that name");
      onlyIfRead(request, newest, tagOf(newest, newest.form));
      saved(scenarios.takeAway(id, Date.now()));
    });
    response.status(204).end();
  };

  /** The name in the address, if a scenario may be kept or taken away under it. */
  const ownId = (request: Request): string => {
    const id = idIn(request);
    if (examples.has(id)) throw refusals.isExample();
    if (id.length > LONGEST_ID || !ID.test(id)) throw refusals.strangeId(LONGEST_ID);
    return id;
  };

  const revisions = (request: Request, response: Response) => {
    const id = idIn(request);
    const all = store.with(({ scenarios }) => scenarios.revisions(id));
    if (all.length === 0) throw refusals.noSuchThing("kept scenario of that name");
    send(request, response, jsonDocument({ id, revisions: all.map((each) => ({ ...told(each), form: each.form, takenAway: each.takenAway === 1 })) }));
  };

  const revision = (request: Request, response: Response) => {
    const number = String(request.params.revision);
    const found = /^[1-9]\d{0,8}$/.test(number) ? store.with(({ scenarios }) => scenarios.revision(idIn(request), Number(number))) : undefined;
    if (!isStanding(found)) throw refusals.noSuchThing("such revision");
    sendForm(request, response, found, found.revision);
  };

  resource(app, SCENARIOS, { GET: list });
  resource(app, `${SCENARIOS}/:id`, { GET: get, PUT: [...scenarioBody(limits, WANTED.scenario), put], DELETE: remove });
  resource(app, `${SCENARIOS}/:id/revisions`, { GET: revisions });
  resource(app, `${SCENARIOS}/:id/revisions/:revision`, { GET: revision });
}

/** Refuses a change by somebody who has not read what is to be changed, or read it before another change. */
function onlyIfRead(request: Request, newest: Standing, tag: string): void {
  const line = request.headers["if-match"];
  if (line === undefined) throw refusals.readFirst(tag);
  if (!matches(line, [tagOf(newest, "json"), tagOf(newest, "yaml")])) throw refusals.changedMeanwhile(tag);
}

function saved(result: Stamp | Hindrance): Stamp {
  if (typeof result === "object") return result;
  throw refusals.keptMost(result === "too-many-scenarios" ? "scenarios" : "revisions of one scenario");
}
