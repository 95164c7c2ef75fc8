"use strict";
(() => {
  const by = (id) => document.getElementById(id);
  const tools = by("tools"), table = by("lots"), body = table.tBodies[0];
  const plain = (text) => text.normalize("NFD").replace(/\p{M}/gu, "").toLowerCase();
  const lots = [...body.rows].map((row, place) => ({
    row, place, text: plain([".lot", ".machine"].map((of) => row.querySelector(of).textContent).join(" ")), stage: row.dataset.stage, looks: row.dataset.look.split(" ").filter(Boolean),
    ranks: row.dataset.ranks.split(" ").map((rank) => (rank === "-" ? null : Number(rank))),
  }));
  const heads = [...table.tHead.rows[0].cells].filter((head) => head.dataset.place);
  const only = [];
  const asked = { find: "", stage: "", look: "", by: "", way: "" };

  const inOrder = (one, other) => {
    if (asked.by === "") return one.place - other.place;
    const [a, b] = [one.ranks[asked.by], other.ranks[asked.by]];
    if (a === null || b === null) return (a === null) - (b === null) || one.place - other.place;
    return (asked.way === "down" ? b - a : a - b) || one.place - other.place;
  };
  const fits = (lot, words) =>
    (!asked.stage || lot.stage === asked.stage) &&
    (!asked.look || (asked.look === "any" ? lot.looks.length : asked.look === "none" ? !lot.looks.length : lot.looks.includes(asked.look))) &&
    words.every((word) => lot.text.includes(word));
  const headOf = (place) => heads.find((head) => head.dataset.place === place);
  const orderSaid = () => {
    if (asked.by === "") return tools.dataset.listed;
    return `${headOf(asked.by).textContent.trim()}${tools.dataset.colon}${asked.way === "down" ? tools.dataset.down : tools.dataset.up}`;
  };

  const draw = (sorted) => {
    const words = plain(asked.find).split(/\s+/).filter(Boolean);
    let shown = 0;
    for (const lot of lots) {
      const hidden = !fits(lot, words);
      if (lot.row.hidden !== hidden) lot.row.hidden = hidden;
      shown += !hidden;
    }
    if (sorted) body.append(...[...lots].sort(inOrder).map((lot) => lot.row));
    for (const head of heads) {
      if (head.dataset.place !== asked.by) head.removeAttribute("aria-sort");
      else head.setAttribute("aria-sort", asked.way === "down" ? "descending" : "ascending");
    }
    by("status").textContent = tools.dataset.shown.replace("{n}", shown).replace("{all}", lots.length).replace("{order}", orderSaid());
    by("nothing").hidden = shown > 0;
    for (const button of only) button.setAttribute("aria-pressed", asked[button.dataset.only] === button.dataset.is);
    by("turn").disabled = asked.by === "";
    by("order").value = asked.by;
  };
  const remember = () => {
    const said = new URLSearchParams(Object.entries(asked).filter(([, value]) => value !== "")).toString();
    try { history.replaceState(null, "", said ? `#${said}` : location.pathname); } catch { /* an address that may not change */ }
  };
  const show = (sorted) => { draw(sorted); remember(); };
  const recall = () => {
    const said = new URLSearchParams(location.hash.slice(1));
    for (const name of Object.keys(asked)) asked[name] = said.get(name) ?? "";
    if (!headOf(asked.by)) asked.by = "";
    by("find").value = asked.find;
    for (const name of ["stage", "look"]) {
      by(name).value = asked[name];
      if (by(name).selectedIndex < 0) by(name).value = asked[name] = "";
    }
  };
  const order = (place) => {
    const first = place === "" ? "" : headOf(place).dataset.first;
    const other = first === "down" ? "up" : "down";
    if (place !== asked.by) [asked.by, asked.way] = [place, first];
    else if (asked.way === first) asked.way = other;
    else [asked.by, asked.way] = ["", ""];
    show(true);
  };

  for (const head of heads) {
    const button = document.createElement("button");
    button.type = "button";
    button.append(...head.childNodes);
    button.addEventListener("click", () => order(head.dataset.place));
    head.append(button);
    by("order").append(new Option(button.textContent, head.dataset.place));
  }
  for (const name of document.querySelectorAll(".only")) {
    const button = document.createElement("button");
    button.type = "button";
    Object.assign(button.dataset, name.dataset);
    button.append(...name.childNodes);
    button.addEventListener("click", () => {
      const { only: kind, is } = button.dataset;
      by(kind).value = asked[kind] = asked[kind] === is ? "" : is;
      show(false);
      if (by("status").getBoundingClientRect().bottom > innerHeight) by("lot-by-lot").scrollIntoView();
    });
    name.append(button);
    only.push(button);
  }
  by("find").addEventListener("input", () => { asked.find = by("find").value; show(false); });
  for (const name of ["stage", "look"]) by(name).addEventListener("change", () => { asked[name] = by(name).value; show(false); });
  by("order").addEventListener("change", () => { asked.by = ""; order(by("order").value); });
  by("turn").addEventListener("click", () => { asked.way = asked.way === "down" ? "up" : "down"; show(true); });
  by("all").addEventListener("click", () => {
    for (const name of ["find", "stage", "look"]) by(name).value = asked[name] = "";
    show(false);
  });
  recall();
  tools.hidden = false;
  draw(asked.by !== "");
})();
