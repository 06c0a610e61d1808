// A published page in the hands of a reader: the other units, numbers of the reader's
// own, the search. The page is whole without it.
'use strict';
(() => {
  const body = document.body, page = document.documentElement;
  const root = body.dataset.root;
  const all = (where, what) => [...where.querySelectorAll(what)];
  const said = document.querySelector('.said');
  const say = (text) => { said.textContent = ''; setTimeout(() => { said.textContent = text; }, 50); setTimeout(() => { if (said.textContent === text) said.textContent = ''; }, 6000); };
  const remember = (key, value) => { try { if (value === undefined) return localStorage.getItem(key); localStorage.setItem(key, value); } catch { return null; } };
  const make = (tag, props, ...inside) => { const e = Object.assign(document.createElement(tag), props); e.append(...inside); return e; };
  const words = (name) => name.replaceAll('.', ', ').replaceAll('_', ' ');

  // Both families of units are in the page: a block's other face lies in a template.
  const other = () => page.dataset.units === body.dataset.other;
  const turnOver = () => {
    putBack(); // the faces of what was tried are the engine's; those of the page come back first
    for (const b of all(document, '.b')) {
      const t = b.lastElementChild;
      if (!t || t.tagName !== 'TEMPLATE') continue;
      const face = document.createDocumentFragment();
      while (b.firstChild !== t) face.append(b.firstChild);
      const back = t.content.cloneNode(true);
      b.prepend(back);
      t.content.replaceChildren(face);
    }
    page.dataset.units = other() ? body.dataset.own : body.dataset.other;
    askable(document);
  };
  const units = document.querySelector('button.units');
  units.hidden = false;
  units.addEventListener('click', () => {
    turnOver();
    remember('scarph-units', page.dataset.units);
    if (numbers.size > 0) follow();
    say('Lengths in ' + page.dataset.units + '.');
  });

  // A value that has a name can be tried: its link opens a card. The link itself still
  // leads to the table of dimensions, from the card and without scripts.
  const askable = (where) => { for (const v of all(where, 'a.v[data-name]')) { v.setAttribute('role', 'button'); v.setAttribute('aria-haspopup', 'dialog'); } };
  const card = document.getElementById('try');
  const part = (what) => card.querySelector(what);
  let asked = '', own = '', opener = null;
  const plain = (text) => text.replace(/ (strong|shy)$/, '').replace(/ ± .*$/, '');
  const open = (v) => {
    asked = v.dataset.name;
    opener = v;
    part('h2').textContent = words(asked);
    part('.big').textContent = v.textContent;
    part('.also').textContent = v.title;
    part('.where a').href = v.getAttribute('href');
    const text = part('input');
    own = /^[0-9.½¼¾⅛⅜⅝⅞]/.test(v.textContent) && !/ values$| results$/.test(v.textContent) ? plain(v.textContent) : '';
    text.value = numbers.get(asked) ?? own;
    part('#try-fault').textContent = '';
    part('.back').hidden = !numbers.has(asked);
    part('.go').hidden = part('label').hidden = text.hidden = !('engine' in body.dataset);
    if (!text.hidden && !navigator.connection?.saveData) getReady().catch(() => {}); // trying says what is wrong
    card.showModal();
    text.select();
  };
  document.addEventListener('click', (e) => {
    const v = e.target.closest('a.v[data-name]');
    if (v && !e.ctrlKey && !e.metaKey && !e.shiftKey) { e.preventDefault(); open(v); return; }
    const a = e.target.closest('a[href]');
    if (!a || numbers.size === 0 || a.origin !== location.origin || a.protocol !== location.protocol || a.classList.contains('plain')) return;
    if (a.pathname === location.pathname && a.hash) return; // the numbers stay on the page
    a.dataset.place ??= decodeURIComponent(a.hash.slice(1));
    a.hash = carrying(a.dataset.place);
  });
  document.addEventListener('keydown', (e) => {
    const v = e.target.closest?.('a.v[data-name]');
    if (v && e.key === ' ') { e.preventDefault(); open(v); }
  });
  // While the first number is typed, what hangs on it is worked out with the journal's own.
  part('input').addEventListener('input', () => { start().then(rehearse).catch(() => {}); }, { passive: true });
  card.addEventListener('close', () => { if (opener?.isConnected) opener.focus(); });
  card.addEventListener('click', (e) => { if (e.target === card) card.close(); });
  part('.close').addEventListener('click', () => card.close());
  part('.where a').addEventListener('click', () => card.close());
  part('.back').addEventListener('click', async () => { numbers.delete(asked); await follow(); card.close(); });
  card.querySelector('form').addEventListener('submit', async (e) => {
    e.preventDefault();
    const text = part('input').value.trim(), before = numbers.get(asked);
    if (!text) { part('#try-fault').textContent = 'Write a number with its unit.'; return; }
    numbers.set(asked, text);
    const fault = await follow();
    if (!fault) { card.close(); return; }
    if (before === undefined) numbers.delete(asked); else numbers.set(asked, before);
    await follow();
    part('#try-fault').textContent = fault;
    part('input').focus();
  });

  // The engine is the program's own kernel. It is made ready when a number is first looked
  // at, and works the journal out when one is tried.
  const numbers = new Map(); // the reader's, by name
  const inPage = (id) => document.getElementById(id)?.textContent;
  const script = (src, name) => new Promise((resolve, reject) => {
    if (name) window[name] = (x) => { delete window[name]; resolve(x); };
    const s = make('script', { src: root + 'assets/' + src, onerror: () => reject(new Error(src)) });
    if (!name) s.onload = resolve;
    document.head.append(s);
  });
  const unbase = (text) => {
    const raw = atob(text), bytes = new Uint8Array(raw.length);
    for (let i = 0; i < raw.length; i++) bytes[i] = raw.charCodeAt(i);
    return bytes;
  };
  // What arrives packed is unpacked, and said to be what it is, so that it is compiled on its way.
  const asWasm = async (body) => {
    const reader = body.getReader(), first = (await reader.read()).value;
    const all = new ReadableStream({
      start(out) { out.enqueue(first); },
      async pull(out) { const { done, value } = await reader.read(); if (done) out.close(); else out.enqueue(value); },
    });
    const already = first[0] === 0; // the server has unpacked it on the way
    return new Response(already ? all : all.pipeThrough(new DecompressionStream('gzip')), { headers: { 'Content-Type': 'application/wasm' } });
  };
  const compiled = async () => {
    const inside = inPage('scarph-engine');
    if (!inside && location.protocol !== 'file:') {
      const r = await fetch(root + 'assets/engine.wasm.gz').catch(() => null);
      if (r?.ok) return WebAssembly.compileStreaming(asWasm(r.body));
    }
    const bytes = unbase(inside ?? await script('engine.js', 'scarphEngine'));
    return WebAssembly.compileStreaming(asWasm(new Blob([bytes]).stream()));
  };
  const prepare = async () => { // what it takes is fetched side by side
    const [module, cargo] = await Promise.all([
      compiled(),
      inPage('scarph-cargo') ?? script('cargo.js', 'scarphCargo').then(JSON.stringify),
      window.Go ?? script('wasm_exec.js'),
    ]);
    const go = new Go();
    go.env = { GOGC: '400' }; // memory is not looked through while the journal is worked out
    const instance = await WebAssembly.instantiate(module, go.importObject);
    const ready = new Promise((resolve) => { window.scarphReady = resolve; });
    go.run(instance);
    await ready;
    return cargo;
  };
  let prepared, engine;
  const getReady = () => (prepared ??= prepare().catch((x) => { prepared = undefined; throw x; }));
  const workOut = (cargo) => { if (!scarph.open(cargo)) throw new Error('cargo'); return scarph; };
  const start = () => (engine ??= getReady().then(workOut).catch((x) => { engine = undefined; throw x; }));

  // What is tried stands in place of the page's own lines until it is put back.
  const away = []; // [what stands there now, what stood there before]
  const putBack = () => { while (away.length) { const [now, was] = away.pop(); now.replaceWith(was); } };
  const put = (was, html) => {
    const t = make('template', { innerHTML: html }), now = t.content.firstElementChild;
    if (!now) return;
    was.replaceWith(now);
    away.push([now, was]);
    askable(now.parentNode);
  };
  const onPage = () => all(document, 'article[data-entry]');
  let rehearsed = false;
  const rehearse = (e) => {
    if (rehearsed || numbers.size > 0 || !own) return;
    rehearsed = true;
    e.tries([[asked, own]], other());
    for (const a of onPage()) e.lines(a.dataset.entry, root, other());
    e.tries([], other());
  };
  const follow = async () => {
    let e;
    page.classList.add('waiting');
    try { e = await start(); } catch (x) { return 'The numbers cannot be tried here: ' + (typeof WebAssembly === 'object' ? 'a part of the page could not be loaded (' + x.message + ').' : 'this browser is too old.'); } finally { page.classList.remove('waiting'); }
    putBack();
    const r = e.tries([...numbers], other());
    if (r.error) return r.error + (r.hint ? '. ' + r.hint : '') + '.';
    if (numbers.size > 0) {
      for (const a of onPage()) {
        const now = e.lines(a.dataset.entry, root, other()); // of what hangs on the numbers
        for (const at of all(a, '[data-line]')) { const line = now[+at.dataset.line]; if (line) put(at, line); }
      }
      for (const l of all(document, '[data-list]')) {
        const t = l.querySelector(':scope > template');
        const now = make('div', { className: 'yours-list', innerHTML: e.list(l.dataset.list, root, other()) });
        const was = make('div');
        for (const n of [...l.childNodes]) if (n !== t) was.append(n);
        l.prepend(now);
        away.push([{ replaceWith: () => now.replaceWith(...was.childNodes) }, null]);
        askable(now);
      }
      for (const v of all(document, '.v[data-name]')) v.classList.toggle('yours', numbers.has(v.dataset.name));
    }
    const hash = numbers.size > 0 ? carrying() : '';
    if (hash !== location.hash && (hash || location.hash.startsWith('#yours:'))) history.replaceState(null, '', hash || location.pathname + location.search);
    tell(r.moved ?? []);
    return '';
  };

  const brief = (text) => { const n = text.split(', ').length; return n > 4 ? n + ' values' : text; }; // a list of marks, say
  const step = (from, to) => (from === to ? to : from + ' → ' + to);

  // The bar says what is tried, what follows, and the way back.
  const bar = document.getElementById('yours');
  const tell = (moved) => {
    bar.hidden = numbers.size === 0;
    if (bar.hidden) { say('The journal’s numbers again.'); return; }
    const list = make('span', { className: 'given' });
    for (const [name, text] of numbers) {
      const drop = make('button', { type: 'button', className: 'act', textContent: 'drop', title: 'the journal’s ' + words(name) + ' again' });
      drop.setAttribute('aria-label', 'drop ' + words(name));
      drop.addEventListener('click', () => { numbers.delete(name); follow(); });
      list.append(make('span', {}, make('b', { textContent: words(name) + ' ' + text }), ' ', drop), ' ');
    }
    const others = moved.filter((m) => !m.yours), n = others.filter((m) => m.to).length, lost = others.length - n;
    const followed = (n === 0 ? (lost ? 'no value follows' : 'nothing else follows') : n === 1 ? '1 value follows' : n + ' values follow') + (lost ? ', ' + lost + (lost === 1 ? ' does not' : ' do not') : '');
    const back = make('button', { type: 'button', className: 'act', textContent: 'The journal’s numbers' });
    back.addEventListener('click', () => { numbers.clear(); follow(); });
    const link = make('button', { type: 'button', className: 'act', textContent: 'Copy a link' });
    link.addEventListener('click', async () => {
      try { await navigator.clipboard.writeText(location.href.replace(/#.*|$/, carrying())); say('The link carries your numbers.'); } catch { say(location.href.replace(/#.*|$/, carrying())); }
    });
    const details = make('details', {}, make('summary', { textContent: followed }), make('ul', {}, ...others.map((m) => make('li', { textContent: words(m.name) + ': ' + (m.to ? step(brief(m.from), brief(m.to)) : brief(m.from) + ' → no value: see there') }))));
    bar.replaceChildren(make('p', {}, 'Your numbers: ', list), details, make('p', { className: 'acts' }, back, ' ', link));
    say(followed + '.');
  };

  // A link that carries a reader's numbers; under @, for no value bears that name, the place
  // on the page.
  const carrying = (place) => '#yours:' + new URLSearchParams(place ? [...numbers, ['@', place]] : [...numbers]);
  const carried = () => {
    if (!location.hash.startsWith('#yours:') || !('engine' in body.dataset)) return;
    numbers.clear();
    const given = new URLSearchParams(location.hash.slice('#yours:'.length)), place = given.get('@');
    given.delete('@');
    for (const [name, text] of [...given].slice(0, 50)) numbers.set(name, text);
    const there = () => { if (place) document.getElementById(place)?.scrollIntoView(); };
    there();
    if (numbers.size > 0) follow().then((fault) => { if (fault) { say(fault); numbers.clear(); } there(); });
  };
  window.addEventListener('hashchange', carried);

  // The search.
  const asking = document.getElementById('words');
  if (asking) {
    const finds = document.querySelector('.finds'), counted = document.querySelector('.counted');
    let index;
    const fold = (s) => s.normalize('NFD').replace(/\p{M}/gu, '').toLowerCase();
    const show = async () => {
      index ??= script('../search-index.js', 'scarphIndex').then((list) => list.map((f) => ({ ...f, words: fold(f.title + ' ' + f.text) })));
      const list = await index, want = fold(asking.value).split(/\s+/).filter(Boolean);
      const found = want.length === 0 ? [] : list.filter((f) => want.every((w) => f.words.includes(w)));
      found.sort((a, b) => want.every((w) => fold(b.title).includes(w)) - want.every((w) => fold(a.title).includes(w)));
      finds.replaceChildren(...found.slice(0, 60).map((f) => {
        const at = fold(f.text).indexOf(want[0]), from = Math.max(0, at - 60);
        return make('li', {}, make('span', { className: 'day', textContent: f.day ?? '' }), make('span', { className: 'what' }, make('a', { href: root + f.at, textContent: f.title }), ' ', make('span', { className: 'summary', textContent: (from > 0 ? '… ' : '') + f.text.slice(from, from + 160) + (f.text.length > from + 160 ? ' …' : '') })));
      }));
      counted.textContent = want.length === 0 ? '' : found.length === 1 ? '1 find' : found.length + ' finds';
    };
    asking.addEventListener('input', show);
    asking.form.addEventListener('submit', (e) => { e.preventDefault(); show(); });
    const asked = new URLSearchParams(location.search).get('q');
    if (asked) { asking.value = asked; show(); }
    asking.focus();
  }

  askable(document);
  if (remember('scarph-units') === body.dataset.other) turnOver();
  carried();
})();
