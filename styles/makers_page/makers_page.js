// What the maker's page does besides showing all sizes: one size, one unit, and rows marked as worked.
// Every word comes from the page; nothing leaves it. What she chooses is kept under the key of this pattern and revision.
"use strict";
(() => {
  const root = document.documentElement;
  const main = document.querySelector("main");
  const key = `makers_page ${document.body.dataset.key}`;
  const made = (id) => document.getElementById(id).content.cloneNode(true);
  const words = (text, name) => text.replace(/\{(row|piece)\}/, () => name);

  // -- what is kept: her size, her units, and the rows that are marked

  let now = { size: "all", units: "both", worked: new Set() };
  let refused = false;

  // What is kept; where there is nothing of ours, or nothing can be kept, what holds now.
  function read() {
    if (refused) return now;
    try {
      const { size, units, worked } = JSON.parse(localStorage.getItem(key));
      return { size: String(size), units: String(units), worked: new Set(Array.isArray(worked) ? worked : []) };
    } catch {
      return now;
    }
  }

  // Reads anew before it writes, so that two windows with the same pattern do not undo each other's marks.
  function keep(change) {
    now = read();
    change(now);
    try {
      localStorage.setItem(key, JSON.stringify({ ...now, worked: [...now.worked] }));
    } catch {
      tellRefused();
    }
    show();
  }

  function tellRefused() {
    refused = true;
    const place = document.querySelector(".refused");
    if (place && !place.hasChildNodes()) place.append(made("marks_refused"));
  }

  // -- one size: each place of the page with the choices that show it

  const places = [];

  function collect(within, section) {
    for (const row of within.querySelectorAll("[data-row]")) addMark(row, section ?? row.closest("section"));
    for (const place of within.querySelectorAll("[data-sizes]")) {
      const marker = document.createComment("");
      let nodes = [place];
      if (place instanceof HTMLTemplateElement) {
        const content = place.content.cloneNode(true);
        collect(content, section ?? place.closest("section"));
        nodes = [...content.childNodes];
        place.replaceWith(marker);
      } else {
        place.before(marker);
      }
      places.push({ marker, nodes, choices: new Set(place.dataset.sizes.split(" ")) });
    }
  }

  // -- marks: a box before each row; a row that stands there for several choices has as many boxes, all alike

  const boxes = [];
  const rowsOf = new Map();

  function nameOf(row) {
    const label = row.querySelector(".label")?.textContent ?? row.textContent.trim().split(/\s+/).slice(0, 6).join(" ");
    return label.replace(/\s+/g, " ").trim().replace(/[:.,;]$/, "");
  }

  function addMark(row, section) {
    const mark = made("row_mark").firstElementChild;
    const box = mark.querySelector("input");
    box.setAttribute("aria-label", words(box.getAttribute("aria-label"), nameOf(row)));
    box.addEventListener("change", () => {
      keep(({ worked }) => (box.checked ? worked.add(row.dataset.row) : worked.delete(row.dataset.row)));
    });
    row.prepend(mark);
    row.classList.add("to_mark");
    boxes.push({ row, box });
    if (!rowsOf.has(section)) rowsOf.set(section, new Set());
    rowsOf.get(section).add(row.dataset.row);
  }

  // -- clearing the marks of a piece, after a question

  const clearings = [];

  function addClearing(section, rows) {
    const name = section.querySelector("h2").textContent.trim();
    const place = made("clear_button").firstElementChild;
    const button = place.querySelector("button");
    button.textContent = words(button.textContent, name);
    button.addEventListener("click", () => ask(name, () => {
      keep(({ worked }) => rows.forEach((row) => worked.delete(row)));
      section.querySelector(".worked input")?.focus();
    }));
    section.append(place);
    clearings.push({ place, rows });
  }

  function ask(name, then) {
    const dialog = made("clear_dialog").firstElementChild;
    const question = dialog.querySelector("p");
    question.textContent = words(question.textContent, name);
    dialog.querySelector(".yes").addEventListener("click", () => {
      dialog.close();
      then();
    });
    dialog.querySelector(".no").addEventListener("click", () => dialog.close());
    dialog.addEventListener("close", () => dialog.remove());
    document.body.append(dialog);
    dialog.showModal();
  }

  // -- the controls

  function addControls() {
    const header = document.querySelector("header");
    header.append(made("settings_controls"));
    const nav = document.querySelector("nav");
    const list = nav.querySelector("ul");
    nav.append(made("parts_menu"));
    nav.classList.add("bar");
    const menu = nav.querySelector("details");
    menu.append(list);
    menu.addEventListener("click", (event) => { if (event.target.closest("a")) menu.open = false; });
    menu.addEventListener("focusout", (event) => {
      if (event.relatedTarget && !menu.contains(event.relatedTarget)) menu.open = false;
    });
    menu.addEventListener("keydown", (event) => {
      if (event.key !== "Escape" || !menu.open) return;
      menu.open = false;
      menu.querySelector("summary").focus();
    });
    addChoice("my_size", "size");
    addChoice("my_units", "units");
  }

  function addChoice(id, what) {
    document.getElementById(id)?.addEventListener("change", (event) => keep((kept) => { kept[what] = event.target.value; }));
  }

  // A choice that the page does not offer, from storage, is as good as none.
  function offered(id, value) {
    const control = document.getElementById(id);
    const first = control?.options[0].value;
    const found = [...(control?.options ?? [])].some((option) => option.value === value) ? value : first;
    if (control) control.value = found;
    return found;
  }

  // -- the page as it is now

  function show() {
    const size = offered("my_size", now.size) ?? "all";
    root.dataset.units = offered("my_units", now.units) ?? "both";
    for (const { marker, nodes, choices } of places) {
      if (choices.has(size)) marker.after(...nodes);
      else nodes.forEach((node) => node.remove());
    }
    for (const { row, box } of boxes) {
      box.checked = now.worked.has(row.dataset.row);
      row.classList.toggle("done", box.checked);
    }
    for (const { place, rows } of clearings) place.hidden = ![...rows].some((row) => now.worked.has(row));
    const told = document.querySelector(".now");
    if (told) told.textContent = document.querySelector(".chosen").textContent.trim();
  }

  function start() {
    addControls();
    for (const part of ["header", "nav", "main"]) collect(document.querySelector(part));
    for (const [section, rows] of rowsOf) addClearing(section, rows);
    try {
      localStorage.setItem(`${key} ?`, "");
      localStorage.removeItem(`${key} ?`);
    } catch {
      tellRefused();
    }
    now = read();
    show();
    window.addEventListener("storage", (event) => {
      if (event.key !== key && event.key !== null) return;
      now = read();
      show();
    });
  }

  start();
})();
