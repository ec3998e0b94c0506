// What the screens do beyond plain HTML. Every screen works without this script.
//
// Served as one file with pad.js and place.js behind it (see server/handle.rs). What it looks for:
//
//   body[data-version][data-now]   which state of the book is shown (0: shown once, never exchanged),
//                                  and the server's time in ms since 1970
//   form[data-draft]               what is typed is kept under this name until it is sent
//   time[data-until=ms]            how long it still lasts is shown beside it
//   [data-again=ms]                the content is asked for anew after that time
//   details                        stays open when the content is exchanged
//   input[data-pad][data-recent]   number keys (pad.js); data-pad="whole" has no point;
//                                  data-recent="3|2.5|4" are offered
//   div[data-walk]                 button[data-walk-start], button[data-walk-stop],
//                                  output[data-walk-state], textarea[data-walk-fixes],
//                                  button[data-walk-recorded]: a walk is recorded, or one that
//                                  the device recorded is taken (place.js), a fix a line, as
//                                  {"lat":…,"lon":…,"accuracy_m":…,"utc_ms":…}
//   div[data-draw]                 svg[data-draw-area] (viewBox in cm, y down is south),
//                                  textarea[data-draw-corners], button[data-draw-undo]:
//                                  an outline is drawn, a corner a line, as east_cm,north_cm
//   button[data-here=name]         the field of that name in its form takes the place where the
//                                  person stands; output[data-here-state] beside it; with
//                                  data-here-send the form is sent at once
//   #words [data-word=key]         the few words that the script shows
//
// A button that does nothing without the script has `hidden`, which the script takes away.

'use strict';

// What the parts share.
const Sward = (() => {
  const eachMain = [];
  const busy = [];
  return {
    // The words of a message.
    word: (key) => document.querySelector(`#words [data-word="${key}"]`)?.textContent ?? '',
    // Calls `set(main)` now and whenever the content was exchanged.
    onMain(set) {
      eachMain.push(set);
      set(document.querySelector('main'));
    },
    exchanged: (main) => eachMain.forEach((set) => set(main)),
    // The content is not exchanged while one of these says so.
    busyWhile: (is) => busy.push(is),
    isBusy: () => busy.some((is) => is()),
    // Tells what listens to typing that the script typed.
    typed: (field) => field.dispatchEvent(new Event('input', { bubbles: true })),
  };
})();

// ---- Drafts: what is typed survives the program and the browser.
{
  const KEEP_AFTER_MS = 400;
  const AGAIN_AFTER_MS = 3000;
  const waiting = new Map();
  const sending = new Map();
  const changed = new WeakSet();

  const said = (form, key) => {
    let line = form.querySelector('.kept');
    if (!line) {
      line = document.createElement('p');
      line.className = 'kept';
      line.setAttribute('role', 'status');
      const button = [...form.querySelectorAll('button.next')].pop();
      if (button) button.before(line);
      else form.append(line);
    }
    const words = key && Sward.word(key);
    if (line.textContent !== words) line.textContent = words;
  };

  const content = (form) => {
    const body = new URLSearchParams();
    for (const [name, value] of new FormData(form)) {
      if (typeof value === 'string') body.append(name, value);
    }
    body.append('draft', form.dataset.draft);
    return body;
  };

  const keep = async (form) => {
    clearTimeout(waiting.get(form));
    waiting.delete(form);
    sending.get(form)?.abort();
    const stop = new AbortController();
    sending.set(form, stop);
    try {
      const body = content(form);
      const small = body.toString().length < 60000;
      const answer = await fetch('/draft', { method: 'POST', body, keepalive: small, signal: stop.signal });
      if (!answer.ok) throw new Error(answer.statusText);
      said(form, 'frame-draft-kept');
    } catch {
      if (stop.signal.aborted) return;
      said(form, 'frame-draft-failed');
      later(form, AGAIN_AFTER_MS);
    } finally {
      if (sending.get(form) === stop) sending.delete(form);
    }
  };

  const later = (form, ms) => {
    clearTimeout(waiting.get(form));
    waiting.set(form, setTimeout(keep, ms, form));
  };

  const keepAll = () => Promise.all([...waiting.keys()].map(keep));

  document.addEventListener('input', (event) => {
    const form = event.target.form;
    if (!form) return;
    changed.add(form);
    if (form.dataset.draft) later(form, KEEP_AFTER_MS);
  });

  // What is being sent is no draft any more: none may arrive after it.
  document.addEventListener('submit', (event) => {
    if (event.defaultPrevented) return;
    clearTimeout(waiting.get(event.target));
    waiting.delete(event.target);
    sending.get(event.target)?.abort();
  });

  addEventListener('pagehide', keepAll);

  Sward.keepAll = keepAll;
  // What could not be kept yet, each form as it would be sent: for the phone's shell, when the program
  // was started anew under the page.
  Sward.unkept = () => [...new Set([...waiting.keys(), ...sending.keys()])].map((form) => content(form).toString());
  Sward.busyWhile(() => {
    const main = document.querySelector('main');
    const here = document.activeElement;
    return [...main.querySelectorAll('form')].some((form) => changed.has(form))
      || (main.contains(here) && here.matches('input, select, textarea'));
  });
}

