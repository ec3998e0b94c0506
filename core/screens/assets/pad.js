// Large number keys at the foot, for fields with data-pad.
//
// They come with a tap on the field and not with a keyboard's Tab: whoever has a keyboard types.
{
  let pad;
  let field;

  const close = () => {
    pad?.remove();
    pad = undefined;
    document.body.classList.remove('pad-open');
    field?.removeAttribute('inputmode');
    field = undefined;
  };

  const put = (text) => {
    const [from, to] = [field.selectionStart ?? field.value.length, field.selectionEnd ?? field.value.length];
    field.setRangeText(text, from, to, 'end');
    Sward.typed(field);
  };

  const remove = () => {
    const [from, to] = [field.selectionStart, field.selectionEnd];
    field.setRangeText('', from === to ? Math.max(0, from - 1) : from, to, 'end');
    Sward.typed(field);
  };

  const take = (value) => {
    field.value = value;
    Sward.typed(field);
  };

  const done = () => {
    const was = field;
    close();
    was.focus();
  };

  const key = (text, press, words = '', label = '') => {
    const button = document.createElement('button');
    button.type = 'button';
    button.textContent = text;
    if (words) button.className = words;
    if (label) button.setAttribute('aria-label', label);
    // The field keeps the focus, so that a keyboard and a screen reader stay where they are.
    button.addEventListener('pointerdown', (event) => event.preventDefault());
    button.addEventListener('mousedown', (event) => event.preventDefault());
    button.addEventListener('click', press);
    return button;
  };

  const earlier = () => {
    const recent = (field.dataset.recent ?? '').split('|').filter(Boolean).slice(0, 3);
    if (!recent.length) return [];
    const group = document.createElement('div');
    group.className = 'pad-earlier';
    const name = document.createElement('span');
    name.textContent = Sward.word('frame-pad-earlier');
    group.append(name, ...recent.map((value) => key(value, () => take(value))));
    return [group];
  };

  const open = (input) => {
    close();
    field = input;
    const unit = input.parentElement.querySelector('.unit')?.textContent ?? '';
    const label = input.labels?.[0]?.textContent ?? '';
    pad = document.createElement('div');
    pad.className = 'pad';
    pad.setAttribute('role', 'group');
    pad.setAttribute('aria-label', `${label} ${unit}`.trim());
    const digit = (n) => key(n, () => put(n));
    const point = input.dataset.pad === 'whole'
      ? key('', () => {}, 'pad-none')
      : key('.', () => put('.'));
    if (input.dataset.pad === 'whole') {
      point.disabled = true;
      point.setAttribute('aria-hidden', 'true');
    }
    pad.append(
      ...earlier(),
      ...['7', '8', '9'].map(digit),
      key('\u232b', remove, '', Sward.word('frame-pad-delete')),
      ...['4', '5', '6'].map(digit),
      key(Sward.word('frame-pad-done'), done, 'pad-done'),
      ...['1', '2', '3'].map(digit),
      digit('0'),
      point,
      digit('00'),
    );
    input.parentElement.after(pad);
    document.body.classList.add('pad-open');
    input.scrollIntoView({ block: 'center' });
  };

  document.addEventListener('pointerdown', (event) => {
    // Said before the focus comes, or the device's own keys would come up too.
    if (event.target.matches?.('input[data-pad]')) event.target.inputMode = 'none';
  });
  document.addEventListener('click', (event) => {
    const input = event.target.closest?.('input[data-pad]');
    if (input && input !== field) open(input);
  });
  document.addEventListener('focusin', (event) => {
    if (pad && event.target !== field && !pad.contains(event.target)) close();
  });
  document.addEventListener('keydown', (event) => {
    if (pad && event.key === 'Escape') done();
  });
  document.addEventListener('submit', close);

  Sward.busyWhile(() => pad !== undefined);
}
