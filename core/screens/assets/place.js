// What needs a place: recording a walk, where the person stands, and drawing an outline to scale.
//
// Nothing asks for the location before a person tapped a button that says so.

// ---- Recording a walk.
{
  const FIXES_MOST = 5000;
  let watch;
  let awake;

  const number = (n) => new Intl.NumberFormat(document.documentElement.lang, { maximumFractionDigits: 0 }).format(n);

  const stopWatching = () => {
    if (watch !== undefined) navigator.geolocation.clearWatch(watch);
    watch = undefined;
    awake?.release().catch(() => {});
    awake = undefined;
  };

  const set = (box) => {
    const start = box.querySelector('[data-walk-start]');
    const stop = box.querySelector('[data-walk-stop]');
    const state = box.querySelector('[data-walk-state]');
    const fixes = box.querySelector('[data-walk-fixes]');
    if (!start || !stop || !state || !fixes) return;

    const lines = () => fixes.value.split('\n').filter((line) => line.trim());
    const tell = (text, told) => {
      state.classList.toggle('told', told);
      state.textContent = text;
    };
    const running = (is) => {
      start.hidden = is;
      stop.hidden = !is;
    };

    const taken = ({ coords, timestamp }) => {
      const known = lines();
      if (known.length >= FIXES_MOST) {
        halt();
        return;
      }
      known.push(JSON.stringify({
        lat: coords.latitude,
        lon: coords.longitude,
        accuracy_m: coords.accuracy,
        utc_ms: Math.round(timestamp),
      }));
      fixes.value = `${known.join('\n')}\n`;
      tell(`${known.length} \u00b7 \u00b1 ${number(Math.ceil(coords.accuracy))} m`, false);
      Sward.typed(fixes);
    };
    const failed = (error) => {
      // A receiver that has no fix yet goes on looking.
      if (error.code === error.PERMISSION_DENIED) {
        halt();
        tell(Sward.word('frame-location-refused'), true);
      } else {
        tell(Sward.word('frame-location-waiting'), true);
      }
    };
    const halt = () => {
      stopWatching();
      running(false);
    };
    start.addEventListener('click', async () => {
      if (!navigator.geolocation) {
        tell(Sward.word('frame-location-refused'), true);
        return;
      }
      running(true);
      stop.focus();
      tell(Sward.word('frame-location-waiting'), true);
      watch = navigator.geolocation.watchPosition(taken, failed, { enableHighAccuracy: true, maximumAge: 0 });
      // A screen that goes dark stops the fixes.
      awake = await navigator.wakeLock?.request('screen').catch(() => undefined);
    });
    stop.addEventListener('click', () => {
      halt();
      start.focus();
    });
    running(false);
    if (lines().length) tell(`${lines().length}`, false);
    recorded(box, (known) => {
      fixes.value = `${known.join('\n')}\n`;
      tell(`${known.length}`, false);
      Sward.typed(fixes);
    });
  };

  // A walk that the device recorded with its screen dark: offered once there is one.
  const recorded = async (box, take) => {
    const button = box.querySelector('[data-walk-recorded]');
    if (!button) return;
    const known = async () => (await (await fetch('/walk')).json()).fixes.slice(0, FIXES_MOST);
    try {
      button.hidden = (await known()).length === 0;
    } catch {
      return;
    }
    button.addEventListener('click', async () => {
      try {
        take(await known());
      } catch {
        // The program does not answer; what was typed stays.
      }
    });
  };

  Sward.busyWhile(() => watch !== undefined);
  Sward.onMain((main) => {
    stopWatching();
    main.querySelectorAll('[data-walk]').forEach(set);
  });
}