// ---- A second tap on a button does not send twice. The server knows that too, by `once`.
{
  const LOCKED_MS = 5000;
  let sent = false;
  const free = (form) => {
    sent = false;
    delete form.dataset.sent;
    form.querySelectorAll('button').forEach((button) => button.removeAttribute('aria-busy'));
  };
  document.addEventListener('submit', (event) => {
    const form = event.target;
    if (form.dataset.sent) {
      event.preventDefault();
      return;
    }
    sent = true;
    form.dataset.sent = 'yes';
    event.submitter?.setAttribute('aria-busy', 'true');
    // A form that answers with a file leaves the screen as it is.
    setTimeout(free, LOCKED_MS, form);
  });
  addEventListener('pageshow', (event) => {
    if (event.persisted) document.querySelectorAll('form[data-sent]').forEach(free);
  });
  Sward.busyWhile(() => sent);
}

// ---- Two screens never differ for long.
{
  const NEVER = '0';
  const shown = () => document.body.dataset.version;
  const address = () => location.pathname + location.search;
  let asking = false;

  const offer = () => {
    const fresh = document.getElementById('fresh');
    if (fresh) fresh.hidden = false;
  };

  // Where the person was: what was unfolded, what had the focus.
  const place = (main) => {
    const open = [...main.querySelectorAll('details')].map((details) => details.open);
    const here = document.activeElement;
    const links = [...main.querySelectorAll('a[href], button, summary')];
    return { open, at: links.indexOf(here) };
  };
  const back = (main, { open, at }) => {
    main.querySelectorAll('details').forEach((details, i) => {
      if (open[i]) details.open = true;
    });
    if (at >= 0) main.querySelectorAll('a[href], button, summary')[at]?.focus({ preventScroll: true });
  };

  const again = async () => {
    if (asking || document.hidden || shown() === NEVER) return;
    if (Sward.isBusy() || document.getElementById('wrong')) {
      offer();
      return;
    }
    asking = true;
    try {
      const answer = await fetch(address(), { headers: { accept: 'text/html' } });
      const page = new DOMParser().parseFromString(await answer.text(), 'text/html');
      const main = page.querySelector('main');
      const gone = answer.redirected || !answer.ok || !main;
      if (gone || Sward.isBusy()) {
        offer();
        return;
      }
      const old = document.querySelector('main');
      const was = place(old);
      old.replaceChildren(...main.childNodes);
      document.title = page.title;
      document.body.dataset.version = page.body.dataset.version;
      document.body.dataset.now = page.body.dataset.now;
      const banner = page.querySelector('.banner');
      document.querySelector('.banner')?.remove();
      if (banner) old.before(banner);
      document.getElementById('fresh').hidden = true;
      back(old, was);
      Sward.exchanged(old);
    } catch {
      // The program does not answer; the stream tells when it does again.
    } finally {
      asking = false;
    }
  };
  Sward.again = again;

  // Hidden pages hold no connection: a browser has few of them for one address.
  let stream;
  const listen = () => {
    stream?.close();
    stream = undefined;
    if (document.hidden || !document.getElementById('fresh')) return;
    stream = new EventSource('/live');
    stream.onmessage = (event) => {
      if (event.data !== shown()) again();
    };
  };
  listen();
  document.addEventListener('visibilitychange', listen);
  addEventListener('pagehide', () => stream?.close());
  addEventListener('pageshow', (event) => {
    if (event.persisted) listen();
  });

  // What was typed is kept before the page is shown anew.
  document.addEventListener('click', async (event) => {
    const link = event.target.closest?.('#fresh a');
    if (!link) return;
    event.preventDefault();
    await Sward.keepAll();
    location.replace(address());
  });
}

// ---- How long it still lasts. Never "over": what is over, the server says.
{
  const MINUTE_MS = 60000;
  const ASK_AGAIN_MS = 15000;
  const lang = document.documentElement.lang;
  const named = (n, unit) =>
    new Intl.NumberFormat(lang, { style: 'unit', unit, unitDisplay: 'short' }).format(n);
  const span = (ms) => {
    if (ms < MINUTE_MS) return named(Math.ceil(ms / 1000), 'second');
    const minutes = Math.ceil(ms / MINUTE_MS);
    if (minutes < 60) return named(minutes, 'minute');
    if (minutes < 48 * 60) {
      return `${named(Math.floor(minutes / 60), 'hour')} ${named(minutes % 60, 'minute')}`;
    }
    return named(Math.ceil(minutes / 1440), 'day');
  };

  let serverMs = 0;
  let readAt = 0;
  let asked = 0;
  let timer;
  const tick = () => {
    const now = serverMs + performance.now() - readAt;
    for (const time of document.querySelectorAll('time[data-until]')) {
      const left = Number(time.dataset.until) - now;
      let text = time.querySelector('.left');
      if (!text) {
        text = document.createElement('span');
        text.className = 'left';
        time.append(' ', text);
      }
      const words = left > 0 ? `(${span(left)})` : '';
      if (text.textContent !== words) text.textContent = words;
      if (left <= 0 && performance.now() - asked > ASK_AGAIN_MS) {
        asked = performance.now();
        Sward.again();
      }
    }
  };

  let later;
  Sward.onMain((main) => {
    serverMs = Number(document.body.dataset.now);
    readAt = performance.now();
    clearInterval(timer);
    if (main.querySelector('time[data-until]')) {
      tick();
      timer = setInterval(tick, 1000);
    }
    clearInterval(later);
    const soon = main.querySelector('[data-again]');
    if (soon) later = setInterval(Sward.again, Math.max(250, Number(soon.dataset.again)));
    // A table that scrolls must be reachable without a pointer.
    for (const table of main.querySelectorAll('table')) {
      if (table.scrollWidth > table.clientWidth) table.tabIndex = 0;
    }
    document.getElementById('wrong')?.focus();
  });
}
