/**
 * What makes the page walk: plain script without a library, for a page that fetches nothing.
 * Everything it shows is in the page already; it lights, hides and shows.
 */
export const pageScript = `'use strict';
(() => {
  const data = JSON.parse(document.getElementById('tour').textContent);
  const body = document.body;
  const by = (id) => document.getElementById(id);
  const steps = [...document.querySelectorAll('article.step')];
  const svg = document.querySelector('.picture svg');
  const shapes = svg ? [...svg.querySelectorAll('[data-n]')] : [];
  const layers = svg ? [...svg.querySelectorAll('.layer')] : [];
  const links = [...document.querySelectorAll('.all a')];
  let at = 0;
  const light = (drawing, step) => {
    const dimmed = new Set(data.dimmed[step]);
    for (const shape of drawing.querySelectorAll('[data-n]'))
      shape.classList.toggle('dimmed', dimmed.has(Number(shape.getAttribute('data-n'))));
    for (const layer of drawing.querySelectorAll('.layer'))
      layer.classList.toggle('shown', Number(layer.getAttribute('data-layer')) === step);
  };
  const bring = () => {
    const frame = document.querySelector('.picture');
    const shown = frame.querySelector('.layer.shown :is(.badge,.path,.wire)');
    if (!shown) return;
    const box = shown.getBoundingClientRect();
    const own = frame.getBoundingClientRect();
    frame.scrollLeft += box.left + box.width / 2 - own.left - own.width / 2;
    frame.scrollTop += box.top + box.height / 2 - own.top - own.height / 2;
  };
  const show = (step, isMoved) => {
    at = Math.min(Math.max(step, 0), steps.length - 1);
    for (const [index, article] of steps.entries())
      article.hidden = index !== at && !body.classList.contains('handout');
    for (const [index, link] of links.entries())
      if (index === at) link.setAttribute('aria-current', 'step');
      else link.removeAttribute('aria-current');
    if (svg) {
      light(svg, at);
      const said = svg.querySelector('desc');
      if (said) said.textContent = data.said[at];
      bring();
    }
    const heading = steps[at].querySelector('h2');
    by('where').textContent = at + 1 + ' of ' + steps.length;
    const next = steps[at + 1];
    by('next').textContent = next ? 'Next: ' + next.querySelector('h2').textContent : 'The end of the tour.';
    by('back').disabled = at === 0;
    by('on').disabled = at === steps.length - 1;
    document.title = heading.textContent + ' · ' + data.title;
    if (!isMoved) return;
    if (location.hash !== '#' + steps[at].id) history.replaceState(null, '', '#' + steps[at].id);
    heading.focus({ preventScroll: true });
    if (body.classList.contains('handout')) steps[at].scrollIntoView();
    else scrollTo(0, 0);
  };
  const named = () => steps.findIndex(({ id }) => '#' + id === location.hash);
  const copyOf = (step) => {
    const copy = svg.cloneNode(true);
    light(copy, step);
    for (const layer of [...copy.querySelectorAll('.layer')])
      if (!layer.classList.contains('shown')) layer.remove();
    return copy;
  };
  const fill = () => {
    if (!svg || body.classList.contains('filled')) return;
    for (const [index, article] of steps.entries()) {
      const copy = copyOf(index);
      for (const each of copy.querySelectorAll('style,title[id],desc')) each.remove();
      copy.removeAttribute('aria-labelledby');
      copy.removeAttribute('aria-roledescription');
      copy.setAttribute('role', 'img');
      copy.setAttribute('aria-label', data.said[index]);
      article.querySelector('.copy').replaceChildren(copy);
    }
    body.classList.add('filled');
  };
  const empty = () => {
    if (body.classList.contains('handout')) return;
    for (const each of document.querySelectorAll('.copy')) each.replaceChildren();
    body.classList.remove('filled');
  };
  const toggle = (name) => {
    const isOn = body.classList.toggle(name);
    const button = by(name === 'flowing' ? 'flow' : name);
    if (button) button.setAttribute('aria-pressed', String(isOn));
    return isOn;
  };
  const handout = () => {
    if (toggle('handout')) fill();
    else empty();
    show(at, true);
  };
  const alone = () => {
    const copy = copyOf(at);
    for (const each of copy.querySelectorAll('[data-n]')) each.removeAttribute('data-n');
    for (const each of copy.querySelectorAll('.layer')) each.removeAttribute('data-layer');
    return new XMLSerializer().serializeToString(copy);
  };
  const keep = (blob, ending) => {
    const link = document.createElement('a');
    link.href = URL.createObjectURL(blob);
    link.download = data.file + '-' + steps[at].id + '.' + ending;
    link.click();
    setTimeout(() => URL.revokeObjectURL(link.href), 10000);
  };
  const keepSvg = () => keep(new Blob([alone()], { type: 'image/svg+xml' }), 'svg');
  const keepPng = () => {
    const url = URL.createObjectURL(new Blob([alone()], { type: 'image/svg+xml' }));
    const image = new Image();
    image.onload = () => {
      const canvas = document.createElement('canvas');
      canvas.width = 2 * image.width;
      canvas.height = 2 * image.height;
      canvas.getContext('2d').drawImage(image, 0, 0, canvas.width, canvas.height);
      URL.revokeObjectURL(url);
      canvas.toBlob((blob) => blob && keep(blob, 'png'), 'image/png');
    };
    image.src = url;
  };
  const doings = {
    back: () => show(at - 1, true),
    on: () => show(at + 1, true),
    flow: () => toggle('flowing'),
    presenter: () => toggle('presenter'),
    handout,
    print: () => { fill(); window.print(); },
    'keep-svg': keepSvg,
    'keep-png': keepPng,
  };
  for (const [id, doing] of Object.entries(doings)) by(id)?.addEventListener('click', doing);
  const keys = {
    ArrowRight: doings.on,
    PageDown: doings.on,
    n: doings.on,
    ArrowLeft: doings.back,
    PageUp: doings.back,
    b: doings.back,
    Home: () => show(0, true),
    End: () => show(steps.length - 1, true),
    p: doings.presenter,
    h: doings.handout,
    r: doings.flow,
  };
  document.addEventListener('keydown', (event) => {
    if (event.ctrlKey || event.metaKey || event.altKey || event.defaultPrevented) return;
    const doing = keys[event.key];
    if (!doing) return;
    event.preventDefault();
    doing();
  });
  addEventListener('hashchange', () => { if (named() >= 0) show(named(), true); });
  addEventListener('beforeprint', fill);
  addEventListener('afterprint', empty);
  body.classList.add('script', 'walking');
  for (const shape of shapes) shape.classList.remove('dimmed');
  toggle('flowing');
  show(Math.max(named(), 0), named() >= 0);
})();
`;