// ---- Where the person stands: for a field, or to be sent at once.
{
  // As `Position` in core/book reads it: a tenth of a metre.
  const DECIMALS = 6;

  const set = (button) => {
    const input = button.form?.elements.namedItem(button.dataset.here);
    const state = button.parentElement.querySelector('[data-here-state]');
    if (!input || !state) return;
    const tell = (key) => { state.textContent = key && Sward.word(key); };
    button.hidden = false;
    button.addEventListener('click', () => {
      if (!navigator.geolocation) {
        tell('frame-location-refused');
        return;
      }
      tell('frame-location-waiting');
      navigator.geolocation.getCurrentPosition(
        ({ coords }) => {
          input.value = `${coords.latitude.toFixed(DECIMALS)}, ${coords.longitude.toFixed(DECIMALS)}`;
          tell('');
          if ('hereSend' in button.dataset) button.form.requestSubmit();
          else Sward.typed(input);
        },
        () => tell('frame-location-refused'),
        { enableHighAccuracy: true, maximumAge: 0, timeout: 30000 },
      );
    });
  };

  Sward.onMain((main) => main.querySelectorAll('button[data-here]').forEach(set));
}

// ---- Drawing an outline to scale.
{
  const SVG = 'http://www.w3.org/2000/svg';
  const NEAR_PX = 32;
  const DOT_PX = 10;

  const read = (text) => text.split('\n')
    .map((line) => /^\s*(-?\d+(?:\.\d+)?)\s*[,; \t]\s*(-?\d+(?:\.\d+)?)\s*$/.exec(line))
    .filter(Boolean)
    .map(([, east, north]) => ({ x: Number(east), y: -Number(north) }));

  const made = (name, into) => into.appendChild(document.createElementNS(SVG, name));

  const set = (box) => {
    const area = box.querySelector('svg[data-draw-area]');
    const text = box.querySelector('[data-draw-corners]');
    const undo = box.querySelector('[data-draw-undo]');
    if (!area || !text) return;
    const layer = made('g', area);
    layer.setAttribute('data-draw-now', '');
    let corners = read(text.value);
    let held = -1;

    const scale = () => area.getScreenCTM()?.a || 1;
    const show = () => {
      layer.replaceChildren();
      made('polygon', layer).setAttribute('points', corners.map(({ x, y }) => `${x},${y}`).join(' '));
      for (const { x, y } of corners) {
        const dot = made('circle', layer);
        dot.setAttribute('cx', x);
        dot.setAttribute('cy', y);
        dot.setAttribute('r', DOT_PX / scale());
      }
      if (undo) undo.disabled = !corners.length;
    };
    const write = () => {
      // A corner north of the middle has a negative y; `|| 0` keeps "-0" out.
      text.value = corners.map(({ x, y }) => `${x},${-y || 0}\n`).join('');
      show();
      Sward.typed(text);
    };
    const at = (event) => {
      const point = new DOMPoint(event.clientX, event.clientY).matrixTransform(area.getScreenCTM().inverse());
      const { x, y, width, height } = area.viewBox.baseVal;
      const within = (value, least, most) => Math.round(Math.min(Math.max(value, least), most));
      return { x: within(point.x, x, x + width), y: within(point.y, y, y + height) };
    };
    const near = ({ x, y }) => {
      const reach = NEAR_PX / scale();
      const by = corners.map((corner) => Math.hypot(corner.x - x, corner.y - y));
      const best = by.indexOf(Math.min(...by));
      return by[best] <= reach ? best : -1;
    };

    area.addEventListener('pointerdown', (event) => {
      if (!event.isPrimary) return;
      event.preventDefault();
      area.setPointerCapture(event.pointerId);
      const point = at(event);
      held = near(point);
      if (held < 0) {
        corners.push(point);
        held = corners.length - 1;
        show();
      }
    });
    area.addEventListener('pointermove', (event) => {
      if (held < 0) return;
      corners[held] = at(event);
      show();
    });
    const release = () => {
      if (held < 0) return;
      held = -1;
      write();
    };
    area.addEventListener('pointerup', release);
    area.addEventListener('pointercancel', release);
    undo?.addEventListener('click', () => {
      corners.pop();
      write();
    });
    text.addEventListener('input', () => {
      if (held < 0) corners = read(text.value);
      show();
    });
    if (undo) undo.hidden = false;
    show();
  };

  Sward.onMain((main) => main.querySelectorAll('[data-draw]').forEach(set));
}
