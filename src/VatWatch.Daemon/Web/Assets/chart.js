// The chart of a vat that can be dragged and pinched. It asks the daemon for columns of the stretch in view, as many as the screen is wide, so that a
// week draws as fast as an hour and no spike is lost. Without this script the page shows the picture that the daemon draws.
"use strict";
(() => {
  const section = document.querySelector("[data-chart]");
  if (!section || !window.echarts) return;

  const drawing = section.querySelector(".drawing");
  const reading = section.querySelector(".reading");
  const summary = section.querySelector(".summary");
  const happened = section.querySelector(".happened");
  const PATIENCE = 10000, SETTLE = 150, FOLLOW = 5000, LEAST_SPAN = 60e3, LONGEST_SPAN = 366 * 86400e3;
  const LANE = 64, FOOT = 24, LEFT = 54, RIGHT = 10;
  const PANELS = [
    { key: "temperature", height: 210, members: ["temperature", "ambient"] },
    { key: "ph", height: 100, members: ["ph"] },
    { key: "orp", height: 130, members: ["orp"] },
    { key: "level", height: 80, members: ["level"] },
  ];
  const SHAPES = {
    "dip-in": { symbol: "triangle", rotate: 180 }, "dip-out": { symbol: "triangle" }, added: { symbol: "diamond" }, handled: { symbol: "rect" },
    note: { symbol: "roundRect" }, alarm: { symbol: "circle" }, calibration: { symbol: "path://M5 0H15L20 10 15 20H5L0 10Z" },
  };

  let chart = null, data = null, view = null, wish = section.dataset.query, isFollowing = !/from=/.test(wish), asked = 0, settled = 0, lastAsk = 0, cursor = null;

  const ink = name => getComputedStyle(document.documentElement).getPropertyValue(name).trim();
  const number = value => String(value).replace("-", "−");
  const shown = moment => moment + data.zoneOffset;
  const moment = shownAt => shownAt - data.zoneOffset;

  function clock(at, withSeconds) {
    const parts = { hour: "2-digit", minute: "2-digit", hourCycle: "h23", ...(withSeconds ? { second: "2-digit" } : {}), ...(data.to - data.from > 20 * 3600e3 ? { day: "numeric", month: "short" } : {}) };
    try {
      return new Intl.DateTimeFormat("en-GB", { ...parts, timeZone: data.zone }).format(at);
    } catch {
      return new Intl.DateTimeFormat("en-GB", { ...parts, timeZone: "UTC" }).format(shown(at));
    }
  }

  // A column is drawn as first, least, greatest, last: the same picture as every reading of it.
  function points(trace) {
    const breaks = new Set(trace.breaks), line = [], step = trace.width / 4;
    trace.start.forEach((start, i) => {
      const at = shown(start), [first, last, min, max] = [trace.first[i], trace.last[i], trace.min[i], trace.max[i]];
      if (breaks.has(i)) line.push([at - 1, null]);
      line.push([at, first]);
      if (min !== max) line.push([at + step, last >= first ? min : max], [at + 2 * step, last >= first ? max : min], [at + 3 * step, last]);
    });
    return line;
  }

  function niceStep(span) {
    const rough = span / 4, power = 10 ** Math.floor(Math.log10(rough)), part = rough / power;
    return (part <= 1 ? 1 : part <= 2 ? 2 : part <= 5 ? 5 : 10) * power;
  }

  function extent(traces, band, extra) {
    const values = [...traces.flatMap(trace => [...trace.min, ...trace.max]), band?.low, band?.high, band?.limit, ...extra].filter(value => value !== null && value !== undefined);
    let [low, high] = values.length ? [values.reduce((a, b) => Math.min(a, b)), values.reduce((a, b) => Math.max(a, b))] : [0, 1];
    const least = { ph: 0.4, orp: 20 }[band?.measures] ?? 4;
    if (high - low < least) [low, high] = [(low + high - least) / 2, (low + high + least) / 2];
    const step = niceStep((high - low) * 1.06);
    return { min: Math.floor((low - (high - low) * 0.03) / step) * step, max: Math.ceil((high + (high - low) * 0.03) / step) * step, interval: step };
  }

  function line(name, panel, trace, style) {
    return { name, type: "line", xAxisIndex: panel, yAxisIndex: panel, data: trace, showSymbol: false, symbol: "none", animation: false, silent: true, connectNulls: false, z: 5, ...style };
  }

  function bandOf(band, axis) {
    const areas = band && (band.low !== null || band.high !== null) ? [[{ yAxis: band.low ?? axis.min }, { yAxis: band.high ?? axis.max }]] : [];
    return {
      markArea: { silent: true, itemStyle: { color: ink("--band"), opacity: 0.45 }, data: areas },
      markLine: {
        silent: true, symbol: "none", animation: false,
        data: band && band.limit !== null
          ? [{ yAxis: band.limit, lineStyle: { color: ink("--bad"), width: 2, type: "solid" }, label: { formatter: `${band.limitName} ${number(band.limit)}`, position: "insideStartTop", color: ink("--bad"), fontSize: 13, fontWeight: 600 } }]
          : [],
      },
    };
  }

  function passing(panel) {
    const now = data.to > data.now ? [{ xAxis: shown(data.now), lineStyle: { color: ink("--ink"), width: 1.5, type: "solid" } }] : [];
    const marks = data.marks.slice(-80).map(mark => ({ xAxis: shown(mark.at), lineStyle: { color: ink("--soft"), width: 1, type: "dotted" } }));
    return { type: "line", xAxisIndex: panel, yAxisIndex: panel, data: [], animation: false, silent: true, markLine: { silent: true, symbol: "none", animation: false, label: { show: false }, data: [...marks, ...now] } };
  }

  function ahead(panel) {
    const f = data.forecast;
    if (!f) return [];
    const common = { stack: "ahead", stackStrategy: "all", lineStyle: { opacity: 0 } };
    return [
      line("ahead-low", panel, f.at.map((at, i) => [shown(at), f.low[i]]), { ...common, z: 2 }),
      line("ahead-band", panel, f.at.map((at, i) => [shown(at), f.high[i] - f.low[i]]), { ...common, z: 2, areaStyle: { color: ink("--dye"), opacity: 0.28 } }),
      line("ahead", panel, f.at.map((at, i) => [shown(at), f.middle[i]]), { lineStyle: { color: ink("--dye"), width: 2.5, type: "dashed" } }),
    ];
  }

  // Where a warm-up that was begun should bring the liquor: pale, between dashed edges, behind everything else.
  function corridor(panel) {
    const c = data.corridor;
    if (!c) return [];
    const edge = { color: ink("--soft"), width: 1.5, type: [2, 4] };
    return [
      line("expected-low", panel, c.at.map((at, i) => [shown(at), c.low[i]]), { stack: "expected", stackStrategy: "all", z: 1, lineStyle: edge }),
      line("expected", panel, c.at.map((at, i) => [shown(at), c.high[i] - c.low[i]]), { stack: "expected", stackStrategy: "all", z: 1, lineStyle: edge, areaStyle: { color: ink("--soft"), opacity: 0.14 } }),
    ];
  }

  function heater(lane) {
    const trace = data.traces.find(one => one.measures === "heater");
    if (!trace) return [];
    return [{ type: "line", xAxisIndex: 0, yAxisIndex: lane, step: "end", showSymbol: false, animation: false, silent: true, z: 1, data: points(trace), lineStyle: { width: 0 }, areaStyle: { color: ink("--warn-ink"), opacity: 0.35 } }];
  }

  function markSeries(lane) {
    const rows = [], width = Math.max(200, drawing.clientWidth), near = (view.to - view.from) * 24 / width;
    return {
      id: "marks", type: "scatter", xAxisIndex: lane, yAxisIndex: lane, animation: false, cursor: "pointer", z: 8, symbolSize: 22,
      data: data.marks.map(mark => {
        let row = rows.findIndex(last => mark.at - last > near);
        if (row < 0) row = rows.length < 2 ? rows.length : (rows[0] <= rows[1] ? 0 : 1);
        rows[row] = mark.at;
        const shape = SHAPES[mark.kind] ?? SHAPES.note, isAlarm = mark.kind === "alarm";
        return {
          value: [shown(mark.at), 1 - row], text: mark.text, symbol: shape.symbol, symbolRotate: shape.rotate ?? 0,
          itemStyle: { color: isAlarm ? ink("--warn-ground") : ink("--sheet"), borderColor: isAlarm ? ink("--warn-ink") : ink("--ink"), borderWidth: 1.5, opacity: 1 },
          label: { show: true, formatter: mark.letter, color: isAlarm ? ink("--warn-ink") : ink("--ink"), fontWeight: 700, fontSize: 11, offset: mark.kind === "dip-in" ? [0, -3] : mark.kind === "dip-out" ? [0, 3] : [0, 0] },
        };
      }),
    };
  }

  function option() {
    const panels = PANELS.filter(panel => data.traces.some(trace => panel.members.includes(trace.measures)) || panel.key === "temperature");
    const grids = [], xAxes = [], yAxes = [], series = [], span = view.to - view.from;
    let top = LANE;
    panels.forEach((panel, i) => {
      const isLast = i === panels.length - 1;
      const traces = data.traces.filter(trace => panel.members.includes(trace.measures));
      const band = data.bands.find(one => one.measures === panel.key);
      const axis = extent(traces, band, i === 0 ? [...(data.forecast?.middle ?? []), ...(data.corridor ? [data.corridor.low[0], data.corridor.high.at(-1)] : [])] : []);
      grids.push({ left: LEFT, right: RIGHT, top, height: panel.height });
      xAxes.push({
        type: "time", gridIndex: i, min: shown(view.from - span), max: shown(view.to + span), axisLine: { lineStyle: { color: ink("--soft") } }, axisTick: { show: isLast }, splitLine: { show: true, lineStyle: { color: ink("--line"), opacity: 0.6 } },
        axisLabel: { show: isLast, color: ink("--ink"), hideOverlap: true, fontSize: 12, formatter: { year: "{yyyy}", month: "{d} {MMM}", day: "{d} {MMM}", hour: "{HH}:{mm}", minute: "{HH}:{mm}", second: "{HH}:{mm}:{ss}", none: "{HH}:{mm}:{ss}" } },
        axisPointer: { show: true, triggerTooltip: false, label: { show: false }, lineStyle: { color: ink("--ink") } },
      });
      const label = traces[0]?.label ?? "Liquor", unit = traces[0]?.unit ?? "";
      yAxes.push({
        type: "value", gridIndex: i, ...axis, name: unit ? `${label} ${unit}` : label, nameLocation: "end", nameGap: 5, nameTextStyle: { color: ink("--ink"), fontWeight: 700, fontSize: 13, align: "left", padding: [0, 0, 0, 10 - LEFT] },
        axisLabel: { color: ink("--ink"), fontSize: 12, formatter: number, showMinLabel: true, showMaxLabel: false }, splitLine: { lineStyle: { color: ink("--line"), opacity: 0.6 } },
      });
      traces.forEach((trace, j) => series.push(line(trace.probe, i, points(trace), {
        lineStyle: { color: trace.measures === "ambient" ? ink("--soft") : ink("--indigo"), width: trace.measures === "ambient" ? 1.5 : 2, type: trace.measures === "ambient" ? "dashed" : j ? [8, 3] : "solid" },
        ...(j === 0 ? bandOf(band, axis) : {}),
      })));
      if (traces.length === 0) series.push(line("none", i, [], bandOf(band, axis)));
      series.push(passing(i));
      if (i === 0) series.push(...corridor(i), ...ahead(i));
      top += panel.height + (isLast ? FOOT : 26);
    });
    const lane = panels.length;
    grids.push({ left: LEFT, right: RIGHT, top: 14, height: LANE - 38 });
    xAxes.push({ type: "time", gridIndex: lane, show: false, min: shown(view.from - span), max: shown(view.to + span), axisPointer: { show: false } });
    yAxes.push({ type: "value", gridIndex: lane, show: false, min: 0, max: 1 });
    yAxes.push({ type: "value", gridIndex: 0, show: false, min: 0, max: 16 });
    series.push(...heater(lane + 1), markSeries(lane));
    return {
      height: top, useUTC: true, animation: false, grid: grids, xAxis: xAxes, yAxis: yAxes, series,
      axisPointer: { link: [{ xAxisIndex: "all" }] },
      dataZoom: [{ type: "inside", xAxisIndex: xAxes.map((_, i) => i), filterMode: "none", zoomOnMouseWheel: "ctrl", moveOnMouseWheel: false, moveOnMouseMove: true, throttle: 30, minValueSpan: LEAST_SPAN, startValue: shown(view.from), endValue: shown(view.to) }],
      textStyle: { fontFamily: getComputedStyle(document.body).fontFamily },
    };
  }

  function draw(began) {
    const { height, ...rest } = option();
    drawing.style.height = `${height}px`;
    drawing.hidden = false;
    if (!chart) {
      chart = echarts.init(drawing, null, { renderer: "canvas" });
      chart.on("datazoom", zoomed);
      chart.on("click", params => { if (params.data?.text) say(params.data.text); });
      chart.getZr().on("mousemove", event => read(event.offsetX));
      chart.getZr().on("click", event => { if (!event.target) read(event.offsetX); });
      new ResizeObserver(() => chart.resize()).observe(drawing);
    }
    chart.resize();
    chart.setOption(rest, { notMerge: true, lazyUpdate: false });
    chart.getZr().flush();
    drawing.dataset.drawnIn = Math.round(performance.now() - began);
  }

  function say(text) {
    if (reading.textContent !== text) reading.textContent = text;
  }

  function read(x) {
    if (!data) return;
    cursor = moment(chart.convertFromPixel({ xAxisIndex: 0 }, x));
    tell();
  }

  function tell() {
    const near = (view.to - view.from) * 14 / Math.max(200, drawing.clientWidth);
    const mark = data.marks.filter(one => Math.abs(one.at - cursor) < near).sort((a, b) => Math.abs(a.at - cursor) - Math.abs(b.at - cursor))[0];
    const values = data.traces.map(trace => {
      let i = trace.start.findLastIndex(start => start <= cursor);
      if (i < 0 || cursor - trace.start[i] > 3 * Math.max(trace.width, 60e3)) return null;
      const value = trace.measures.startsWith("heater") ? (trace.last[i] >= 0.05 ? "on" : "off") : number(trace.last[i].toFixed({ ph: 2, orp: 0 }[trace.measures] ?? 1));
      return `${trace.label} ${value.replace("-", "−")}${trace.unit ? ` ${trace.unit}` : ""}`;
    }).filter(Boolean);
    const f = data.forecast;
    if (f && cursor > data.now) {
      const i = f.at.findIndex(at => at >= cursor);
      if (i >= 0) values.push(`foreseen ${f.low[i].toFixed(1)} to ${f.high[i].toFixed(1)}`);
    }
    const c = data.corridor;
    if (c && cursor >= c.at[0] && cursor <= c.at.at(-1)) {
      const i = c.at.findIndex(at => at >= cursor);
      values.push(`expected of this warm-up ${c.low[i].toFixed(1)} to ${c.high[i].toFixed(1)}`);
    }
    say(`${clock(cursor, view.to - view.from < 6 * 3600e3)}: ${values.join(", ") || "nothing recorded"}.${mark ? ` ${mark.text}` : ""}`);
  }

  async function load(query, began) {
    const mine = ++asked;
    lastAsk = Date.now();
    try {
      const width = Math.round(Math.max(300, drawing.clientWidth || section.clientWidth) * (/from=/.test(query) ? 1 : 0.5));
      const reply = await fetch(`${section.dataset.chart}?${query}&width=${Math.min(4000, width)}`, { cache: "no-store", signal: AbortSignal.timeout(PATIENCE) });
      if (!reply.ok) throw new Error(reply.status === 400 ? "That stretch cannot be drawn: it is shorter than 10 s or longer than a year." : "The record could not be read just now.");
      const fresh = await reply.json();
      if (mine !== asked) return;
      data = fresh;
      if (!view || !/from=/.test(query)) view = { from: data.from, to: data.to };
      draw(began);
      summary.textContent = data.summary + (data.noForecast ? ` No forecast: ${data.noForecast}.` : "");
      drawing.setAttribute("aria-label", `Chart of ${data.name}. ${data.summary}`);
      happened.replaceChildren(...(data.marks.length ? data.marks : [{ letter: "", text: "Nothing was marked in this stretch." }]).map(mark => {
        const item = document.createElement("li"), letter = document.createElement("b");
        letter.textContent = mark.letter;
        item.append(letter, " ", mark.text);
        return item;
      }));
    } catch (problem) {
      if (mine === asked) say(problem instanceof TypeError || problem.name === "TimeoutError" ? "No contact with VatWatch; the chart is as it was." : problem.message);
    }
  }

  // After a drag or a pinch, columns that fit the new stretch, with half as much again on either side for the next drag.
  function loadView(began) {
    const span = view.to - view.from, iso = at => new Date(Math.round(at)).toISOString();
    wish = `from=${iso(view.from - span / 2)}&to=${iso(view.to + span / 2)}`;
    return load(wish, began);
  }

  function zoomed() {
    const zoom = chart.getOption().dataZoom[0];
    view = { from: moment(zoom.startValue), to: moment(zoom.endValue) };
    isFollowing = false;
    mark(null);
    clearTimeout(settled);
    settled = setTimeout(() => loadView(performance.now()), SETTLE);
  }

  function move(shift, factor) {
    const span = Math.min(LONGEST_SPAN / 2, Math.max(LEAST_SPAN, (view.to - view.from) * factor)), middle = (view.from + view.to) / 2 + shift * (view.to - view.from);
    view = { from: middle - span / 2, to: middle + span / 2 };
    isFollowing = false;
    mark(null);
    return loadView(performance.now());
  }

  function mark(chosen) {
    for (const link of section.querySelectorAll(".hours a")) {
      if (link === chosen) link.setAttribute("aria-current", "true");
      else link.removeAttribute("aria-current");
    }
  }

  function choose(query, link) {
    wish = query;
    view = null;
    isFollowing = !/from=/.test(query);
    mark(link);
    history.replaceState(null, "", `${location.pathname}?${query}`);
    return load(query, performance.now());
  }

  section.querySelector(".hours").addEventListener("click", event => {
    const link = event.target.closest("a");
    if (!link || event.ctrlKey || event.metaKey || event.shiftKey) return;
    event.preventDefault();
    choose(new URL(link.href).search.slice(1), link);
  });
  section.querySelector(".dates").addEventListener("submit", event => {
    event.preventDefault();
    choose(new URLSearchParams(new FormData(event.target)).toString(), null);
  });
  section.querySelector(".moves").addEventListener("click", event => {
    const by = event.target.closest("button")?.dataset.move;
    if (by && view) move(...{ earlier: [-0.5, 1], later: [0.5, 1], closer: [0, 0.5], wider: [0, 2] }[by]);
  });
  drawing.addEventListener("keydown", event => {
    if (!data || !view) return;
    const step = (view.to - view.from) / 60, key = event.key;
    if (key === "ArrowLeft" || key === "ArrowRight") {
      cursor = cursor === null ? Math.min(data.now, view.to) : Math.min(view.to, Math.max(view.from, cursor + (key === "ArrowLeft" ? -step : step)));
      chart.dispatchAction({ type: "updateAxisPointer", currTrigger: "mousemove", x: chart.convertToPixel({ xAxisIndex: 0 }, shown(cursor)), y: LANE + 40 });
      tell();
    } else if (key === "+" || key === "=") move(0, 0.5);
    else if (key === "-") move(0, 2);
    else if (key === "PageUp") move(-0.5, 1);
    else if (key === "PageDown") move(0.5, 1);
    else return;
    event.preventDefault();
  });
  document.addEventListener("vatwatch-refreshed", () => {
    if (isFollowing && !document.hidden && Date.now() - lastAsk > FOLLOW) load(wish, performance.now());
  });
  matchMedia("(prefers-color-scheme: dark)").addEventListener("change", () => { if (data) draw(performance.now()); });

  section.classList.add("drawn");
  load(wish, performance.now());
})();
