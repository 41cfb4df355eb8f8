// What the frame of the preview does: it follows the server, and puts into its place what changed. It asks for pages and parts of
// pages and holds no words of its own.
"use strict";
(() => {
  const byId = (id) => document.getElementById(id);
  const root = document.documentElement;
  const frame = byId("page");
  const REFRESHED = ["state", "findings", "how_many", "editions"];
  const kept = `preview ${location.pathname}`;

  let shown = Number(root.dataset.shown);
  let framed = Number(root.dataset.frame);
  let paged = Number(root.dataset.page);
  let inputsOf = 0;
  let prints = -1;
  let tried = "";
  let size = "all";
  let number = null;
  let held = []; // what the page inside was made of, cut before each of its parts

  const inside = () => frame.contentDocument;
  const pageAddress = () => (tried ? `page?tried=${encodeURIComponent(tried)}` : "page");

  // -- asking the server

  async function ask(address, fields) {
    const how = fields ? { method: "POST", body: new URLSearchParams(fields) } : {};
    const answer = await fetch(address, { cache: "no-store", ...how });
    return { ok: answer.ok, text: await answer.text() };
  }

  const parsed = (html) => new DOMParser().parseFromString(html, "text/html");
  // What is parsed for the page inside is bound by that page's policy, which allows it styles of its own.
  const parsedInside = (html) => new frame.contentWindow.DOMParser().parseFromString(html, "text/html");

  function put(place, { ok, text }) {
    if (ok) {
      place.replaceChildren(...parsed(text).body.childNodes);
    } else {
      const told = document.createElement("p");
      told.className = "help";
      told.textContent = text;
      place.replaceChildren(told);
    }
  }

  // -- putting a new page in the place of an old one, and only what is new in it

  const standing = new Set(); // fresh nodes that stand for what there is already, under the same id
  const alike = (old, fresh) => (standing.has(fresh) ? old.id === fresh.id : old.isEqualNode(fresh));
  const taken = (page, fresh) => (standing.has(fresh) ? page.getElementById(fresh.id) : page.importNode(fresh, true));

  function morph(old, fresh) {
    if (alike(old, fresh)) return;
    if (standing.has(fresh) || old.nodeType !== fresh.nodeType || old.nodeName !== fresh.nodeName
      || old.nodeType !== Node.ELEMENT_NODE) {
      old.replaceWith(taken(old.ownerDocument, fresh));
      return;
    }
    for (const { name } of [...old.attributes]) if (!fresh.hasAttribute(name)) old.removeAttribute(name);
    for (const { name, value } of fresh.attributes) if (old.getAttribute(name) !== value) old.setAttribute(name, value);
    const before = [...old.childNodes];
    const after = [...fresh.childNodes];
    let head = 0;
    while (head < before.length && head < after.length && alike(before[head], after[head])) head += 1;
    let tail = 0;
    while (tail < before.length - head && tail < after.length - head
      && alike(before[before.length - 1 - tail], after[after.length - 1 - tail])) tail += 1;
    const gone = before.slice(head, before.length - tail);
    const come = after.slice(head, after.length - tail);
    if (gone.length === come.length) {
      gone.forEach((node, at) => morph(node, come[at]));
      return;
    }
    const next = before[before.length - tail] ?? null;
    const nodes = come.map((node) => taken(old.ownerDocument, node));
    gone.forEach((node) => node.remove());
    nodes.forEach((node) => old.insertBefore(node, next));
  }

  // A part that is as it was is not parsed again: in the fresh page an empty section stands for it. A part is a section that holds
  // no other, with nothing behind it, and its number tells which it is.
  const PART = /^(<section id="part_(\d+)")[^]*(<\/section>\s*)$/;
  const cut = (html) => html.split(/(?=<section id="part_|<\/main>)/);

  function morphPage(page, html) {
    const before = held;
    held = cut(html);
    const stays = held.map((each, at) => {
      const part = each === before[at] && each.lastIndexOf("<section") === 0 && PART.exec(each);
      return part && Number(part[2]) === at ? `${part[1]}>${part[3]}` : null;
    });
    const fresh = parsedInside(held.map((each, at) => stays[at] ?? each).join(""));
    stays.forEach((each, at) => { if (each) standing.add(fresh.getElementById(`part_${at}`)); });
    morph(page.documentElement, fresh.documentElement);
    standing.clear();
  }

  // What is at the top of the page now, so that it is there afterwards as well. Only in parts that are in sight are places asked
  // for: the others are not laid out.
  function placeOf(page) {
    const inSight = (each) => each.getBoundingClientRect().bottom > 0;
    let top = null;
    for (const part of page.querySelectorAll("h1, main > section")) {
      if (!inSight(part)) continue;
      top = part.localName === "h1" ? part : [...part.querySelectorAll("[data-row], h2")].find(inSight);
      if (top) break;
    }
    if (!top) return () => {};
    const key = top.dataset.row ? `[data-row="${CSS.escape(top.dataset.row)}"]` : null;
    const heading = top.textContent;
    const at = top.getBoundingClientRect().top;
    const scrolled = page.defaultView.scrollY;
    return () => {
      if (scrolled === 0) return;
      const now = key ? page.querySelector(key)
        : [...page.querySelectorAll("section > h2, h1")].find((each) => each.textContent === heading);
      if (now) page.defaultView.scrollBy({ top: now.getBoundingClientRect().top - at, behavior: "instant" });
      else page.defaultView.scrollTo({ top: scrolled, behavior: "instant" });
    };
  }

  async function refreshPage() {
    const answer = (!tried && sentAs("page", wanted.page)) || await ask(pageAddress());
    const page = inside();
    if (!answer.ok) return;
    if (!page?.documentElement) { // it was led away; what led there may be gone now
      frame.src = pageAddress();
      return;
    }
    const back = placeOf(page);
    const here = page.querySelector("[data-here]")?.dataset.row;
    const focused = focusedNumber(page);
    undress(page);
    morphPage(page, answer.text);
    dress(page);
    if (here) page.querySelector(`[data-row="${CSS.escape(here)}"]`)?.setAttribute("data-here", "");
    if (focused) focused();
    back();
  }

  // What did not change since it was fetched is not fetched again.
  async function refresh(news, samePage) {
    const [frameNow] = await Promise.all([
      news.frame === framed ? null : sentAs("frame", news.frame) || ask("./"),
      samePage && news.page === paged ? null : refreshPage(),
    ]);
    if (frameNow && !frameNow.ok) return;
    if (frameNow) refreshFrame(parsed(frameNow.text));
    framed = news.frame;
    paged = news.page;
    shown = news.shown;
    root.dataset.shown = String(shown);
    if (number) tellNumber();
    if (!byId("panel_drawings").hidden) draw();
    if (!byId("panel_what_if").hidden) fillInputs();
  }

  function refreshFrame(fresh) {
    for (const id of REFRESHED) morphWithFocus(byId(id), fresh.getElementById(id));
    morphSizes(fresh);
    root.dataset.state = fresh.documentElement.dataset.state;
    document.title = fresh.title;
    document.querySelector("h1").textContent = fresh.querySelector("h1").textContent;
  }

  // Controls that she is at work in stay as they are: what is typed, chosen and opened.
  function morphWithFocus(old, fresh) {
    if (!old || !fresh) return;
    for (const each of old.querySelectorAll("details[open]")) {
      const match = fresh.querySelectorAll("details")[[...old.querySelectorAll("details")].indexOf(each)];
      if (match && match.dataset.code === each.dataset.code && each.dataset.code) {
        match.open = true;
        match.querySelector("div")?.replaceWith(document.importNode(each.querySelector("div"), true));
      }
    }
    morph(old, fresh);
  }

  function morphSizes(fresh) {
    for (const id of ["my_size", "print_size"]) {
      const control = byId(id);
      const value = control.value;
      morph(control, fresh.getElementById(id));
      control.value = [...control.options].some((each) => each.value === value) ? value : control.options[0].value;
    }
    chooseSize(byId("my_size").value);
  }

  // -- the page inside: one size, numbers that can be chosen, links

  function dress(page) {
    wear(page);
    const numbers = page.getElementsByClassName("number");
    const current = number && [...numbers].find((each) => isNumber(each, number));
    if (current) current.setAttribute("aria-pressed", "true");
    const first = current ?? numbers[0];
    if (first) first.tabIndex = 0;
  }

  // Sheets of the page inside, each made once: another one has the whole page styled anew.
  const sheets = new Map();
  let isLaidOut = false;

  function sheetOf(text) {
    if (!sheets.has(text)) {
      const sheet = new frame.contentWindow.CSSStyleSheet();
      sheet.replaceSync(text);
      sheets.set(text, sheet);
    }
    return sheets.get(text);
  }

  // The chosen size is told by weight and a line below it, and not by colour alone. No element is touched for it. Once the whole
  // page was laid out and its parts know how high they are, those out of sight are left out: a save is seen the sooner.
  function wear(page) {
    const texts = [];
    if (isLaidOut) texts.push("section { content-visibility: auto; }");
    if (size !== "all") {
      texts.push(`[data-size]:not([data-size="${size}"]) { color: var(--quiet); }
        [data-size="${size}"] { font-weight: 700; text-decoration: underline solid 2px; text-underline-offset: 0.22em; }`);
    }
    const wanted = texts.map(sheetOf);
    const worn = page.adoptedStyleSheets;
    if (wanted.length !== worn.length || wanted.some((each, at) => each !== worn[at])) page.adoptedStyleSheets = wanted;
  }

  function whenLaidOut(page) {
    requestAnimationFrame(() => requestAnimationFrame(() => setTimeout(() => {
      if (inside() !== page) return;
      isLaidOut = true;
      wear(page);
    })));
  }

  function undress(page) {
    for (const each of page.querySelectorAll("[data-here]")) each.removeAttribute("data-here");
    for (const each of page.querySelectorAll('.number[tabindex="0"]')) each.tabIndex = -1;
    for (const each of page.querySelectorAll(".number[aria-pressed]")) each.removeAttribute("aria-pressed");
  }

  function redress() {
    const page = inside();
    if (!page?.documentElement) return;
    undress(page);
    dress(page);
  }

  const rowOf = (node) => node.closest("[data-row]")?.dataset.row ?? "";
  const isNumber = (node, { written, row }) => node.dataset.number === written && rowOf(node) === row;

  function focusedNumber(page) {
    const node = page.activeElement?.closest?.(".number");
    if (!node || document.activeElement !== frame) return null;
    const was = { written: node.dataset.number, row: rowOf(node) };
    return () => [...page.querySelectorAll(".number")].find((each) => isNumber(each, was))?.focus({ preventScroll: true });
  }

  function choose(node) {
    number = { written: node.dataset.number, row: rowOf(node) };
    redress();
    openPanel("number");
    tellNumber();
  }

  async function tellNumber() {
    const { written, row } = number;
    put(byId("number"), await ask(`number?${new URLSearchParams({ written, row })}`));
    markSize();
  }

  function markSize() {
    const rows = [...document.querySelectorAll("#number tbody tr")];
    rows.forEach((each) => each.classList.toggle("mine", size !== "all" && each.dataset.size === sizeName()));
  }

  const sizeName = () => byId("my_size").selectedOptions[0]?.textContent ?? "";

  function goTo(row, part) {
    const page = inside();
    if (!page) return;
    const place = row ? page.querySelector(`[data-row="${CSS.escape(row)}"]`) : page.getElementById(part);
    if (!place) return;
    page.querySelectorAll("[data-here]").forEach((each) => each.removeAttribute("data-here"));
    place.setAttribute("data-here", "");
    place.scrollIntoView({ block: "center", behavior: "instant" });
    if (matchMedia("(max-width: 59.99rem)").matches) frame.scrollIntoView({ block: "start", behavior: "instant" });
  }

  function moveAmongNumbers(event, node) {
    const numbers = [...inside().querySelectorAll(".number")];
    const at = numbers.indexOf(node);
    const row = rowOf(node);
    let to = null;
    if (event.key === "ArrowRight") to = numbers[at + 1];
    if (event.key === "ArrowLeft") to = numbers[at - 1];
    if (event.key === "ArrowDown") to = numbers.slice(at).find((each) => rowOf(each) !== row || !row && each !== node);
    if (event.key === "ArrowUp") to = numbers.slice(0, at).reverse().find((each) => rowOf(each) !== row || !row);
    if (event.key === "Home") to = numbers[0];
    if (event.key === "End") to = numbers.at(-1);
    if (!to) return;
    event.preventDefault();
    for (const each of numbers) each.tabIndex = each === to ? 0 : -1;
    to.focus();
  }

  function connect() {
    const page = inside();
    if (!page?.body || page.documentElement.dataset.connected) return;
    page.addEventListener("click", (event) => {
      const node = event.target.closest?.(".number");
      if (node) return choose(node);
      const link = event.target.closest?.("a[href]");
      if (!link) return undefined;
      event.preventDefault();
      const address = link.getAttribute("href");
      if (address.startsWith("#")) page.getElementById(address.slice(1))?.scrollIntoView();
      else if (/^https?:/.test(address)) window.open(address, "_blank", "noopener,noreferrer");
      return undefined;
    });
    page.addEventListener("keydown", (event) => {
      const node = event.target.closest?.(".number");
      if (!node || event.ctrlKey || event.metaKey || event.altKey) return;
      if (event.key === "Enter" || event.key === " ") {
        event.preventDefault();
        choose(node);
      } else {
        moveAmongNumbers(event, node);
      }
    });
    dress(page);
    whenLaidOut(page);
  }

  function chooseSize(value) {
    if (value === size) return;
    size = value;
    try { sessionStorage.setItem(kept, value); } catch { /* a browser that keeps nothing */ }
    redress();
    markSize();
    if (!byId("panel_drawings").hidden) draw();
  }

  // -- the panels beside the page

  const tabs = [...document.querySelectorAll('[role="tab"]')];

  function openPanel(key, focus = false) {
    for (const tab of tabs) {
      const mine = tab.id === `tab_${key}`;
      tab.setAttribute("aria-selected", String(mine));
      tab.tabIndex = mine ? 0 : -1;
      byId(tab.getAttribute("aria-controls")).hidden = !mine;
      if (mine && focus) tab.focus();
    }
    if (key === "drawings") draw();
    if (key === "what_if") fillInputs();
  }

  for (const tab of tabs) {
    tab.addEventListener("click", () => openPanel(tab.id.slice(4)));
    tab.addEventListener("keydown", (event) => {
      const at = tabs.indexOf(tab);
      const to = { ArrowRight: tabs[(at + 1) % tabs.length], ArrowLeft: tabs.at(at - 1), Home: tabs[0], End: tabs.at(-1) }[event.key];
      if (!to) return;
      event.preventDefault();
      openPanel(to.id.slice(4), true);
    });
  }

  document.addEventListener("click", (event) => {
    const go = event.target.closest(".go");
    if (go) {
      const { row, part } = go.closest("[data-row], [data-part]").dataset;
      goTo(row, part);
    }
    const offer = event.target.closest(".offer");
    if (offer) tryOffer(offer.dataset);
  });

  document.addEventListener("toggle", async (event) => {
    const told = event.target;
    if (!told.matches?.("details.explain") || !told.open) return;
    const place = told.querySelector("div");
    if (!place.hasChildNodes()) put(place, await ask(`explain?${new URLSearchParams({ code: told.dataset.code })}`));
  }, true);

  async function draw() {
    const over = byId("overlay").checked ? "yes" : "";
    put(byId("drawings"), await ask(`drawings?${new URLSearchParams({ size: size === "all" ? "" : size, over })}`));
  }

  // -- what if

  // The fields for what may be tried, as the source gives them now; what is typed in them stays.
  async function fillInputs() {
    if (inputsOf === shown) return;
    const version = shown;
    const { ok, text } = await ask("inputs");
    if (!ok) return;
    const fresh = document.createElement("div");
    fresh.id = "inputs";
    fresh.append(...parsed(text).body.childNodes);
    fresh.querySelectorAll("details").forEach((each, at) => {
      const now = byId("inputs").querySelectorAll("details")[at];
      if (now) each.open = now.open;
    });
    morph(byId("inputs"), fresh);
    inputsOf = version;
  }

  const changes = () => [...document.querySelectorAll("#inputs .input")].flatMap((each) => {
    const value = each.querySelector("input").value.trim();
    const of = each.querySelector("select")?.value;
    return value ? [["change", `${each.dataset.name}${of ? `[${of}]` : ""}=${value}`]] : [];
  });

  async function tryOut() {
    const place = byId("tried");
    place.replaceChildren(byId("going").content.cloneNode(true));
    place.setAttribute("aria-busy", "true");
    put(place, await ask("try", changes()));
    place.removeAttribute("aria-busy");
    byId("panel_what_if").scrollTop = 0;
    await showTried(place.querySelector("[data-tried]")?.dataset.tried ?? "");
  }

  async function showTried(key) {
    if (key === tried) return;
    tried = key;
    byId("tried_now").hidden = !key;
    byId("state").hidden = Boolean(key);
    await refreshPage();
  }

  async function tryOffer({ name, size: of, value }) {
    openPanel("what_if");
    await fillInputs();
    const field = [...document.querySelectorAll("#inputs .input")].find((each) => each.dataset.name === name);
    byId("what_if").reset();
    if (field) {
      field.closest("details").open = true;
      field.querySelector("input").value = value;
      const select = field.querySelector("select");
      if (select && [...select.options].some((each) => each.value === of)) select.value = of;
      field.querySelector("input").focus();
      tryOut();
    } else {
      tryAlone(`${name}${of ? `[${of}]` : ""}=${value}`);
    }
  }

  async function tryAlone(change) {
    const place = byId("tried");
    put(place, await ask("try", [["change", change]]));
    await showTried(place.querySelector("[data-tried]")?.dataset.tried ?? "");
  }

  byId("what_if").addEventListener("submit", (event) => {
    event.preventDefault();
    tryOut();
  });
  byId("what_if").addEventListener("reset", () => {
    byId("tried").replaceChildren();
    showTried("");
  });
  byId("back").addEventListener("click", () => showTried(""));

  byId("tried").addEventListener("click", async (event) => {
    if (event.target.id === "write") byId("sure").showModal();
    if (event.target.matches("#sure .no")) byId("sure").close();
    if (event.target.matches("#sure .yes")) {
      byId("sure").close();
      const { key } = byId("write").dataset;
      const place = byId("tried");
      put(place, await ask("write", [["key", key]]));
      if (place.querySelector("[data-written]")) {
        for (const each of document.querySelectorAll("#inputs input")) each.value = "";
        await showTried("");
      }
    }
  });

  // -- PDFs

  byId("order").addEventListener("submit", async (event) => {
    event.preventDefault();
    const edition = byId("edition").value;
    put(byId("prints"), await ask("print", [["edition", edition], ["size", byId("print_size").value]]));
  });

  // -- following the server

  let working = false;
  let wanted = { shown };
  const sent = {}; // frame and page as they were sent last, ahead of the news of them

  function sentAs(part, version) {
    const [since, text] = sent[part] ?? [];
    return since === version ? { ok: true, text } : null;
  }

  async function follow() {
    if (working) return;
    working = true;
    try {
      while (wanted.shown !== shown) {
        const news = wanted;
        const samePage = !tried;
        if (tried) {
          tried = "";
          byId("tried_now").hidden = true;
          byId("state").hidden = false;
          byId("tried").replaceChildren();
        }
        await refresh(news, samePage);
      }
    } finally {
      working = false;
    }
  }

  const events = new EventSource("events");
  events.addEventListener("message", async (event) => {
    const news = JSON.parse(event.data);
    wanted = news;
    if (news.prints !== prints) {
      prints = news.prints;
      put(byId("prints"), await ask("prints"));
    }
    await follow();
  });
  events.addEventListener("new", (event) => { Object.assign(sent, JSON.parse(event.data)); });
  events.addEventListener("open", () => { byId("ended").hidden = true; });
  events.addEventListener("error", () => { byId("ended").hidden = false; });

  byId("my_size").addEventListener("change", (event) => chooseSize(event.target.value));
  byId("overlay").addEventListener("change", draw);
  frame.addEventListener("load", () => {
    held = [];
    sheets.clear();
    isLaidOut = false;
    connect();
  });
  if (inside()?.readyState === "complete") connect();
  try {
    const before = sessionStorage.getItem(kept);
    if ([...byId("my_size").options].some((each) => each.value === before)) {
      byId("my_size").value = before;
      chooseSize(before);
    }
  } catch { /* a browser that keeps nothing */ }
})();
