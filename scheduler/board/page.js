"use strict";
(() => {
  const plan = JSON.parse(document.getElementById("plan").textContent);
  const at = (id) => document.getElementById(id);
  const DAY = 1440;

  const make = (name, text, look) => {
    const made = document.createElement(name);
    if (text !== undefined && text !== "") made.textContent = text;
    if (look) made.className = look;
    return made;
  };
  const two = (n) => String(n).padStart(2, "0");
  const clock = (minute) => two(Math.floor((minute % DAY) / 60)) + ":" + two(minute % 60);
  const dayOf = (minute) => Math.floor(minute / DAY);
  const dayName = (day) => plan.days[day] || "day " + (day + 1);
  // a weekday alone says which day only within a week
  const when = (minute, day) => {
    const other = dayOf(minute), name = dayName(other);
    return (other === day ? "" : Math.abs(other - day) < 7 ? name.slice(0, 4) : name + " ") + clock(minute);
  };
  const begin = (job) => (job.setup ? job.s : job.r);

  // "#now=2026-12-02T09:30" shows the board as it stands then: for looking ahead, and for tests. What is chosen
  // stands behind the "#" too, so that a tablet keeps its own roll when the page is opened again.
  const asked = new URLSearchParams(location.hash.slice(1));
  const wanted = /^(\d+)-(\d+)-(\d+)T(\d+):(\d+)$/.exec(asked.get("now") || "");
  const minuteNow = () => {
    const d = new Date();
    const p = wanted ? wanted.slice(1).map(Number)
      : [d.getFullYear(), d.getMonth() + 1, d.getDate(), d.getHours(), d.getMinutes()];
    const days = (Date.UTC(p[0], p[1] - 1, p[2]) - Date.UTC(...plan.start)) / 864e5;
    return days * DAY + p[3] * 60 + p[4];
  };

  const jobsOn = (machine) => plan.jobs.filter((job) => job.m === machine);
  const state = { machine: "", day: "", customer: "" };
  const fits = (job) =>
    (state.machine === "" || job.m === Number(state.machine)) &&
    (state.day === "" || (dayOf(begin(job)) <= Number(state.day) && dayOf(job.f - 1) >= Number(state.day))) &&
    (state.customer === "" || job.who === state.customer);

  const opener = (job, look) => {
    const button = make("button", job.id, look);
    button.type = "button";
    button.setAttribute("aria-label", job.id + ", " + (job.sheet ? "open the set-up sheet" : "plate to cut"));
    if (job.sheet) button.addEventListener("click", () => openSheet(job));
    else button.disabled = true;
    return button;
  };

  const cards = (now) => {
    const box = at("cards"), held = box.contains(document.activeElement) ? document.activeElement.textContent : null;
    box.replaceChildren();
    plan.machines.forEach((machine, m) => {
      if (state.machine !== "" && Number(state.machine) !== m) return;
      const jobs = jobsOn(m);
      const running = jobs.find((job) => begin(job) <= now && now < job.f);
      const next = jobs.find((job) => begin(job) > now);
      const card = make("article", "", "card");
      card.append(make("h3", machine.name));
      card.append(running ? running_(running, now) : make("p", now < 0 || next ? "nothing running" : "done"));
      if (next) {
        const line = make("p", "", "head"), then = make("div");
        line.append("next ", opener(next, "id second"), " at " + when(begin(next), dayOf(now)));
        then.append(line, make("p", next.qty + " × " + next.part, "what"));
        if (next.setup) then.append(make("p", "set-up " + next.setup + " min: " + setSteps(next), "what"));
        card.append(then);
      }
      box.append(card);
    });
    at("now").hidden = false;
    // drawn anew three times a minute: who works by keyboard stays on the same job
    const same = held && [...box.querySelectorAll("button")].find((button) => button.textContent === held);
    if (same) same.focus();
  };
  const setSteps = (job) => job.why.join("; ") + (job.waits ? "; then " + job.waits : "");
  const running_ = (job, now) => {
    const box = make("div"), day = dayOf(now);
    const setting = job.setup && now < job.e, waiting = !setting && now < job.r;
    const open = plan.machines[job.m].open;
    const closed = open.length > 0 && !open.some((o) => o[0] <= now && now < o[1]);
    const head = make("p", "", "head"), state_ = setting ? "SET-UP" : waiting ? "WAITS" : "RUNNING";
    head.append(make("span", closed ? "CLOSED" : state_, "tag solid"), " ", opener(job, "id"));
    if (job.late) head.append(" ", make("span", "LATE", "tag"));
    box.append(head, make("p", job.qty + " × " + job.part, "what"));
    if (closed) {
      const again = open.find((o) => o[0] > now);
      box.append(make("p", (setting ? "in set-up" : waiting ? "set up" : "half done") +
        (again ? ", goes on " + when(again[0], day) : "")));
    }
    if (setting) box.append(make("p", setSteps(job)));
    if (waiting) box.append(make("p", job.waits || "set up"));
    box.append(make("p", waiting ? "starts " + when(job.r, day) : "until " + when(setting ? job.e : job.f, day)));
    return box;
  };

  const lanes = (now) => {
    const box = at("day-lanes");
    box.replaceChildren();
    const today = Math.min(Math.max(dayOf(now), 0), plan.days.length - 1);
    const day = state.day === "" ? today : Number(state.day);
    at("lanes-head").textContent = dayName(day);
    const spans = plan.machines.flatMap((machine) => machine.open).filter((o) => dayOf(o[0]) === day);
    if (!spans.length) { at("lanes").hidden = true; return; }
    const from = Math.floor(Math.min(...spans.map((o) => o[0])) / 60) * 60;
    const to = Math.ceil(Math.max(...spans.map((o) => o[1])) / 60) * 60;
    const put = (track, start, end, look, text) => {
      const a = Math.max(start, from), b = Math.min(end, to);
      if (b <= a) return null;
      const bar = make("div", text, look);
      bar.style.left = (100 * (a - from)) / (to - from) + "%";
      bar.style.width = (100 * (b - a)) / (to - from) + "%";
      track.append(bar);
      return bar;
    };
    const axis = make("div", "", "lane axis");
    const ticks = make("div", "", "track");
    for (let t = from; t < to; t += 60) put(ticks, t, t + 60, "hour", clock(t));
    axis.append(make("b", ""), ticks);
    box.append(axis);
    plan.machines.forEach((machine, m) => {
      if (state.machine !== "" && Number(state.machine) !== m) return;
      const lane = make("div", "", "lane"), track = make("div", "", "track");
      machine.open.filter((o) => dayOf(o[0]) === day).forEach((o) => put(track, o[0], o[1], "open", ""));
      jobsOn(m).filter((job) => state.customer === "" || job.who === state.customer).forEach((job) => {
        if (job.setup) put(track, job.s, job.e, "bar setup" + (job.s <= now && now < job.e ? " running" : ""), "");
        const look = "bar work" + (job.late ? " late" : "") + (job.sheet ? "" : " cut") +
          (job.r <= now && now < job.f ? " running" : "");
        const bar = put(track, job.r, job.f, look, (job.late ? "LATE " : "") + job.id);
        if (bar) bar.title = job.id + ", " + clock(job.r) + " to " + when(job.f, day);
      });
      if (dayOf(now) === day) put(track, now, now + 1, "nowline", "");
      const name = make("b", machine.name);
      const load = machine.loads.find((l) => l[0] <= day && day < l[0] + 7);
      if (load) name.append(make("small", "this week " + load[1]));
      lane.append(name, track);
      box.append(lane);
    });
    at("lanes").hidden = false;
  };

  const list = (now) => {
    let shown = 0;
    for (const row of at("list").tBodies[0].rows) {
      const job = plan.jobs[Number(row.dataset.job)];
      row.hidden = !fits(job);
      row.classList.toggle("running", begin(job) <= now && now < job.f);
      shown += row.hidden ? 0 : 1;
    }
    for (const row of document.querySelectorAll("table.week tbody tr"))
      row.hidden = state.machine !== "" && Number(row.dataset.m) !== Number(state.machine);
    const words = shown + " of " + plan.jobs.length + " shown";
    if (at("shown").textContent !== words) at("shown").textContent = words;
  };

  const draw = (picture) => {
    const space = "http://www.w3.org/2000/svg";
    const svg = document.createElementNS(space, "svg");
    svg.setAttribute("viewBox", "0 0 " + picture.w + " " + picture.h);
    svg.setAttribute("role", "img");
    svg.style.flexGrow = picture.w / picture.h;
    svg.setAttribute("aria-label", picture.title);
    const put = (name, values, text) => {
      const made = document.createElementNS(space, name);
      for (const [key, value] of Object.entries(values)) if (value !== undefined) made.setAttribute(key, value);
      if (text !== undefined) made.textContent = text;
      svg.append(made);
    };
    for (const item of picture.items) {
      if (item[0] === "p") {
        put("path", { d: item[1], fill: item[4] || "none", stroke: item[3] || "none", "stroke-width": item[2],
          "stroke-dasharray": item[5] });
      } else if (item[0] === "c") {
        put("circle", { cx: item[1], cy: item[2], r: item[3], fill: item[4] || "none", stroke: "#000", "stroke-width": 4 });
      } else {
        const [, x, y, text, size, anchor, bold, turn, ink, behind] = item;
        const spin = turn ? "rotate(" + -turn + " " + x + " " + y + ")" : undefined;
        if (behind) {
          const wide = 0.56 * size * text.length + 0.3 * size;
          const left = anchor === "middle" ? x - wide / 2 : anchor === "end" ? x - wide : x;
          put("rect", { x: left, y: y - 0.85 * size, width: wide, height: 1.1 * size, fill: behind, transform: spin });
        }
        put("text", { x, y, "font-size": size, "text-anchor": anchor, "font-weight": bold ? "bold" : undefined,
          fill: ink || "#000", transform: spin, "font-family": "Arial, Helvetica, sans-serif" }, text);
      }
    }
    return svg;
  };

  const facts = (name, rows) => {
    const box = make("div"), pairs = make("dl");
    box.append(make("h3", name));
    for (const [key, value] of rows) {
      if (!key) { box.append(make("p", value)); continue; }
      pairs.append(make("dt", key), make("dd", value || "write down"));
    }
    box.insertBefore(pairs, box.children[1] || null);
    return box;
  };

  const openSheet = (job) => {
    const s = job.sheet, body = at("sheet-body");
    body.replaceChildren();
    const head = make("h2", job.id + ": " + job.qty + " off, " + s.asked);
    head.id = "sheet-head";
    const day = dayOf(begin(job));
    body.append(head, make("p", s.identity), make("p", job.part),
      make("p", plan.machines[job.m].name + ", " + dayName(day) + ", " +
        (job.setup ? "set-up " + clock(job.s) + ", " : "") + "roll " + when(job.r, day) + " to " + when(job.f, day) +
        "; " + job.due + (job.late ? ", LATE" : "")));
    if (job.setup) body.append(make("p", "Set-up " + job.setup + " min: " + setSteps(job)));
    const table = make("table", "", "passes");
    const names = make("tr");
    ["Pass", "End first", "First try, " + plan.unit, "In the rolls R", "Let go R"].forEach((name) => {
      const cell = make("th", name);
      cell.scope = "col";
      names.append(cell);
    });
    table.createTHead().append(names);
    const rows = table.createTBody();
    for (const step of s.steps) {
      const row = rows.insertRow();
      step.forEach((value, k) => row.append(make("td", value, k === 1 || k === 2 ? "big" : "")));
    }
    const pictures = make("div", "", "pictures");
    s.pictures.forEach((picture) => pictures.append(draw(picture)));
    body.append(table, make("p", "Pinch gap, both ends: " + (s.pinch[0][1] || "as measured"), "gap"), pictures);
    const all = make("div", "", "facts");
    all.append(facts("Pinch", [...s.pinch.slice(1), ["", plan.pinch]]), facts("Ends", s.ends),
      facts("Check", s.checks), facts("Springback", s.springback.map((text) => ["", text])), facts("Lift", s.lift));
    body.append(all, make("h3", "Mind"));
    const mind = make("ul");
    s.cautions.forEach((text) => mind.append(make("li", text)));
    body.append(mind, make("p", plan.standing));
    if (s.remarks.length) body.append(make("p", s.remarks.join("; ")));
    document.body.classList.add("sheet-open");
    at("sheet").showModal();
    at("close").focus();
  };

  const show = () => {
    const now = minuteNow();
    const last = Math.max(0, ...plan.jobs.map((job) => job.f));
    const today = dayOf(now);
    at("clock").textContent = (plan.days[today] || "outside the plan") + " " + clock(((now % DAY) + DAY) % DAY) +
      " · plan from " + plan.made;
    const stale = at("stale");
    stale.hidden = !(now > last || now < 0);
    stale.textContent = now > last ? "This plan is over: ask for the new one." : "This plan has not begun yet.";
    cards(now);
    lanes(now);
    list(now);
  };

  const keep = () => {
    for (const id of Object.keys(state)) {
      if (state[id] === "") asked.delete(id);
      else asked.set(id, at(id).selectedOptions[0].text);
    }
    history.replaceState(null, "", "#" + asked);
  };
  const fill = (id, all, values) => {
    const select = at(id);
    select.append(new Option(all, ""));
    values.forEach(([value, text]) => select.append(new Option(text, value)));
    select.addEventListener("change", () => { state[id] = select.value; keep(); show(); });
    const told = [...select.options].find((option) => option.text === asked.get(id));
    if (told) state[id] = select.value = told.value;
  };
  fill("machine", "all", plan.machines.map((machine, m) => [m, machine.name]));
  const worked = [...new Set(plan.jobs.map((job) => dayOf(begin(job))))].sort((a, b) => a - b);
  fill("day", "all days", worked.map((day) => [day, dayName(day)]));
  fill("customer", "all", [...new Set(plan.jobs.map((job) => job.who).filter(Boolean))].sort().map((who) => [who, who]));
  at("choose").addEventListener("submit", (event) => event.preventDefault());
  at("today").addEventListener("click", () => {
    for (const id of Object.keys(state)) { state[id] = ""; at(id).value = ""; }
    keep();
    show();
    scrollTo(0, 0);
  });
  at("print").addEventListener("click", () => print());
  at("close").addEventListener("click", () => at("sheet").close());
  at("sheet").addEventListener("close", () => document.body.classList.remove("sheet-open"));
  for (const row of at("list").tBodies[0].rows) {
    const job = plan.jobs[Number(row.dataset.job)];
    if (job.sheet) row.querySelector(".job").replaceChildren(opener(job));
  }
  at("choose").hidden = false;
  show();
  setInterval(show, 20000);
})();
